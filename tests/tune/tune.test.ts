import { beforeAll, describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { nearerInWords, tunedInWords } from '../../src/report/words/tune-words.js';
import { findCatches } from '../../src/score/catches.js';
import { type Tuned, Tuning } from '../../src/tune/tune.js';
import { changesOf, figureFrom, NO_OPTIONS, textWorks, trialsOf, tuned } from './support.js';

/**
 * A tent whose every answer has a formula: feet 30 mm from the gutter, sides 40 mm. Shut, its ridge lies 30 + 40 mm
 * from the gutter; a leaf of A5 is 148 mm wide. Half open it stands √(40² − 15²…) high: wanted are 35 mm, which its
 * sides give when the page is open: √(40² − 30²) = 26.5 mm at 180°, 40 mm where both feet meet.
 */
const tent = (fields: string, wants = '') => `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, ${fields} }
${wants}`;

/** As far as the sides are too long for the page: shut they reach glue + width from the gutter. */
const TOO_WIDE = tent('glue: [30, 30], widths: [130, 130]');

/** What frees that tent, asked once for all that is said of it. */
let wide: Tuned;
beforeAll(async () => {
  wide = await tuned(figureFrom(TOO_WIDE));
});

describe('tune', () => {
  it('has nothing to free in a figure that works', async () => {
    const { card, troubles, remedies, tried } = await tuned(
      figureFrom(tent('glue: [30, 30], widths: [40, 40]')),
    );
    expect([card.works, troubles, remedies, tried]).toEqual([true, [], [], 1]);
  });

  it('finds the least change that a formula gives: 12 mm of 130 + 30 − 148', () => {
    const { troubles, remedies } = wide;
    expect(troubles).toMatchObject([{ kind: 'limit', limit: { name: 'overhang', value: 12 } }]);
    const all = remedies.map(changesOf);
    // Moving both feet or cutting both sides, each taken as one dim; nothing less does.
    expect(all).toContainEqual(['tent.glue.0 30 → 18', 'tent.glue.1 30 → 18']);
    expect(all).toContainEqual(['tent.widths.0 130 → 118', 'tent.widths.1 130 → 118']);
    expect(remedies[0].cost).toMatchObject({ price: 1, amount: 12 });
  });

  it('a remedy a measure smaller would not do', () => {
    const { remedies } = wide;
    for (const { changes, text } of remedies) {
      expect(textWorks(text)).toBe(true);
      const [{ from, to }] = changes;
      const smaller = Number(to) + Math.sign(Number(from) - Number(to)) * 0.5;
      const less = text.replaceAll(new RegExp(`\\b${to}(?!\\.)\\b`, 'g'), String(smaller));
      expect(less).not.toBe(text);
      expect(textWorks(less)).toBe(false);
    }
  });

  it('says which settings it takes as tied, and why', () => {
    const { ties, remedies } = wide;
    expect(ties).toContainEqual({ because: 'equal', names: ['tent.glue.0', 'tent.glue.1'] });
    expect(ties).toContainEqual({
      because: 'shuts',
      part: 'tent',
      names: ['tent.glue.0', 'tent.glue.1', 'tent.widths.0', 'tent.widths.1'],
    });
    expect(remedies[0].ties.map(({ because }) => because)).toContain('equal');
  });

  it('leaves what is held, and obeys prices', async () => {
    const held = await tuned(figureFrom(TOO_WIDE), { hold: ['tent.glue'] });
    expect(held.remedies.length).toBeGreaterThan(0);
    expect(held.remedies.flatMap(changesOf).join()).not.toContain('glue');
    const dear = await tuned(figureFrom(TOO_WIDE), { prices: new Map([['tent.widths', 5]]) });
    expect(changesOf(dear.remedies[0])[0]).toContain('glue');
    const other = await tuned(figureFrom(TOO_WIDE), { prices: new Map([['tent.glue', 5]]) });
    expect(changesOf(other.remedies[0])[0]).toContain('widths');
    expect(other.remedies[0].cost.price).toBe(1);
    for (const names of [
      ['tent.widths', 'tent'],
      ['tent', 'tent.widths'],
    ]) {
      const prices = new Map(names.map((name) => [name, name === 'tent' ? 5 : 1]));
      const { remedies } = await tuned(figureFrom(TOO_WIDE), { prices });
      expect(changesOf(remedies[0])[0], names.join()).toContain('widths');
      expect(remedies[0].cost.price).toBe(1);
    }
  });

  it('tells what comes nearer as it looks, each nearer than the one before', async () => {
    const source = figureFrom(TOO_WIDE);
    const tuning = new Tuning(source, compileFigure(source), NO_OPTIONS);
    const told: [string, number][] = [];
    await tuning.run(trialsOf(tuning, 3000), (changes, gone) =>
      told.push([nearerInWords(changes, gone), gone]),
    );
    expect(told.length).toBeGreaterThan(0);
    for (const [i, [words, gone]] of told.entries()) {
      expect(words).toMatch(/^nearest so far: tent\..* → .*; (it works|\d.* % of what is wrong is gone)$/);
      const percent = Number(/([\d.]+) % of what/.exec(words)?.[1] ?? 100);
      expect(Math.abs(percent - 100 * gone)).toBeLessThanOrEqual(0.5);
      if (i > 0) expect(gone).toBeGreaterThan(told[i - 1][1]);
    }
    expect(told.at(-1)?.[0]).toMatch(/; it works$/);
  });

  it('tells all that still catches where nothing is found', async () => {
    // A mast inside a tent: it catches on both sides.
    const source = figureFrom(
      `${tent('glue: 30, widths: 34')}  - { name: mast, kind: v-fold, at: 60, glue: 60, panels: 75, feet: 40, ridge: 60 }\n`,
    );
    const figure = compileFigure(source);
    const found = await tuned(source, { hold: ['tent', 'mast'], mostCut: 0 }, 50);
    const all = findCatches(figure, figure.start);
    expect(all.length).toBeGreaterThan(1);
    expect(found.remedies).toEqual([]);
    expect(found.nearest.catches).toEqual(all);
    const words = tunedInWords('drummer', found, figure.wants, []).join('\n');
    for (const { between } of all) expect(words).toContain(between.join(' and '));
  });

  it('holds a whole part, and then finds no remedy and says what stands in the way', async () => {
    const { remedies, nearest, finished } = await tuned(figureFrom(TOO_WIDE), { hold: ['tent'] });
    expect([remedies, finished]).toEqual([[], true]);
    expect(nearest.card.limits.filter(({ met }) => !met).map(({ name }) => name)).toEqual(['overhang']);
  });

  it.each([
    [{ hold: ['tant'] }, '--hold'],
    [{ prices: new Map([['tent.glu', 2]]) }, '--price'],
  ])('refuses a name that nothing bears: %j', (options, option) => {
    const source = figureFrom(TOO_WIDE);
    const make = () => new Tuning(source, compileFigure(source), { ...NO_OPTIONS, ...options });
    expect(make).toThrow(InputError);
    expect(make).toThrow(option);
  });

  it('changes two dims where one alone will not do', async () => {
    // Two tents, one beside the other, each too wide by itself.
    const text = `${TOO_WIDE.trimEnd()}
  - { name: other, kind: parallel-fold, at: 110, length: 60, glue: [35, 35], widths: [120, 120] }
`;
    const { remedies } = await tuned(figureFrom(text), {}, 600);
    expect(remedies.length).toBeGreaterThan(0);
    // 12 mm off the one and 7 mm off the other.
    expect(remedies[0].cost).toMatchObject({ price: 2, amount: 19 });
    const parts = new Set(remedies[0].changes.map(({ setting }) => setting.name.split('.')[0]));
    expect([...parts].sort()).toEqual(['other', 'tent']);
  });

  it('turns a word: a counter-fold that was folded out where it can only fold in', async () => {
    const text = `${tent('glue: [30, 30], widths: [45, 45]')}
  - { name: arm, kind: counter-fold, on: tent ridge, at: 20, diagonal: 30, side: 10, length: 14, fold: out }
`.replace('\n\n', '\n');
    const { troubles, remedies } = await tuned(figureFrom(text));
    expect(troubles[0].kind).toBe('no card');
    expect(changesOf(remedies[0])).toEqual(['arm.fold out → in']);
  });

  it('stops at its budget, and says that it had not tried all', async () => {
    const source = figureFrom(TOO_WIDE);
    const tuning = new Tuning(source, compileFigure(source), NO_OPTIONS);
    const { tried, finished, remedies } = await tuning.run(trialsOf(tuning, 3));
    expect([tried, finished, remedies]).toEqual([3, false, []]);
  });

  it('offers what works by then, though it may not be as small as it can be', async () => {
    const source = figureFrom(TOO_WIDE);
    const tuning = new Tuning(source, compileFigure(source), NO_OPTIONS);
    const { finished, remedies } = await tuning.run(trialsOf(tuning, wide.tried - 5));
    expect(finished).toBe(false);
    expect(remedies.length).toBeGreaterThan(0);
    for (const { text } of remedies) expect(textWorks(text)).toBe(true);
  });

  it('finds the same again', async () => {
    const again = await tuned(figureFrom(TOO_WIDE));
    expect(again.remedies.map(({ text }) => text)).toEqual(wide.remedies.map(({ text }) => text));
  });

  it('keeps to ranges and steps of the file, and moves only where they start', async () => {
    const text = `page: A5
dims:
  foot: { from: 20, to: 40, start: 30 } # a remark
  side: { from: 112, to: 140, start: 130, step: 4 }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [foot, foot], widths: [side, side] }
`;
    const { remedies } = await tuned(figureFrom(text));
    const byName = new Map(
      remedies.map((remedy) => [remedy.changes.map(({ setting }) => setting.name).join(), remedy]),
    );
    // 18 mm would be needed of `foot`, which may go down to 20 only; `side` has 116 as its first step that fits.
    expect(byName.has('foot')).toBe(false);
    const side = byName.get('side');
    expect(side && changesOf(side)).toEqual(['side 130 → 116']);
    expect(side?.text).toBe(text.replace('start: 130', 'start: 116'));
  });
});

describe('cuts', () => {
  // One corner of a stick catches on the rim of a drum.
  const drummer = readFigure('examples/stuck-drummer.yaml');

  it('are offered beside changes of dims, and work as they are written', async () => {
    const { remedies } = await tuned(drummer);
    const cut = remedies.filter(({ cuts }) => cuts.length > 0);
    expect(cut.map(({ cuts }) => cuts.map(({ panel }) => panel))).toEqual(
      expect.arrayContaining([['stick'], ['drum right']]),
    );
    for (const { cuts, text, cost, changes } of cut) {
      expect(textWorks(text)).toBe(true);
      expect(changes).toEqual([]);
      expect(cost.amount).toBeCloseTo(Math.sqrt(cuts[0].area), 9);
    }
    const costs = remedies.map(({ cost }) => cost.price * 1e6 + cost.amount);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  });

  it('are not made in what is held, and cost what the part costs', async () => {
    const held = await tuned(drummer, { hold: ['stick'] });
    expect(held.remedies.flatMap(({ cuts }) => cuts.map(({ panel }) => panel))).toEqual(['drum right']);
    const dear = await tuned(drummer, { prices: new Map([['stick', 4]]) });
    expect(dear.remedies.find(({ cuts }) => cuts[0]?.panel === 'stick')?.cost.price).toBe(4);
  });

  it('can be made in a finished dummy; moving what is glued cannot', async () => {
    const { remedies } = await tuned(drummer, { keepGlued: true });
    expect(remedies.some(({ cuts }) => cuts.length > 0)).toBe(true);
    const names = remedies.flatMap(({ changes }) => changes.map(({ setting }) => setting.name));
    for (const glued of ['stand', 'lean', 'rim', 'drum.at', 'stick.at.0', 'stick.at.1'])
      expect(names).not.toContain(glued);
  });
});

describe('what is wrong', () => {
  it('begins with a fold whose own numbers do not fit, then follows the page as it closes', async () => {
    const { troubles } = await tuned(figureFrom(tent('glue: [24, 24], widths: [40, 33]')), {}, 1);
    expect(troubles[0]).toMatchObject({
      kind: 'does not fit',
      relation: { part: 'tent', unit: 'mm', sides: [40, 33], feet: [24, 24], shuts: 7 },
    });
    const angles = troubles.flatMap((trouble) =>
      'startsAt' in trouble ? [trouble.startsAt] : 'pageAngle' in trouble ? [trouble.pageAngle] : [],
    );
    expect(angles.length).toBeGreaterThan(0);
    expect(angles).toEqual(angles.toSorted((a, b) => b - a));
    // Law of cosines: sides of 40 and 33 mm over feet of 24 mm meet down to 2·24·sin(φ/2) = 40 − 33, φ = 16.77°.
    const stops = troubles.find(({ kind }) => kind === 'stops');
    expect(stops).toMatchObject({ part: 'tent' });
    const exact = (2 * Math.asin(7 / 48) * 180) / Math.PI;
    // Card gives 3 mm of the 7.
    const give = (2 * Math.asin(4 / 48) * 180) / Math.PI;
    expect(stops?.kind === 'stops' && stops.pageAngle).toBeLessThan(exact);
    expect(stops?.kind === 'stops' && stops.pageAngle).toBeGreaterThan(give - 0.1);
  });

  it('tells sides that do not reach across the feet', async () => {
    const { troubles } = await tuned(figureFrom(tent('glue: [30, 30], widths: [25, 25]')), {}, 1);
    expect(troubles[0]).toMatchObject({ kind: 'does not fit', relation: { open: -10 } });
    expect(troubles[1]).toMatchObject({ kind: 'stops', pageAngle: 180 });
  });

  it('names a want that is missed, with its value', async () => {
    const wants = 'wants:\n  - { name: stands, kind: rise, panel: tent left, least: 50 }\n';
    const { troubles } = await tuned(figureFrom(tent('glue: [30, 30], widths: [40, 40]', wants)), {}, 1);
    // It stands highest where its feet nearly meet: 40 mm, the length of its sides.
    expect(troubles).toMatchObject([{ kind: 'misses', want: { name: 'stands' } }]);
    expect(troubles[0].kind === 'misses' && troubles[0].want.value).toBeCloseTo(40, 1);
  });
});
