import { appendFileSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bestSoFar } from '../../src/desk/offers.js';
import { SoFar } from '../../src/desk/so-far.js';
import { compileFigure } from '../../src/figure/figure.js';
import { Scorer } from '../../src/score/scorer.js';
import { StudyLog } from '../../src/study/log.js';
import { data, difference, read, STALL } from '../edit/support.js';

const folder = () => mkdtempSync(join(tmpdir(), 'desk-log-'));
const heading = (text: string) => ({ format: 'x', source: { file: 'stall.yaml', text } });

/** Free dims of the stall: foot, way, where. */
function entry(
  foot: number,
  outcome: 'works' | 'fails' | 'not built',
  violation: number,
  desirability: number,
) {
  const numbers = Float64Array.of(violation, desirability);
  return {
    stage: 'samples',
    vector: Float64Array.of(foot, 1, 0),
    row: { outcome, numbers, met: new Uint8Array(0), words: [] },
  };
}

describe('the best so far of a study that runs', () => {
  it('is what works, then what breaks least, then what is worth most; read on as the log grows', () => {
    const path = join(folder(), 'scored.jsonl');
    const soFar = new SoFar(path, STALL);
    soFar.look();
    expect(soFar.best).toBe(null);
    const log = StudyLog.create(path, heading(STALL));
    const best = (...one: Parameters<typeof entry>) => {
      log.append(entry(...one));
      soFar.look();
      return soFar.best?.number;
    };
    expect(best(21, 'not built', Number.NaN, Number.NaN)).toBe(undefined);
    expect(best(22, 'fails', 3, 0.9)).toBe(2);
    expect(best(23, 'fails', 2, 0.1)).toBe(3);
    expect(best(24, 'fails', 2, 0.1)).toBe(3);
    expect(best(25, 'works', 0, 0.2)).toBe(5);
    expect(best(26, 'fails', 0, 0.99)).toBe(5);
    expect(best(27, 'works', 0, 0.3)).toBe(7);
    expect(soFar.scored).toBe(7);
    // A line that is not yet whole waits.
    appendFileSync(path, '[7,"samples",[28,1,0],"works",[0,0.9');
    soFar.look();
    expect(soFar.best?.number).toBe(7);
    appendFileSync(path, '],[],[]]\n');
    soFar.look();
    expect(soFar.best).toMatchObject({ number: 8, desirability: 0.9, works: true });
    log.close();
  });

  it('is nothing of another figure, and begins anew with a new log', () => {
    const path = join(folder(), 'scored.jsonl');
    const soFar = new SoFar(path, STALL);
    for (const [text, number] of [
      [`${STALL}# before\n`, undefined],
      [STALL, 1],
    ] as const) {
      const log = StudyLog.create(path, heading(text));
      log.append(entry(30, 'works', 0, 0.5));
      log.close();
      soFar.look();
      expect(soFar.best?.number).toBe(number);
    }
  });

  it('is offered as an edit of the file as it is now', () => {
    const file = join(folder(), 'stall.yaml');
    writeFileSync(file, STALL);
    const best = {
      number: 8,
      works: true,
      violation: 0,
      desirability: 0.9,
      vector: Float64Array.of(28.25, 1, 1),
    };
    const [offer] = bestSoFar({ best }, { file });
    expect(offer.title).toBe('Best so far: dummy 8');
    expect(offer.about).toBe('works, desirability 0.900');
    expect(difference(STALL, offer.text)).toEqual([
      '-  foot: { from: 20, to: 40, start: 30 } # from the gutter',
      '+  foot: { from: 20, to: 40, start: 28.25 } # from the gutter',
      '-  way: { choose: [in, out] }',
      '-  where: { choose: [tent left, tent right] }',
      '+  way: { choose: [out, in] }',
      '+  where: { choose: [tent right, tent left] }',
    ]);
    expect(data(offer.text).dims).toMatchObject({ foot: { start: 28.25 } });
    writeFileSync(file, 'parts: [');
    expect(bestSoFar({ best }, { file })).toEqual([]);
  });

  it('is offered to a hundredth of a millimetre, finer only where that would no longer work', () => {
    const file = join(folder(), 'tent.yaml');
    const tent = (least: number) => `page: A5 portrait
dims: { foot: { from: 20, to: 40 }, side: foot + 12 }
parts: [{ name: tent, kind: parallel-fold, at: 40, length: 120, glue: foot, widths: side }]
wants: [{ name: ridge rises, kind: rise, panel: tent left, least: ${least} }]
`;
    const vector = Float64Array.of(28.2549);
    const best = { number: 8, works: true, violation: 0, desirability: 0.9, vector };
    const start = (least: number) => {
      writeFileSync(file, tent(least));
      return /start: ([\d.]+)/.exec(bestSoFar({ best }, { file })[0].text)?.[1];
    };
    const rises = new Scorer(compileFigure(read(tent(0)))).score(vector).wants[0].value;
    expect(rises).toBeGreaterThan(10);
    expect(start(10)).toBe('28.25');
    expect(start(Number(rises) - 1e-4)).toBe('28.2549');
  });
});
