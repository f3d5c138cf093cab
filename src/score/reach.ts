import type { Want } from '../figure/wants.js';
import { outsideOf } from '../geometry/ring-distance.js';
import type { Unknown } from '../limits/finding.js';
import type { Assembly } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE, worldPoint } from '../motion/pose.js';
import { pointInOpen } from '../parts/open-place.js';
import { riseOfPanel, riseOfPoint } from './rise.js';
import { findSlotRooms } from './slots.js';
import { longDirections, swingOf, turnsOf } from './turns.js';

const DEGREES = 180 / Math.PI;

/** A value, or why there is none. */
export type Reached =
  | {
      readonly value: number;
      /** Where the marked point lies off the card of its panel: how far, and what is left of its worth, as a share. */
      readonly off?: { readonly mm: number; readonly panel: string; readonly worth: number };
    }
  | { readonly unknown: Unknown };

/** Works out what a want asks for: degrees or mm, as its kind says (see `Want`). */
export function measure(want: Want, assembly: Assembly, opening: Opening): Reached {
  const last =
    want.kind === 'follow' ? Math.min(...want.at.map(([angle]) => angle)) : Math.min(want.from, want.to);
  if (opening.lock !== null && last < opening.lock.pageAngle)
    return { unknown: { because: 'it locks before', pageAngle: opening.lock.pageAngle, before: last } };
  const panel = (name: string) => assembly.panelNamed(name, 'panel');
  switch (want.kind) {
    case 'turn': {
      const [k, reference] = [panel(want.panel), panel(want.reference)];
      const turned = turnOf(assembly, opening, k, want.line, reference, want);
      return want.either === 'yes' && 'value' in turned ? { value: Math.abs(turned.value) } : turned;
    }
    case 'swing':
      return swungOf(assembly, opening, panel(want.panel), panel(want.reference), want);
    case 'against': {
      const both = want.panels.map(panel) as [number, number];
      const reference = want.reference === undefined ? commonSupport(assembly, both) : panel(want.reference);
      const [a, b] = both.map((k) =>
        want.line === undefined
          ? turnOfPanel(assembly, opening, k, reference, want)
          : turnOf(assembly, opening, k, want.line, reference, want),
      );
      if ('unknown' in a) return a;
      if ('unknown' in b) return b;
      const lesser = Math.min(Math.abs(a.value), Math.abs(b.value));
      return { value: a.value * b.value < 0 ? lesser : -lesser };
    }
    case 'follow':
      return worstHeading(assembly, opening, want, panel);
    case 'travel': {
      const k = panel(want.panel);
      return onCard(assembly, k, want.point, () =>
        travelOf(assembly, opening, k, want.point, panel(want.reference), want),
      );
    }
    case 'rise': {
      const k = panel(want.panel);
      const angles = pageAngles(opening, want);
      const { point } = want;
      if (point === undefined) return { value: riseOfPanel(assembly, opening, k, angles) };
      const at = [point[0], assembly.panels[k].up * point[1]] as const;
      return onCard(assembly, k, point, () => ({ value: riseOfPoint(opening, k, at, angles) }));
    }
    case 'through': {
      const room = findSlotRooms(assembly, opening, want).find(({ slot }) => slot === want.slot);
      if (room !== undefined) return { value: room.room };
      return { unknown: { because: 'there is none' } };
    }
    case 'level':
      return levelOf(opening, panel(want.panel), panel(want.reference), want);
  }
}

const SEEN_END_ON: Reached = { unknown: { because: 'it is seen end on' } };
const OFF_CARD: Reached = { unknown: { because: 'its point lies off the card' } };
/** A point at the very edge of the card lies on it, mm. */
const AT_EDGE = 0.5;
/** So much farther off, mm, and it marks no card at all. */
const FADES = 5;

/** What is measured of a point of a panel: where it lies off the card, worth less and less, and then nothing. */
function onCard(
  assembly: Assembly,
  k: number,
  point: readonly [number, number],
  measured: () => Reached,
): Reached {
  const off = offCard(assembly, k, point) - AT_EDGE;
  if (off > FADES) return OFF_CARD;
  const found = measured();
  return off <= 0 || 'unknown' in found
    ? found
    : { ...found, off: { mm: off + AT_EDGE, panel: assembly.panels[k].name, worth: 1 - off / FADES } };
}

/**
 * How far a point of a panel lies off its card, and off card that is glued to it and moves with it, mm; 0 on it: where there is no
 * card, nothing travels or rises. Cut by hand, an edge may miss a point that was drawn on it.
 */
function offCard(assembly: Assembly, k: number, [x, y]: readonly [number, number]): number {
  if (assembly.handCut) return 0;
  const { panels } = assembly;
  const at = [x, panels[k].up * y] as const;
  let least = Infinity;
  panels.forEach(({ body, outline, holes }, other) => {
    if (body !== panels[k].body) return;
    const here = other === k ? at : pointInOpen(assembly, k, at, other);
    const off = Math.max(outsideOf(outline, here), ...holes.map((hole) => -outsideOf(hole, here)));
    least = Math.min(least, off);
  });
  return Math.max(0, least);
}

/**
 * The first panel of the last part that two panels both hang on, and that carries neither of them as its own card: what
 * both stand on or are glued to, or what that stands on, and so on; at the end the left page.
 */
function commonSupport(assembly: Assembly, [a, b]: readonly [number, number]): number {
  const { panels } = assembly;
  const ofB = partsUnder(assembly, b);
  const common = [...partsUnder(assembly, a)].filter((part) => ofB.has(part));
  const carries = (part: string) =>
    panels.some((panel) => panel.part === part && [a, b].some((k) => panels[k].body === panel.body));
  const firsts = common
    .filter((part) => !carries(part))
    .map((part) => panels.findIndex((panel) => panel.part === part));
  return Math.max(0, ...firsts);
}

/** The parts that a panel hangs on: parts added before its own, joined to it or to what it hangs on. */
function partsUnder({ panels, joints }: Assembly, k: number): Set<string> {
  const first = new Map<string, number>();
  panels.forEach(({ part }, i) => {
    if (!first.has(part)) first.set(part, i);
  });
  const order = (i: number) => first.get(panels[i].part) ?? 0;
  const under = new Set([panels[k].part]);
  for (let grew = true; grew; ) {
    grew = false;
    for (const { between } of joints)
      for (const [one, other] of [between, between.toReversed()])
        if (under.has(panels[one].part) && !under.has(panels[other].part) && order(other) < order(one)) {
          under.add(panels[other].part);
          grew = true;
        }
  }
  return under;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/** The page angles of a span, in its own order: its ends and every frame between them. */
function pageAngles(opening: Opening, { from, to }: Span): number[] {
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const between = Array.from(opening.pageAngles.subarray(0, opening.count)).filter(
    (a) => a > low && a < high,
  );
  const falling = [high, ...between, low];
  return from >= to ? falling : falling.reverse();
}

/** How far a line of a panel turns, degrees, seen in the plane of the reference. */
function turnOf(
  assembly: Assembly,
  opening: Opening,
  panel: number,
  line: number,
  reference: number,
  span: Span,
): Reached {
  const [turned] = turnsOf(assembly, opening, panel, [line], reference, pageAngles(opening, span));
  return Number.isNaN(turned) ? SEEN_END_ON : { value: turned };
}

function swungOf(
  assembly: Assembly,
  opening: Opening,
  panel: number,
  reference: number,
  span: Span,
): Reached {
  const swung = swingOf(assembly, opening, panel, reference, pageAngles(opening, span));
  return Number.isNaN(swung) ? SEEN_END_ON : { value: swung };
}

/** How far a panel turns by the directions in which it is long. */
function turnOfPanel(
  assembly: Assembly,
  opening: Opening,
  panel: number,
  reference: number,
  span: Span,
): Reached {
  const long = longDirections(assembly, panel);
  const lines = long.map(({ line }) => line);
  const turned = turnsOf(assembly, opening, panel, lines, reference, pageAngles(opening, span));
  if (turned.every(Number.isNaN)) return SEEN_END_ON;
  return { value: long.reduce((sum, { weight }, k) => sum + weight * (turned[k] || 0), 0) };
}

function worstHeading(
  assembly: Assembly,
  opening: Opening,
  { panel, line, reference, at }: Extract<Want, { kind: 'follow' }>,
  indexOf: (name: string) => number,
): Reached {
  let worst = 0;
  for (const [pageAngle, degrees] of at) {
    if (pageAngle === 180) {
      worst = Math.max(worst, Math.abs(degrees));
      continue;
    }
    const span = { from: 180, to: pageAngle };
    const turned = turnOf(assembly, opening, indexOf(panel), line, indexOf(reference), span);
    if ('unknown' in turned) return turned;
    worst = Math.max(worst, Math.abs(turned.value - degrees));
  }
  return { value: worst };
}

function travelOf(
  assembly: Assembly,
  opening: Opening,
  panel: number,
  [x, y]: readonly [number, number],
  reference: number,
  span: Span,
): Reached {
  const p = new Float64Array(3);
  const place = (poses: Float64Array): [number, number, number] => {
    worldPoint(poses, panel, x, assembly.panels[panel].up * y, p);
    const j = reference * POSE;
    const d = [p[0] - poses[j + 3], p[1] - poses[j + 7], p[2] - poses[j + 11]];
    return [0, 1, 2].map(
      (axis) => poses[j + axis] * d[0] + poses[j + 4 + axis] * d[1] + poses[j + 8 + axis] * d[2],
    ) as [number, number, number];
  };
  const angles = pageAngles(opening, span);
  const start = place(opening.at(angles[0]));
  let farthest = 0;
  for (const angle of angles) {
    const now = place(opening.at(angle));
    farthest = Math.max(farthest, Math.hypot(now[0] - start[0], now[1] - start[1], now[2] - start[2]));
  }
  return { value: farthest };
}

function levelOf(opening: Opening, panel: number, reference: number, span: Span): Reached {
  let worst = 0;
  const i = panel * POSE;
  const j = reference * POSE;
  for (const angle of pageAngles(opening, span)) {
    const q = opening.at(angle);
    // By the sine, which keeps its digits near parallel; either face may be up.
    const cross = Math.hypot(
      q[i + 6] * q[j + 10] - q[i + 10] * q[j + 6],
      q[i + 10] * q[j + 2] - q[i + 2] * q[j + 10],
      q[i + 2] * q[j + 6] - q[i + 6] * q[j + 2],
    );
    const dot = q[i + 2] * q[j + 2] + q[i + 6] * q[j + 6] + q[i + 10] * q[j + 10];
    worst = Math.max(worst, Math.atan2(cross, Math.abs(dot)) * DEGREES);
  }
  return { value: worst };
}
