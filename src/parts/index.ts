import { counterFold } from './counter-fold.js';
import { gluedPiece } from './glued-piece.js';
import { parallelFold } from './parallel-fold.js';
import type { PartKind } from './part.js';
import { plate } from './plate.js';
import { strut } from './strut.js';
import { vFold } from './v-fold.js';

/** Every kind of part that a figure file may hold, by the word in its `kind`. */
export const partKinds: Readonly<Record<string, PartKind>> = Object.fromEntries(
  [vFold, parallelFold, strut, plate, counterFold, gluedPiece].map((kind) => [kind.kind, kind as PartKind]),
);
