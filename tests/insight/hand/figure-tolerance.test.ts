import { expect, test } from 'vitest';
import {
  cutByHand,
  cutErrors,
  guiltyErrors,
  guiltyParts,
  HAND,
  leastError,
  roomOfCuts,
} from '../../../src/insight/hand/figure-tolerance.js';
import { tentTrials } from '../support.js';

/** Yields integrated by hand. The normal distribution by Abramowitz and Stegun 26.2.17 (|error| < 7.5e-8). */
function normal(x: number): number {
  if (x < 0) return 1 - normal(-x);
  const t = 1 / (1 + 0.2316419 * x);
  const sum =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return 1 - (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * sum;
}

/** Sides w₁, w₂ and feet d₁, d₂ all err by σ: any sum or difference of the four has twice that as its standard deviation. */
const FOUR = 2 * HAND.mm;
const BY_MEASURE = '[wide, wide], glued: by measure';
const SIDES = ['widths left', 'widths right'];
const FOUR_CUTS = ['glue left', 'glue right', ...SIDES];

/** How far a tent's sides may be off together, each by its share, before it fails, mm. */
async function edge(trials: ReturnType<typeof tentTrials>, shares: readonly number[]): Promise<number> {
  let [low, high] = [0, 4];
  while (high - low > 1e-3) {
    const off = (low + high) / 2;
    const errors = Float64Array.from(
      trials.template.cuts,
      ({ field }) => off * (shares[SIDES.indexOf(field)] ?? 0),
    );
    const [failure] = await trials.cutVerdicts([errors]);
    if (failure === null) low = off;
    else high = off;
  }
  return low;
}

test('a tent that stands fails where its sides and feet differ by more than card gives', async () => {
  const trials = tentTrials('{ feet: 40, wide: 60 }', '[feet, feet]', BY_MEASURE);
  const errors = cutErrors(trials.template.cuts, { mm: 0.6, degrees: 0.3 });
  const { works, failures, asDrawn } = await cutByHand(errors, trials.cutVerdicts, 1000, 1);
  // It shuts flat where d₁ + w₁ and d₂ + w₂ differ by no more than it takes 15 N for: some 1.5 mm.
  const off = await edge(trials, [0.5, -0.5]);
  expect(off).toBeGreaterThan(1);
  expect(off).toBeLessThan(2);
  const expected = 2 * normal(off / (2 * FOUR)) - 1;
  expect(works.low).toBeLessThan(expected);
  expect(works.high).toBeGreaterThan(expected);
  expect(asDrawn).toBeNull();
  expect(failures[0].failure).toBe('tent is hard to shut');
});

test('one that lies flat when open fails, too, where its sides are short of its feet', async () => {
  const trials = tentTrials('{ feet: 40, wide: 40 }', '[feet, feet]', BY_MEASURE);
  const errors = cutErrors(trials.template.cuts, HAND);
  const { works, failures } = await cutByHand(errors, trials.cutVerdicts, 1000, 2);
  // d₁ + d₂ − w₁ − w₂ is independent of the difference above: (−1, −1, 1, 1) · (1, −1, 1, −1) = 0.
  const differ = await edge(trials, [0.5, -0.5]);
  const lack = await edge(trials, [-0.5, -0.5]);
  const expected = (2 * normal(differ / FOUR) - 1) * normal(lack / FOUR);
  expect(works.low).toBeLessThan(expected);
  expect(works.high).toBeGreaterThan(expected);
  expect(failures.map(({ failure }) => failure)).toContain('tent is hard to open');
});

test('closed on, its last tab takes up what the rest is off: it shuts where one glued by measure does not', async () => {
  const hand = { mm: 0.6, degrees: 0.3 };
  const cut = async (widths: string) => {
    const { template, cutVerdicts } = tentTrials('{ feet: 40, wide: 60 }', '[feet, feet]', widths);
    return cutByHand(cutErrors(template.cuts, hand), cutVerdicts, 300, 3);
  };
  const [closedOn, measured] = [await cut('[wide, wide]'), await cut(BY_MEASURE)];
  expect(closedOn.works.share).toBe(1);
  expect(measured.works.high).toBeLessThan(closedOn.works.low);
});

test('the four that matter may be off by as much, and are found guilty alike; the rest are not', async () => {
  const trials = tentTrials('{ feet: 40, wide: 60 }', '[feet, feet]', BY_MEASURE);
  const { template, cutVerdicts } = trials;
  const { cuts } = template;
  const hand = { mm: 0.6, degrees: 0.3 };
  const rooms = await roomOfCuts(cuts, hand, cutVerdicts);
  const off = await edge(trials, [0.5, -0.5]);
  for (const [k, { field }] of cuts.entries()) {
    if (!FOUR_CUTS.includes(field)) expect(leastError(rooms[k])).toBe(Number.POSITIVE_INFINITY);
    else expect(Math.abs(leastError(rooms[k]) - off)).toBeLessThanOrEqual(0.15);
  }
  const tolerance = await cutByHand(cutErrors(cuts, hand), cutVerdicts, 300, 4);
  const { causes } = await guiltyErrors(cuts, hand, tolerance, rooms, cutVerdicts);
  const tried = causes.filter(({ cured }) => cured !== null);
  expect(tried.map(({ name }) => name).sort()).toEqual(FOUR_CUTS.map((name) => `tent: ${name}`));
  // A failed dummy is cured where the other three errors alone are within what card gives: some two in five (no closed
  // form, hence a wide bracket).
  for (const { cured } of tried) {
    expect(cured?.share).toBeGreaterThan(0.15);
    expect(cured?.share).toBeLessThan(0.75);
  }
  const [tent] = await guiltyParts(cuts, hand, tolerance, ['tent'], cutVerdicts);
  expect(tent).toMatchObject({ part: 'tent', cured: { share: 1 } });
});

test('nobody is guilty where nothing fails', async () => {
  const { template, cutVerdicts } = tentTrials('{ feet: 40, wide: 60 }');
  const hand = { mm: 0.01, degrees: 0.5 };
  const rooms = await roomOfCuts(template.cuts, hand, cutVerdicts);
  const tolerance = await cutByHand(cutErrors(template.cuts, hand), cutVerdicts, 50, 5);
  expect(tolerance.works).toMatchObject({ count: 50, of: 50 });
  expect(await guiltyErrors(template.cuts, hand, tolerance, rooms, cutVerdicts)).toEqual({
    causes: [],
    reason: 'no dummy failed',
  });
  expect(await guiltyParts(template.cuts, hand, tolerance, ['tent'], cutVerdicts)).toEqual([]);
});
