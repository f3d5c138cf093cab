import { expect, test } from 'vitest';
import type { FreeDim } from '../../../src/figure/dims.js';
import type { CandidateInsight } from '../../../src/insight/figure-insight.js';
import { wilson } from '../../../src/insight/sensitivity/wilson.js';
import type { LimitScore } from '../../../src/limits/judge.js';
import { insightInWords } from '../../../src/report/words/insight-words.js';

const MAST: FreeDim = { kind: 'real', name: 'mast', unit: 'mm', min: 20, max: 60, start: 40 } as FreeDim;
const SCORES = [
  { name: 'works', unit: '' },
  { name: 'swing', unit: 'degrees' },
  { name: 'force', unit: 'N' },
];

/** What is told of nudges of one dim that change the swing and the force by so much. */
function told(swing: number, force: number, limits: readonly LimitScore[] = []): string {
  const nudges = [0, swing, force].map((change) => ({
    change,
    reason: null,
    from: 'both sides' as const,
    sides: { below: change, above: change },
    surrogate: null,
    verdict: null,
  }));
  const insight: CandidateInsight = {
    cuts: [],
    rooms: [],
    tolerance: { works: wilson(9, 10), failures: [], asDrawn: null },
    causes: { causes: [], reason: null },
    parts: [],
    safe: [{ range: null, reason: 'not walked' }],
    nudges: [nudges],
  };
  const hand = { mm: 0.3, degrees: 0.3 };
  const lines = insightInWords(insight, hand, [MAST], Float64Array.of(40), SCORES, limits);
  return lines.find((line) => line.includes('+1 mm of mast')) ?? '';
}
const force = (value: number): LimitScore => ({ name: 'force', value, most: 15, unit: 'N', met: true });

test('a change that reads as 0 is not told', () => {
  expect(told(2, 0.04)).toMatch(/swing \+2.0°$/);
  expect(told(2, 0.06)).toContain('force +0.1 N');
  expect(told(0.04, 0.04)).toMatch(/next to nothing$/);
});

test('what moves a limit that is far off is not told; what nears it is', () => {
  expect(told(2, 0.3, [force(0.2)])).not.toContain('force');
  expect(told(2, 3, [force(0.2)])).toContain('force +3.0 N');
  expect(told(2, 0.3, [force(14)])).toContain('force +0.3 N');
});
