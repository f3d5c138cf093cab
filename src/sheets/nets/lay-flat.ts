import { direction, inside, middle, moved, type Segment } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { type Bond, bondsOf } from './bonds.js';
import { cardsOf } from './cards.js';
import { cutBackTabs } from './cut-back.js';
import { type Frames, framesOf } from './fold-sense.js';
import { type Hub, hubsOf, keepOutsOf } from './hub.js';
import { linksOf } from './links.js';
import type { Net } from './net.js';
import { printedFaces } from './seen.js';
import { tabsOf } from './tabs.js';
import { unfold } from './unfold.js';

/** A figure as it is cut: every piece laid flat, with its slits, and where they are glued to one another. */
export interface FlatFigure {
  readonly frames: Frames;
  readonly hubs: readonly Hub[];
  /** Without the hubs. */
  readonly nets: readonly Net[];
  /** In the order in which the parts were added. */
  readonly bonds: readonly Bond[];
}

/** What decides how pieces are cut: see `SheetSettings`. */
export interface CutSettings {
  readonly faceOf: (piece: string) => 'front' | 'back';
  readonly tabsBehindPage: boolean;
}

/**
 * Lays every piece of a figure flat.
 * @param splitAt joints at which pieces are split though nothing overlaps
 * @param notes what a maker should know is added here
 */
export function layFlat(
  assembly: Assembly,
  settings: CutSettings,
  splitAt: ReadonlySet<number>,
  notes: string[],
  atWork: (stage: string) => void = () => {},
): FlatFigure {
  const frames = framesOf(assembly);
  const cards = cardsOf(assembly);
  atWork('unfolding');
  const hubs = hubsOf(assembly, cards);
  const tabs = tabsOf(assembly, cards, frames, settings.tabsBehindPage);
  const keepOuts = keepOutsOf(hubs);
  const cut = cutBackTabs(assembly, cards, tabs, keepOuts);
  notes.push(...cut.notes);
  const links = linksOf(assembly, cards, tabs, frames);
  const faces = printedFaces(assembly, cards, frames, settings.faceOf);
  const flat = unfold(assembly, cards, links, faces, splitAt);
  notes.push(...flat.notes);
  atWork('finding where to glue');
  const bonds = bondsOf(assembly, flat.nets, flat.joins, tabs, keepOuts, cut.useless, notes);
  addSlits(assembly, flat.nets, bonds);
  return { frames, hubs, nets: flat.nets, bonds };
}

/** How far a slit reaches past the tab that goes through it, mm. */
const SLIT_ROOM = 0.5;

/** Slits in pages: for tabs that are glued behind, and for tongues that slide. */
function addSlits(assembly: Assembly, nets: readonly Net[], bonds: readonly Bond[]): void {
  for (const { receiver, slit } of bonds) if (slit !== null) receiver.net.slits.push(longer(slit));
  for (const joint of assembly.joints) {
    if (joint.kind !== 'slide') continue;
    const panel = joint.between[1];
    const net = nets.find(({ areas }) => areas.some((area) => area.panel === panel));
    const area = net?.areas.find((own) => own.panel === panel);
    if (net === undefined || area === undefined) continue;
    const slit: Segment = [moved(area.place, joint.along[0]), moved(area.place, joint.along[1])];
    // A hole drawn there is the slit already.
    if (!area.shape.holes.some((hole) => inside(hole, middle(slit)))) net.slits.push(slit);
  }
}

function longer(line: Segment): Segment {
  const [ex, ey] = direction(line);
  const [[ax, ay], [bx, by]] = line;
  return [
    [ax - SLIT_ROOM * ex, ay - SLIT_ROOM * ey],
    [bx + SLIT_ROOM * ex, by + SLIT_ROOM * ey],
  ];
}
