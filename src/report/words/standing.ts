import { counted } from '../../text/phrases.js';

/** What a study is busy with, where it goes on. */
export type UnderWay = 'scoring' | 'measuring';

/**
 * How far a study is that is not finished: what is there, and what is missing.
 * @param samples how many dummies were to be scored; null where time ends it
 * @param underWay null where it was interrupted
 * @param ranked whether it is known how robust the best are
 */
export function standingInWords(
  scored: number,
  samples: number | null,
  underWay: UnderWay | null,
  ranked: boolean,
): string {
  const all = counted(scored, 'dummy', 'dummies');
  const of =
    samples === null ? all : `${scored.toLocaleString('en')} of ${counted(samples, 'dummy', 'dummies')}`;
  const rest = 'how exact the best must be cut, and which dim matters,';
  if (underWay === 'scoring')
    return `Under way, with ${of} scored so far: ranks may change yet, and ${rest} is measured after that. This page is written again as it goes.`;
  if (underWay === 'measuring')
    return ranked
      ? `Under way: all ${all} are scored, and the best ranked by how they come out when cut by hand. Which dim matters is being measured. This page is written again as it goes.`
      : `Under way: all ${all} are scored and ranked; ${rest} is being measured. This page is written again as it goes.`;
  return samples !== null && scored >= samples
    ? `Interrupted when all ${all} were scored: ${rest} is missing.`
    : `Interrupted after ${of}.`;
}
