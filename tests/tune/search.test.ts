import { expect, test } from 'vitest';
import { Layout, type Row } from '../../src/study/row.js';
import type { OpenedFigure } from '../../src/tune/opened.js';
import { findRemedies } from '../../src/tune/search.js';
import { Trials } from '../../src/tune/trials.js';
import { moveOf } from './support.js';

const limits = [{ name: 'shuts', unit: 'degrees' }];
const layout = new Layout({ wants: [], limits });
const setting = { kind: 'number', now: 0, bounds: { low: -50, high: 50 }, place: [] };
const move = (at: number) => moveOf([{ setting: at, by: 1 }]);

test('what was done first is measured anew once the rest is done', async () => {
  // Three hinge lines must go 6 mm each; how far a link must reach depends on where all of them are.
  const wrong = ([reach, ...lines]: Float64Array) => {
    const far = 6 + lines.reduce((sum, line) => sum + line / 2, 0);
    const off = lines.reduce((sum, line) => sum + Math.abs(line - 6), Math.abs(reach - far));
    return Math.max(0, off - 0.2);
  };
  const trials = new Trials(async function* (batch) {
    for (const vector of batch) {
      const row: Row = layout.failed('');
      row.numbers[0] = wrong(vector);
      yield { ...row, outcome: row.numbers[0] === 0 ? 'works' : 'fails', met: Uint8Array.of(1) };
    }
  }, 20_000);
  const { remedies } = await findRemedies(
    {
      opened: {
        settings: ['reach', 'foot', 'middle', 'top'].map((name) => ({ ...setting, name })),
        now: new Float64Array(4),
      } as unknown as OpenedFigure,
      layout,
      goals: [],
      moves: [0, 1, 2, 3].map(move),
      tariff: { priceOf: () => 1, oddIn: () => 0, partsOf: () => new Set() },
      allowed: () => true,
      concerns: () => [],
      touches: [0, 1, 2, 3].map(() => new Set<string>()),
      losesCard: () => false,
      onNearer: () => {},
    },
    trials,
  );
  expect(remedies[0].vector).toEqual(Float64Array.of(15, 6, 6, 6));
});
