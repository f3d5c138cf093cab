import * as z from 'zod';
import { cardBreadth } from './card-breadth.js';
import { catches } from './catch.js';
import { covered } from './covered.js';
import { creaseOnCard } from './crease-on-card.js';
import { flatWhenOpen } from './flat-when-open.js';
import { foldLength } from './fold-length.js';
import { force } from './force.js';
import { give } from './give.js';
import { glue } from './glue.js';
import { glueArea } from './glue-area.js';
import { glueBreadth } from './glue-breadth.js';
import { glueShare } from './glue-share.js';
import { jump } from './jump.js';
import { keepsClear } from './keep-clear.js';
import type { Limit } from './limit.js';
import { outside } from './outside.js';
import { overhang } from './overhang.js';
import { pile } from './pile.js';
import { residue } from './residue.js';
import { shuts } from './shuts.js';
import { slotRoom } from './slot-room.js';
import { strain } from './strain.js';
import { tilt } from './tilt.js';

/** What a figure file may say under `limits`, in the order in which the docs list it. */
export const limitFields = z
  .strictObject({
    ...catches.fields,
    ...covered.fields,
    ...outside.fields,
    ...pile.fields,
    ...glue.fields,
    ...glueArea.fields,
    ...glueBreadth.fields,
    ...glueShare.fields,
    ...cardBreadth.fields,
    ...creaseOnCard.fields,
    ...foldLength.fields,
    ...slotRoom.fields,
    ...give.fields,
    ...force.fields,
    ...strain.fields,
    ...tilt.fields,
    ...jump.fields,
    ...residue.fields,
    ...flatWhenOpen.fields,
  })
  .prefault({});

/** What a figure must keep to. Lengths in mm, angles in degrees. */
export type Limits = Readonly<z.output<typeof limitFields>>;

/** All limits, in the order of the scorecard. */
export const LIMITS: readonly Limit<Limits>[] = [
  shuts,
  catches,
  force,
  strain,
  give,
  outside,
  residue,
  overhang,
  pile,
  glue,
  glueArea,
  glueBreadth,
  glueShare,
  cardBreadth,
  creaseOnCard,
  foldLength,
  slotRoom,
  covered,
  keepsClear,
  tilt,
  jump,
  flatWhenOpen,
];
