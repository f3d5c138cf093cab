import { expect, test } from 'vitest';
import { nudgesOf, safeRangesOf } from '../../../src/insight/local/figure-local.js';
import { tentTrials } from '../support.js';

/**
 * A tent with feet d from the gutter and sides w, worked by hand. No outside source.
 * - Open to φ, its feet are 2d sin(φ/2) apart: the sides lack u = 2d sin(φ/2) − 2w, and pull by K u, K = E t ℓ/2w; at the
 *   page's edge by K u (du/dφ)/W, where du/dφ = d cos(φ/2).
 * - Shut, its ridge lies d + w from the gutter: past the edge of the page, it sticks out.
 * - At page angle φ, with s = sin(φ/2), its ridge rises (d cos(φ/2) + √(w² − d²s²)) s above both pages.
 */
const DIMS =
  '{ feet: { from: 10, to: 80, start: 40 }, wide: { from: 20, to: 140, start: 60 }, idle: { from: 0, to: 9 } }';
const PAGE = 148;
/** E t of card of 240 g/m², N/mm: 240 √(6.25 · 2.75), as docs/card.md has it. */
const PULL = 240 * Math.sqrt(6.25 * 2.75);

/** Hardest pull at the page's edge as it opens, N. */
function hardestPull(d: number, w: number): number {
  let most = 0;
  for (let half = 60; half <= 90; half += 0.01) {
    const [s, c] = [Math.sin((half * Math.PI) / 180), Math.cos((half * Math.PI) / 180)];
    most = Math.max(most, (((PULL * 60) / (2 * w)) * Math.max(0, 2 * d * s - 2 * w) * d * c) / PAGE);
  }
  return most;
}

/** How far sides may be shorter than feet, mm each, until it takes 15 N. */
function shortest(pull: (short: number) => number): number {
  let [low, high] = [0, 5];
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (pull(middle) > 15) high = middle;
    else low = middle;
  }
  return low;
}

test('a tent may go as far as its geometry lets it, and it is said what fails first', async () => {
  const { figure, verdicts, variables } = tentTrials(DIMS);
  const [[feet, wide, idle]] = await safeRangesOf(verdicts, figure.free, variables, [figure.start]);
  const ends = ({ range }: typeof feet) => [range?.low.value ?? Number.NaN, range?.high.value ?? Number.NaN];
  const near = (found: number[], wanted: number[]) => {
    for (const [i, value] of found.entries()) expect(Math.abs(value - wanted[i])).toBeLessThanOrEqual(0.05);
  };
  near(ends(wide), [40 - shortest((short) => hardestPull(40, 40 - short)), PAGE - 40]);
  expect(wide.range?.low.failure).toBe('tent is hard to open');
  expect(wide.range?.high.failure).toBe('tent left sticks out when shut');
  near(ends(feet), [10, 60 + shortest((short) => hardestPull(60 + short, 60))]);
  expect(feet.range?.low.failure).toBeNull();
  expect(idle.range).toEqual({ low: { value: 0, failure: null }, high: { value: 9, failure: null } });
});

test('nudges are the slopes of the ridge’s rise', async () => {
  const rise = 'wants:\n  - { name: rises, kind: rise, panel: tent left, from: 180, to: 178, least: 10 }\n';
  const { figure, scores, variables, names } = tentTrials(DIMS, '[feet, feet]', '[wide, wide]', rise);
  const nudges = await nudgesOf(scores, variables, figure.start);
  const [feet, wide, idle] = nudges.map((byScore) => byScore[names.indexOf('rises')]);
  // Of the two frames, 180° and 178°, the ridge stands higher at the second.
  const s = Math.sin((89 * Math.PI) / 180);
  const root = Math.sqrt(60 ** 2 - (40 * s) ** 2);
  expect(wide.change).toBeCloseTo((60 / root) * s, 5);
  expect(feet.change).toBeCloseTo((Math.cos((89 * Math.PI) / 180) - (40 * s * s) / root) * s, 5);
  expect(idle).toEqual({ change: 0, reason: null, from: 'both sides', sides: { below: 0, above: 0 } });
});

test('steps are kept, and a figure that fails itself has no safe range', async () => {
  const stepped = tentTrials('{ wide: { from: 30, to: 140, step: 4, start: 62 }, feet: 40 }');
  const { figure, verdicts, variables } = stepped;
  const [[wide]] = await safeRangesOf(verdicts, figure.free, variables, [figure.start]);
  expect(wide.range?.low.value).toBe(42);
  expect(wide.range?.high.value).toBe(106);
  const narrow = Float64Array.of(30);
  const [[none]] = await safeRangesOf(verdicts, figure.free, variables, [narrow]);
  expect(none.reason).toContain('the figure itself fails: tent keeps the page from opening flat');
});
