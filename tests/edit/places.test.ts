import { describe, expect, it } from 'vitest';
import { goingWith, removePart } from '../../src/edit/remove.js';
import { renamePart } from '../../src/edit/rename.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { readFigure } from '../../src/figure/read.js';
import { data, read } from './support.js';

const LEG = patterns.find(({ name }) => name === 'limb-on-hubs')?.text ?? '';

const names = (text: string): string[] => (data(text).parts as { name: string }[]).map(({ name }) => name);

describe('places, when a part goes', () => {
  it('go with it where they lie on it, and with them what is measured from them', () => {
    const { parts, places } = goingWith(read(LEG), 'floor');
    expect(places).toEqual(['hip', 'knee', 'toe']);
    expect(parts).toEqual(['floor', 'thigh', 'shin', 'hip', 'knee', 'toe']);
    const rest = removePart(read(LEG), 'floor');
    expect(Object.keys(data(rest).places as object)).toEqual(['inner', 'outer']);
  });

  it('are not parts of the same name: without its hub, the place of the hip stays', () => {
    expect(goingWith(read(LEG), 'hip')).toMatchObject({ parts: ['hip'], places: [] });
    const rest = removePart(read(LEG), 'toe');
    expect(rest).toContain('toe: { on: floor');
    expect(rest).toContain('to: toe');
    expect(rest).not.toContain('kind: tongue');
  });

  it('go by what arithmetic measures, and go all where none is left', () => {
    const text = `page: A5
places:
  tip: { on: sail left, at: [10, 10] }
parts:
  - { name: sail, kind: v-fold, at: 60, glue: 60, panels: 70, feet: 30, ridge: 40 }
  - { name: mast, kind: v-fold, at: 110, glue: 60, panels: 70, feet: 20, ridge: length(sail ridge) - 5 }
  - { name: flag, kind: glued-piece, on: mast left, at: [5, up(tip on sail left)], outline: [[0, 0], [9, 0], [9, 9]] }
  - { name: tent, kind: parallel-fold, at: 150, length: 40, glue: 20, widths: 25 }
faces: { flag: back }
`;
    expect(goingWith(read(text), 'sail').parts).toEqual(['sail', 'mast', 'flag']);
    const rest = removePart(read(text), 'sail');
    expect(names(rest)).toEqual(['tent']);
    expect(rest).not.toMatch(/places|faces/);
  });
});

describe('a part of the heron and of a limb', () => {
  const figures = [LEG, readFigure('examples/heron.yaml').text];
  it.each(figures)('can be taken out, and what is left is a figure', (text) => {
    for (const name of names(text)) {
      if (goingWith(read(text), name).parts.length === names(text).length) continue;
      expect(() => data(removePart(read(text), name)), name).not.toThrow();
    }
  });

  it.each(figures)('can be called otherwise, and then as before, to the letter', (text) => {
    for (const name of names(text)) {
      const other = renamePart(read(text), name, 'quite another');
      expect(names(other), name).toContain('quite another');
      expect(renamePart(read(other), 'quite another', name)).toBe(text);
    }
  });
});

describe('a dim that chooses between panels', () => {
  it('is no longer a choice where one of them goes', () => {
    const text = readFigure('examples/ferryman.yaml').text;
    expect(goingWith(read(text), 'starboard').parts).toEqual(['starboard', 'starboard oar']);
  });
});
