import { createHash } from 'node:crypto';
import { basename, join } from 'node:path';

/** Longest name of a folder; systems allow 255 bytes, but paths go on behind it. */
const LONGEST = 60;
/** Names that Windows keeps for devices, whatever their ending. */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/**
 * Where the results of a figure file go unless told otherwise: `results/` and the file's name, as a folder that every
 * system can have, inside `results` whatever the file is called. Where the name had to be changed, a few letters made of
 * it are put behind, so that two figures don't share a folder.
 */
export function resultsFolder(figurePath: string): string {
  const stem = basename(figurePath).replace(/\.ya?ml$/i, '');
  const safe = stem
    .normalize('NFC')
    .replace(/[^\p{L}\p{N} ._-]/gu, '-')
    .replace(/^[. ]+|[. ]+$/g, '')
    .slice(0, LONGEST)
    .replace(/[. ]+$/, '');
  if (safe === stem && safe !== '' && !DEVICES.test(safe)) return join('results', safe);
  const mark = createHash('sha256').update(stem).digest('hex').slice(0, 6);
  return join('results', `${DEVICES.test(safe) ? 'figure-' : ''}${safe || 'figure'}-${mark}`);
}
