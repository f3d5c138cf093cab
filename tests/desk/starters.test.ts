import { expect, it } from 'vitest';
import { Kernel } from '../../src/desk/page/kernel.js';
import { placeAt } from '../../src/desk/page/place-at.js';
import { motionOf } from '../../src/desk/page/shown.js';
import { addPart } from '../../src/edit/add-part.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';

const SAIL = `figure: sail
page: A5 portrait
parts:
  - { name: sail, kind: v-fold, at: 70, glue: 60, panels: 68, feet: 40, ridge: 55 }
`;
const kernel = new Kernel();
kernel.read(SAIL, 'sail.yaml', {});

it('stands where the crease was pointed to, else where it does no harm', () => {
  const motion = motionOf(1, { figure: kernel.figure, vector: kernel.figure.start }, kernel.source);
  const place = placeAt(motion, 'left page', [-1, 183]);
  expect(place).toEqual({ kind: 'crease', name: 'gutter', along: 183 });
  const at = (on: Parameters<Kernel['starters']>[0], title: string) =>
    kernel.starters(on).find((starter) => starter.title === title);
  // A box about the place that was clicked, as far as the page goes.
  const box = at(place, 'Box')?.part as unknown as { at: number; length: number };
  expect(box.at + box.length).toBeLessThanOrEqual(210);
  expect(box.at + box.length).toBeGreaterThan(183);
  expect(at(place, 'V-fold')?.part.at).toBe(183);
  // With nothing pointed to, beside the sail and not over it.
  for (const { title, part, trouble } of kernel.starters({ kind: 'crease', name: 'gutter' })) {
    if (trouble !== '') continue;
    const figure = compileFigure(parseFigure(addPart(kernel.source, part), 'sail.yaml'));
    expect([title, new Scorer(figure).score(figure.start).works]).toEqual([title, true]);
  }
  expect(at({ kind: 'crease', name: 'gutter' }, 'Tent')?.trouble).toBe('');
});

it('says of a part that breaks a limit which one it is', () => {
  kernel.read(`${SAIL}limits: { pile: 0.6 }\n`, 'sail.yaml', {});
  const troubles = kernel.starters({ kind: 'panel', name: 'sail left' }).map(({ trouble }) => trouble);
  expect(troubles).toContain('breaks a limit: pile');
});
