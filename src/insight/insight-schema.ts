import * as z from 'zod';
import type { StudyInsight } from './study-insight.js';

const share = z.object({
  count: z.number(),
  of: z.number(),
  share: z.number(),
  low: z.number(),
  high: z.number(),
});
const reason = z.string().nullable();
const end = z.object({ value: z.number(), failure: reason });
const safeRange = z.object({ range: z.object({ low: end, high: end }).nullable(), reason });
const nudge = z.object({
  change: z.number().nullable(),
  reason,
  from: z.enum(['both sides', 'above', 'below']).nullable(),
  sides: z.object({ below: z.number().nullable(), above: z.number().nullable() }),
  surrogate: z.number().nullable(),
  verdict: z.enum(['agrees', 'corner', 'differs', 'unsure']).nullable(),
});
const sobol = z.object({
  index: z
    .object({
      first: z.number(),
      firstLow: z.number(),
      firstHigh: z.number(),
      total: z.number(),
      totalLow: z.number(),
      totalHigh: z.number(),
    })
    .nullable(),
  reason,
  droppedShare: z.number(),
});
const heldOut = z.object({
  rows: z.number(),
  explained: z.number(),
  atLeast: z.number(),
  rms: z.number(),
});
const dim = { name: z.string(), unit: z.enum(['mm', 'degrees', '']) };
const freeDim = z.discriminatedUnion('kind', [
  z.object({
    ...dim,
    kind: z.literal('real'),
    min: z.number(),
    max: z.number(),
    step: z.number().optional(),
    start: z.number(),
  }),
  z.object({
    ...dim,
    kind: z.literal('choice'),
    options: z.union([z.array(z.string()), z.array(z.number())]),
  }),
]);
const hand = z
  .object({
    cuts: z.array(
      z.object({
        part: z.string(),
        field: z.string(),
        unit: z.enum(['mm', 'degrees']),
        value: z.number(),
        closedOn: z.boolean().default(false),
      }),
    ),
    rooms: z.array(safeRange),
    tolerance: z.object({
      works: share,
      failures: z.array(z.object({ failure: z.string(), count: z.number() })),
      asDrawn: reason,
    }),
    causes: z.object({
      causes: z.array(
        z.object({
          name: z.string(),
          explains: z.number(),
          chance: z.number(),
          cured: share.nullable(),
          reason,
        }),
      ),
      reason,
    }),
    parts: z.array(z.object({ part: z.string(), cured: share })),
  })
  .refine(({ cuts, rooms }) => cuts.length === rooms.length);

/** What was measured of a study with so many candidates, free dims and scores, as JSON holds it. */
export function insightSchema(candidates: number, dims: number, scores: number): z.ZodType<StudyInsight> {
  const candidate = z
    .int()
    .min(0)
    .max(candidates - 1);
  const byDim = <Schema extends z.ZodType>(of: Schema) => z.array(of).length(dims);
  const byScore = <Schema extends z.ZodType>(of: Schema) => z.array(of).length(scores);
  return z.object({
    hand: z.object({ mm: z.number(), degrees: z.number() }),
    free: byDim(freeDim),
    global: z.object({
      indices: byDim(byScore(sobol)),
      from: byScore(z.enum(['scoring', 'surrogate']).nullable()),
      note: z.string(),
    }),
    robust: z.array(
      z.object({ candidate, works: share, sound: share.optional(), expected: z.number().optional() }),
    ),
    best: z.object({ candidate, insight: hand }).nullable(),
    local: z.array(z.object({ candidate, safe: byDim(safeRange), nudges: byDim(byScore(nudge)) })),
    surrogate: z
      .object({ why: z.string(), learnt: z.number(), heldOut: byScore(heldOut.nullable()) })
      .nullable(),
    plain: z.array(z.object({ vector: byDim(z.number()), scores: byScore(z.number().nullable()) })),
    runs: z.number(),
  });
}
