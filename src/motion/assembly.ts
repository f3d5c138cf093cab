import type { Line } from '../geometry/line.js';
import { numbers, zeros } from '../geometry/numbers.js';
import { moveOntoLine } from '../geometry/onto-line.js';
import { counterClockwise } from '../geometry/polygon.js';
import { CannotBuild } from './cannot-build.js';
import type { CardFold } from './card-fold.js';
import { Chains } from './chains.js';
import type { Crease } from './crease.js';
import { senseAt } from './crease-sense.js';
import type { Misfit } from './misfit.js';
import { POSE, type Step } from './pose.js';

/** The two pages are panels 0 and 1 of every assembly. */
export const LEFT_PAGE = 0;
export const RIGHT_PAGE = 1;
/** The first panel that is no page. */
export const FIRST_AFTER_PAGES = 2;
export const isPage = (panel: number): boolean => panel < FIRST_AFTER_PAGES;

/** A flat, rigid area of card. Outline and holes are x, y pairs in mm in its own plane; its face is its +z side. */
export interface Panel {
  readonly name: string;
  readonly part: string;
  /** What it is cut with, as one piece of card. */
  readonly piece: string;
  /** Counter-clockwise, simple, may be concave. A later part may cut into it (a counter-fold, a trim). */
  outline: Float64Array;
  holes: Float64Array[];
  /** Card that trims have taken from it, mm². */
  cutAway?: number;
  /** Thickness of its card, mm. */
  readonly thickness: number;
  /** +1 when its card rises to +y from the line it stands on, −1 when to −y: the sense of y in a figure file. */
  readonly up: 1 | -1;
  /** Panels that are glued flat to one another move as one body; the body is named by its first panel. */
  readonly body: number;
  readonly role: 'card' | 'tab';
  /** How its card grows around what stands on it; null where it stays as drawn. */
  growth: Growth | null;
}

type Flat = readonly [number, number];

/** A point of a panel's plane as a figure file has it, with y upwards from the foot; and back, mm. */
export function asDrawn({ up }: Pick<Panel, 'up'>, [x, y]: Flat): [number, number] {
  return [x, up === 1 ? y : 0 - y];
}

/** A panel to which card is added where something stands on it that would have none around it. */
export interface Growth {
  /** Least card around what stands on it, mm. */
  readonly margin: number;
  /** The outline as it is to be drawn: with all that grew, and without what counter-folds cut out of it. */
  drawn: Float64Array;
  grew: boolean;
  /** What counter-folds cut out of it: where their diagonals meet, the end of one, and how far along the crease. */
  readonly cut: (readonly [vertex: Flat, corner: Flat, end: Flat])[];
}

/** Diameters of a paper rivet, mm: of the hole, of the waist that stands in it, of the shoulders that hold it. */
export interface Hub {
  readonly hole: number;
  readonly waist: number;
  readonly shoulder: number;
}

/** How two panels are held together; what `--poses` writes. */
export type Joint =
  | {
      kind: 'crease';
      between: [number, number];
      lines: [Line, Line];
      closesLoop: boolean;
      /** Inside a piece (a fold), or where a piece's tab is glued to another part (a foot). */
      of: 'fold' | 'foot';
    }
  | {
      kind: 'glue';
      /** What receives, and what is glued on. */
      between: [number, number];
      /** Of a flat piece, the face of the receiver that it lies on: −1 its back; its front if not given. */
      face?: 1 | -1;
    }
  | {
      kind: 'pivot';
      /** The part that is the hub. */
      part: string;
      between: [number, number];
      points: [[number, number], [number, number]];
      /** Hole less waist, mm. */
      play: number;
      hub: Hub;
      closesLoop: boolean;
    }
  | {
      kind: 'slide';
      between: [number, number];
      point: [number, number];
      along: [[number, number], [number, number]];
      play: number;
      /**
       * Of a tongue: the link that it is cut with; where its neck is bent, on the link and on itself; how broad it is, mm; and by
       * how much it is longer, and broader on either side, than its slit is wide, mm: the lesser.
       */
      neck?: {
        readonly link: number;
        readonly lines: readonly [Line, Line];
        readonly breadth: number;
        readonly holds: number;
      };
      closesLoop: boolean;
    }
  | {
      kind: 'slot';
      /** The part that is the slot. */
      part: string;
      between: [number, number];
      hole: number;
      /** Page angles between which it must be passed through, degrees; null: wherever what passes crosses its plane. */
      span: readonly [number, number] | null;
    };

/** Everything that one candidate is made of, in the order in which its parts were added. */
export class Assembly {
  readonly panels: Panel[] = [];
  readonly joints: Joint[] = [];
  readonly creases = new Map<string, Crease>();
  readonly misfits: Misfit[] = [];
  readonly steps: Step[] = [];
  /** Folds whose card bows or stretches where they are off. */
  readonly folds: CardFold[] = [];
  /** Chains of panels that no step places: they follow from their joints. Closed by `Chains.close` at the end. */
  readonly chains = new Chains();
  /** Poses at page angle 180°, kept up to date as parts are added: figures are drawn open. */
  open: Float64Array = new Float64Array(0);
  openMisfits: Float64Array = new Float64Array(0);
  readonly #byName = new Map<string, number>();
  /** Creases whose sense is still to be read off the half-open figure. */
  readonly #unread = new Set<string>();

  constructor(
    readonly page: { readonly width: number; readonly height: number },
    /** Thickness of the card of a piece, mm. */
    readonly thicknessOf: (piece: string) => number,
    /** Whether it is cut by hand, with errors: what is asked of a drawing alone is then not asked of it. */
    readonly handCut = false,
  ) {
    const { width: w, height: h } = page;
    this.addPanel({ name: 'left page', part: 'page', piece: 'page', outline: [-w, 0, 0, 0, 0, h, -w, h] });
    this.addPanel({ name: 'right page', part: 'page', piece: 'page', outline: [0, 0, w, 0, w, h, 0, h] });
    const line: Line = { x0: 0, y0: 0, x1: 0, y1: h };
    this.addJoint({
      kind: 'crease',
      between: [LEFT_PAGE, RIGHT_PAGE],
      lines: [line, { ...line }],
      closesLoop: false,
      of: 'fold',
    });
    this.addCrease({
      name: 'gutter',
      between: [LEFT_PAGE, RIGHT_PAGE],
      lines: [line, line],
      sides: [1, -1],
      sense: 1,
    });
    placePages(this.open, Math.PI);
  }

  /** Adds a panel and returns its index. An outline given clockwise is turned round. */
  addPanel(panel: {
    name: string;
    part: string;
    piece: string;
    outline: ArrayLike<number>;
    holes?: ArrayLike<number>[];
    up?: 1 | -1;
    /** The panel to which it is glued flat, if any. */
    gluedTo?: number;
    role?: 'card' | 'tab';
    /** Least card around what stands on it, mm, if it grows. */
    margin?: number | undefined;
  }): number {
    if (this.#byName.has(panel.name))
      throw new CannotBuild(`there are two panels named '${panel.name}'`, 'name', true);
    const index = this.panels.length;
    this.#byName.set(panel.name, index);
    const outline = counterClockwise(numbers(panel.outline));
    this.panels.push({
      name: panel.name,
      part: panel.part,
      piece: panel.piece,
      outline,
      holes: (panel.holes ?? []).map((hole) => numbers(hole)),
      thickness: this.thicknessOf(panel.piece),
      up: panel.up ?? 1,
      body: panel.gluedTo === undefined ? index : this.panels[panel.gluedTo].body,
      role: panel.role ?? 'card',
      growth: panel.margin === undefined ? null : growthOf(outline, panel.margin),
    });
    this.open = longer(this.open, this.panels.length * POSE);
    return index;
  }

  /** Adds a joint. Corners of outlines that all but lie on a crease lie on it from then on. */
  addJoint(joint: Joint): number {
    if (joint.kind === 'crease')
      joint.between.forEach((k, end) => {
        moveOntoLine(this.panels[k].outline, joint.lines[end]);
      });
    return this.joints.push(joint) - 1;
  }

  /**
   * @param read whether its sense is to be read off the half-open figure as soon as something stands on it, since its
   * part's sense does not tell: the one given stands where the half-open figure has it flat
   */
  addCrease(crease: Crease, read = false): void {
    if (this.creases.has(crease.name))
      throw new CannotBuild(`there are two creases named '${crease.name}'`, 'name', true);
    this.creases.set(crease.name, crease);
    if (read) this.#unread.add(crease.name);
  }

  addMisfit(misfit: Misfit): number {
    const index = this.misfits.push(misfit) - 1;
    this.openMisfits = longer(this.openMisfits, this.misfits.length);
    return index;
  }

  /** Adds a step of the motion and takes it at once in the open figure. */
  addStep(step: Step): void {
    this.steps.push(step);
    step.place(this.open, this.openMisfits);
  }

  /** Poses at page angle 90°, of the parts so far: for what cannot be told from a flat figure. */
  halfOpen(): Float64Array {
    return this.openedTo(Math.PI / 2);
  }

  /** Poses at any page angle, radians, of the parts so far. Links stay where they are drawn. */
  openedTo(pageAngle: number): Float64Array {
    const poses = this.open.slice();
    const misfits = this.openMisfits.slice();
    placePages(poses, pageAngle);
    for (const step of this.steps) step.place(poses, misfits);
    return poses;
  }

  /** The index of the panel of that name; `field` is what to blame when there is none. */
  panelNamed(name: string, field: string): number {
    const index = this.#byName.get(name);
    if (index === undefined) throw unknown('panel', name, [...this.#byName.keys()], field);
    return index;
  }

  /** Sees that there is a slot of that name; `field` is what to blame when there is none. */
  slotNamed(name: string, field: string): void {
    const known = this.joints.flatMap((joint) => (joint.kind === 'slot' ? [joint.part] : []));
    if (!known.includes(name)) throw unknown('slot', name, known, field);
  }

  /** The crease of that name; `field` is what to blame when there is none. */
  creaseNamed(name: string, field: string): Crease {
    const crease = this.creases.get(name);
    if (crease === undefined) throw unknown('crease', name, [...this.creases.keys()], field);
    if (!this.#unread.delete(name)) return crease;
    const read = { ...crease, sense: senseAt(crease, this.halfOpen()) || crease.sense };
    this.creases.set(name, read);
    return read;
  }
}

/** A panel that grows, as it begins. */
export const growthOf = (drawn: Float64Array, margin: number): Growth => ({
  margin,
  drawn: drawn.slice(),
  grew: false,
  cut: [],
});

/** The same numbers in an array of so many, the new ones 0. */
function longer(array: Float64Array, count: number): Float64Array {
  const grown = zeros(count);
  grown.set(array);
  return grown;
}

/** Writes the poses of the two pages at a page angle in radians: the left page lies still, the right one turns. */
export function placePages(poses: Float64Array, pageAngle: number): void {
  // At exactly 0 and π, sin and cos are made exact, so that flat states are flat to the last bit.
  const flat = pageAngle === 0 || pageAngle === Math.PI;
  const s = flat ? 0 : Math.sin(pageAngle);
  const c = Math.cos(pageAngle);
  poses.fill(0, 0, 2 * POSE);
  poses[0] = poses[5] = poses[10] = 1;
  poses[POSE] = -c;
  poses[POSE + 2] = -s;
  poses[POSE + 5] = 1;
  poses[POSE + 8] = s;
  poses[POSE + 10] = -c;
}

function unknown(what: string, name: string, known: string[], field: string): CannotBuild {
  return new CannotBuild(`no ${what} is named '${name}' so far; there are: ${known.join(', ')}`, field, true);
}
