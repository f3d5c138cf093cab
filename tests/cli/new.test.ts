import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { HAND, sigmaOf } from '../../src/insight/hand/figure-tolerance.js';
import { Scorer } from '../../src/score/scorer.js';
import { stream } from '../../src/search/random.js';
import { Sobol } from '../../src/search/sobol.js';
import { folderWith, run, runHere } from './support.js';

describe.each(patterns)('the pattern $name', ({ name, text }) => {
  const figure = compileFigure(parseFigure(text, `${name}.yaml`));

  it('works as it starts', () => {
    const { works, limits, wants } = new Scorer(figure).score(figure.start);
    expect([...limits, ...wants].filter(({ met }) => !met)).toEqual([]);
    expect(works).toBe(true);
  });

  it('works in a good part of its ranges, so that there is something to explore', () => {
    const scorer = new Scorer(figure);
    const sobol = new Sobol(figure.free.length, 1);
    const count = 24;
    let works = 0;
    for (let i = 0; i < count; i++) {
      const unit = sobol.point(i);
      const vector = Float64Array.from(figure.free, (dim, k) =>
        dim.kind === 'choice'
          ? Math.floor(unit[k] * dim.options.length)
          : dim.min + unit[k] * (dim.max - dim.min),
      );
      if (scorer.score(vector).works) works++;
    }
    expect(works / count).toBeGreaterThan(0.2);
  });

  it('survives the hand: most dummies cut by it shut, open and do what is wanted', () => {
    const scorer = new Scorer(figure);
    const template = figure.template(figure.start);
    const random = stream(1, 'cut by hand');
    const count = 24;
    const cards = Array.from({ length: count }, () => {
      const errors = Float64Array.from(template.cuts, (cut) => random.normal() * sigmaOf(cut, HAND));
      return scorer.scoreCut(template, errors, figure.start);
    });
    const sound = cards.filter(({ limits }) => limits.every(({ met }) => met)).length;
    expect(sound / count).toBeGreaterThan(0.7);
    expect(cards.filter(({ works }) => works).length / count).toBeGreaterThan(0.7);
  });

  it('says of every dim what it is, and starts none of them in the dark', () => {
    const dims = text.slice(text.indexOf('dims:'), text.search(/^(places|parts):/m));
    const lines = dims.split('\n').filter((line) => /\{ (from|choose)/.test(line));
    expect(lines.length).toBe(figure.free.length);
    for (const line of lines) {
      expect(line).toContain('#');
      if (line.includes('from')) expect(line).toContain('start:');
    }
  });
});

test('a new file works, is not written over, and goes by the name that was asked for', async () => {
  const folder = folderWith({});
  const made = await runHere(folder, 'new', 'standing-v', 'sail.yaml');
  expect([made.code, made.err]).toEqual([0, '']);
  expect((await run(folder, 'check', 'sail.yaml')).code).toBe(0);

  writeFileSync(join(folder, 'sail.yaml'), 'mine');
  const again = await runHere(folder, 'new', 'standing-v', 'sail.yaml');
  expect([again.code, again.out]).toEqual([2, '']);
  expect(again.err).toContain('choose another name');
  expect(readFileSync(join(folder, 'sail.yaml'), 'utf8')).toBe('mine');
});

test('what to type next can be typed as it stands, whatever the file is called', async () => {
  const folder = folderWith({});
  const { out } = await runHere(folder, 'new', 'standing-v', "the jay's wing.yaml");
  expect(out).toContain(`npx dummyrun check 'the jay'\\''s wing.yaml'\n`);
});

test.each([
  [['standing-w', 'a.yaml'], "did you mean 'standing-v'?"],
  [['standing-v', 'no/such/a.yaml'], 'choose a folder that is there'],
  [['standing-v'], "missing required argument 'file'"],
])('new %j is refused in words', async (args, message) => {
  const { code, err } = await runHere(folderWith({}), 'new', ...args);
  expect(code).toBe(2);
  expect(err).toContain(message);
});

test('the patterns are listed with the page of their pictures, which shows each', async () => {
  const { code, out } = await runHere(folderWith({}), 'new', '--list');
  expect(code).toBe(0);
  const page = /^Their pictures: (.*)$/m.exec(out)?.[1] ?? '';
  const shown = readFileSync(page, 'utf8');
  for (const { name, about } of patterns) {
    expect(out).toMatch(new RegExp(`${name} +${about}`));
    expect(shown).toContain(`### ${name}\n`);
    expect(shown.toLowerCase()).toContain(about.toLowerCase());
    expect(shown).toContain(`pictures/pattern-${name}.svg`);
  }
});

test('help lists the patterns', async () => {
  const { code, out } = await runHere(folderWith({}), 'new', '--help');
  expect(code).toBe(0);
  for (const { name, about } of patterns) expect(out).toMatch(new RegExp(`${name} +${about}`));
});
