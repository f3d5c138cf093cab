import { spoken } from '../../text/phrases.js';
import { lookalikes } from '../layout/mirror.js';
import { LEAST_GLUE, type Piece } from '../layout/piece.js';
import type { Frames, Sense } from '../nets/fold-sense.js';
import { LEAST_CARD, LEAST_GAP } from '../nets/webs.js';

/** What a maker or a printer should know about finished pieces. */
export function warningsOf(pieces: readonly Piece[], { lock }: Frames): string[] {
  const lines: string[] = [];
  const told = new Set<string>();
  if (lock !== null)
    lines.push(
      `This figure locks at page angle ${lock.pageAngle.toFixed(1)}° ('${lock.part}'); which way its creases fold is told from the motion down to there, and as far as it can be guessed beyond.`,
    );
  for (const piece of pieces) {
    const { net } = piece;
    const name = named(piece);
    if (piece.lines.contours.length > 1)
      lines.push(`${name} would fall apart: its areas meet only at a point.`);
    for (const sense of ['both ways', 'flat'] as const) {
      const folds = foldsOf(piece, sense);
      if (folds.length > 0 && !net.areas.every(({ panel }) => panel < 0))
        lines.push(
          sense === 'both ways'
            ? `${name} has creases that fold both ways as the page moves: score them on both faces, between ${folds.join('; ')}.`
            : `${name} has creases that never fold, and are not drawn, between ${folds.join('; ')}.`,
        );
    }
    for (const { of, width, near } of piece.narrow)
      lines.push(
        `${name} has ${of === 'card' ? 'card' : 'a gap'} only ${downTo(width)} mm wide, near '${near}', ringed on the sheet: under ${of === 'card' ? LEAST_CARD : LEAST_GAP} mm cuts badly.`,
      );
    // Both that carry a letter are ringed; it is told once.
    for (const { letter, area, width } of piece.slivers.filter(({ letter }) => !told.has(letter))) {
      told.add(letter);
      lines.push(
        `${name} has glue only ${downTo(width)} mm wide, ${letter} on '${area}', ringed on the sheet: under ${LEAST_GLUE} mm holds badly.`,
      );
    }
  }
  const { same, mirrored } = lookalikes(
    pieces.filter(({ net }) => net.areas.some(({ panel }) => panel >= 0)),
  );
  for (const group of same)
    lines.push(`${listed(group)} have the same outline: tell them apart by their numbers.`);
  for (const pair of mirrored) lines.push(`${listed(pair)} are mirror images: do not mix them up.`);
  return lines;
}

/** A piece as it is spoken of: a hub by the parts that it joins, which stand in quotes already. */
const named = ({ number, net }: Piece): string =>
  net.areas.every(({ panel }) => panel < 0) ? `${number} ${net.name}` : `${number} '${net.name}'`;

/** So many of what is alike are named. */
const MOST_NAMED = 6;

function listed(pieces: readonly Piece[]): string {
  const names = pieces.slice(0, MOST_NAMED).map(named);
  const more = pieces.length - names.length;
  return spoken(more > 0 ? [...names, `${more} more`] : names);
}

function foldsOf({ net }: Piece, sense: Sense): string[] {
  const pairs = net.folds
    .filter((fold) => fold.sense === sense)
    .map(({ between: [a, b] }) => `'${net.areas[a].name}' and '${net.areas[b].name}'`);
  return [...new Set(pairs)];
}

/** To a tenth, rounded down: what is under 2 mm is not called 2.0. */
const downTo = (width: number): string => (Math.floor(width * 10 + 1e-6) / 10).toFixed(1);
