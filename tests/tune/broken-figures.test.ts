import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { tunedInWords } from '../../src/report/words/tune-words.js';
import type { Tuned } from '../../src/tune/tune.js';
import { BREAKS, brokenFigure } from '../broken/breaks.js';
import type { Break } from '../broken/ways.js';
import { textWorks, tuned } from './support.js';

/** Candidates that may be scored for one figure: of those that take long to score, no more than free it. */
const budgetOf = ({ file }: Break): number =>
  /10-/.test(file)
    ? 600
    : /01-|03-/.test(file)
      ? 520
      : /08-/.test(file)
        ? 480
        : /knee/.test(file)
          ? 60
          : /04-|07-|16-|17-/.test(file)
            ? 120
            : 300;

/**
 * Whether the first remedy touches the value that was broken, or is a smaller change: one number only, by fewer mm or
 * degrees than the break, or one cut of a smaller size (the side of a square of its area). A word that was broken (a fold
 * the wrong way round) has no size: there it must be touched.
 */
function isGood({ place, from, to }: Break, { remedies }: Tuned): boolean {
  const { changes, cuts } = remedies[0];
  if (changes.some(({ setting }) => setting.place.join() === place.join())) return true;
  const sizes = [
    ...changes.map((change) => Math.abs(Number(change.to) - Number(change.from))),
    ...cuts.map(({ area }) => Math.sqrt(area)),
  ];
  const broken = typeof from === 'number' && typeof to === 'number' ? Math.abs(to - from) : 0;
  return sizes.length === 1 && sizes[0] < broken;
}

const known = new Map<Break, Promise<Tuned>>();
const resultOf = (broken: Break): Promise<Tuned> => {
  const result = known.get(broken) ?? tuned(brokenFigure(broken), {}, budgetOf(broken));
  known.set(broken, result);
  return result;
};

describe('the twenty figures broken on purpose', { timeout: 240_000 }, () => {
  it.each(BREAKS)(
    '$file ($way): says what is wrong, and every remedy works as it is written',
    async (broken) => {
      const { troubles, remedies } = await resultOf(broken);
      expect(troubles.length).toBeGreaterThan(0);
      for (const { text, card } of remedies) {
        expect(card.works).toBe(true);
        expect(textWorks(text)).toBe(true);
      }
    },
  );

  it('all are freed, at least 15 by touching what was broken or by a smaller change', async () => {
    const results = await Promise.all(
      BREAKS.map(async (broken) => ({ broken, found: await resultOf(broken) })),
    );
    const freed = results.filter(({ found }) => found.remedies.length > 0);
    const good = freed.filter(({ broken, found }) => isGood(broken, found));
    const names = (some: typeof results) => some.map(({ broken }) => broken.file).join(', ');
    expect(freed.length, `freed: ${names(freed)}`).toBe(BREAKS.length);
    expect(good.length, `good: ${names(good)}`).toBeGreaterThanOrEqual(15);
  });

  it.each(BREAKS)(
    '$file: is told in whole sentences, without anything that was not computed',
    async (broken) => {
      const { name, wants } = compileFigure(brokenFigure(broken));
      const found = await resultOf(broken);
      const files = found.remedies.map((_, i) => `remedy-${i + 1}.yaml`);
      const lines = tunedInWords(name, found, wants, files);
      expect(lines.join('\n')).not.toMatch(/NaN|undefined|null|Infinity/);
      const troubles = lines.slice(3, lines.indexOf('', 3));
      expect(troubles.length).toBeGreaterThan(0);
      for (const line of troubles) expect(line).toMatch(/\.$/);
    },
  );
});
