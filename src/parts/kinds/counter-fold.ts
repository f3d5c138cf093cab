import * as z from 'zod';
import { faultOfNotch, MEETS_ITSELF } from '../../geometry/faults.js';
import type { Line } from '../../geometry/line.js';
import { holds } from '../../geometry/polygon.js';
import { outsideOf } from '../../geometry/ring-distance.js';
import type { Assembly, Joint, Panel } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import type { Crease } from '../../motion/crease.js';
import { fromCrease, lengthOf, moved, mustLieOnCrease, takeStance, unit } from '../attach.js';
import { angle, name, type Resolved, size, word } from '../fields.js';
import { growAround } from '../grow.js';
import { notch, SAME_PLACE } from '../notch.js';
import { partKind } from '../part.js';
import { addSphericalPair, RADIANS } from '../spherical-pair.js';
import { placeAlong } from '../spots.js';
import { tabFields } from '../tab.js';
import { vFold } from './v-fold.js';

const fields = z.strictObject({
  /** The crease it sits on. */
  on: name(),
  /** Where the diagonals meet: mm along the crease from the crease's start. */
  at: placeAlong('on', '', 0),
  /** Which way along the crease the triangles point. */
  toward: word('end', 'start').prefault('end'),
  /** Angle between the crease and each diagonal, degrees. */
  diagonal: angle(1, 89),
  /** Length along each diagonal, and along the moving crease, mm. */
  side: size(),
  length: size(),
  /** Into the angle between the two panels, or out of it. */
  fold: word('in', 'out').prefault('in'),
  /** Angle of each triangle where the diagonals meet, degrees; as the diagonal if not given. */
  triangle: angle(1, 179).optional(),
  tab: tabFields,
});

/**
 * A pair of triangles folded in at a crease, that swings whatever is glued to it.
 *
 * Folded in between two panels of one piece, the pair is cut from their own sheet: a slit from the end of each
 * diagonal to the crease frees it, and the triangles are the card that lay there. The two pages are one piece. Anywhere
 * else (on a crease of a page with a part, or of a plate, folded out, or with a `triangle` of its own) it is a piece of
 * its own, glued on by tabs along the diagonals. Folded out, triangles as narrow as the diagonals would lie motionless
 * along the crease, so they must be wider.
 */
export const counterFold = partKind({
  kind: 'counter-fold',
  fields,
  build(partName, f, assembly) {
    const crease = assembly.creaseNamed(f.on, 'on');
    const way = f.toward === 'end' ? 1 : -1;
    mustLieOnCrease(assembly, crease, f.at, 'at', 'it');
    const triangle = f.triangle ?? f.diagonal;
    if (f.fold === 'out' && triangle <= f.diagonal)
      throw new CannotBuild(
        `folded out, a triangle of ${triangle.toFixed(1)}° on a diagonal of ${f.diagonal.toFixed(1)}° lies still along the crease; give a wider triangle`,
        f.triangle === undefined ? 'fold' : 'triangle',
      );
    const sameSheet = isSameSheet(f, assembly);
    if (sameSheet) cutFree(assembly, crease, f.at, way * f.length, f.diagonal * RADIANS, f.side);
    addSphericalPair(assembly, {
      name: partName,
      piece: sameSheet ? assembly.panels[crease.between[0]].piece : partName,
      stance: takeStance(crease, f.at, f.toward),
      glue: [f.diagonal * RADIANS, f.diagonal * RADIANS],
      sectors: [triangle * RADIANS, triangle * RADIANS],
      points: f.fold,
      feet: [f.side, f.side],
      ridge: f.length,
      start: 0,
      joined: sameSheet ? 'same sheet' : { tab: f.tab },
    });
  },
  byHand: {
    /**
     * Cut from its parents' sheet, it is slit and creased through both layers with the sheet folded, so that its two
     * sides err as one (common practice, no source). Of a piece of its own all four angles and both feet err apart.
     */
    drawn(f, assembly) {
      if (isSameSheet(f, assembly)) return { fields: { ...f, triangle: undefined }, exact: ['tab'] };
      const { on, at, toward, diagonal, side, length: ridge, fold, tab } = f;
      const triangle = f.triangle ?? diagonal;
      return {
        kind: vFold,
        fields: {
          on,
          at,
          toward,
          glue: [diagonal, diagonal],
          panels: [triangle, triangle],
          points: fold,
          feet: [side, side],
          ridge,
          tab,
        },
        words: { glue: 'diagonal', panels: 'triangle', feet: 'side', ridge: 'length' },
      };
    },
  },
});

/** Whether the pair is cut from the sheet of its two parents. */
function isSameSheet(f: Resolved<z.output<typeof fields>>, assembly: Assembly): boolean {
  const [first, second] = assembly.creaseNamed(f.on, 'on').between.map((k) => assembly.panels[k].piece);
  return f.fold === 'in' && (f.triangle ?? f.diagonal) === f.diagonal && first === second;
}

/** Whether a file may ask that card be added to a panel, and does not yet. */
const canGrow = ({ growth, part }: Panel): boolean => growth === null && part !== 'page';

/** Takes the pair's card out of its parents: a notch in the crease's edge of each, and a gap in the crease itself. */
function cutFree(
  assembly: Assembly,
  crease: Crease,
  at: number,
  reach: number,
  diagonal: number,
  side: number,
): void {
  mustLieOnCrease(assembly, crease, at + reach, 'length', 'its far end');
  // Cut by hand, it may reach past the end of the crease: the slit ends where the card does.
  const long = lengthOf(crease.lines[0]);
  const [vertex, end] = [at, at + reach].map((place) => Math.min(long, Math.max(0, place)));
  const stance = takeStance(crease, vertex, reach > 0 ? 'end' : 'start');
  for (const footing of stance.footings) {
    const panel = assembly.panels[footing.panel];
    const corner = moved(footing.at, fromCrease(footing, diagonal), side);
    const far = moved(footing.at, footing.along, Math.abs(end - vertex));
    const triangle = [...footing.at, ...corner, ...far];
    growAround(assembly, footing.panel, triangle);
    if (!holds(panel, corner[0], corner[1]))
      throw new CannotBuild(
        `the end of its diagonal lies off the card of '${panel.name}', by ${Math.max(0.01, outsideOf(panel.outline, corner)).toFixed(2)} mm; a shorter side would do${canGrow(panel) ? `, or an outline of '${panel.name}' with 'grow: yes'` : ''}`,
        'side',
      );
    const notched = notch(panel.outline, footing.at, corner, far);
    if (notched === null)
      throw new CannotBuild(
        `'${panel.name}' has no straight edge of card along '${crease.name}' there`,
        'at',
      );
    const fault = faultOfNotch({ outline: notched, holes: panel.holes }, Float64Array.from(triangle));
    if (fault !== undefined) {
      const edge = fault.why === MEETS_ITSELF ? 'the edge' : 'a hole';
      throw new CannotBuild(
        `cut from the card of '${panel.name}', it runs into ${edge} of that at ${fault.x.toFixed(2)}, ${(panel.up * fault.y).toFixed(2)}; a shorter side or length would do`,
        'side',
      );
    }
    panel.outline = notched;
    panel.growth?.cut.push([footing.at, corner, far]);
  }
  interrupt(assembly, crease, Math.min(vertex, end), Math.max(vertex, end));
}

/**
 * Takes the stretch from..to (mm from its start) out of a crease, wherever its joints still hold it; what is left on
 * either side stays. Other counter-folds may have interrupted it before, so that it has several joints.
 */
function interrupt(assembly: Assembly, crease: Crease, from: number, to: number): void {
  let left = 0;
  const joints = assembly.joints.flatMap((joint): Joint[] => {
    const held = joint.kind === 'crease' ? stretchOf(assembly, crease, joint) : null;
    if (joint.kind !== 'crease' || held === null) return [joint];
    const [start, end] = held;
    const rest = [
      [start, Math.min(from, end)],
      [Math.max(to, start), end],
    ].filter(([a, b]) => b - a > 0.01);
    left += rest.length;
    return rest.map(([a, b]) => ({
      ...joint,
      lines: [part(joint.lines[0], a - start, b - start), part(joint.lines[1], a - start, b - start)],
    }));
  });
  if (left === 0)
    throw new CannotBuild(
      'it takes up the whole crease, and nothing is left to hold the two panels together',
      'length',
    );
  assembly.joints.splice(0, assembly.joints.length, ...joints);
}

/**
 * From where to where along a crease a joint holds its two panels together, mm from the crease's start; null where it
 * is no joint of that crease. A joint may hold a tab instead of the panel that the tab is glued to.
 */
function stretchOf(
  { panels }: Assembly,
  { between, lines }: Crease,
  joint: Extract<Joint, { kind: 'crease' }>,
): [from: number, to: number] | null {
  const bodies = between.map((k) => panels[k].body);
  if (!joint.between.every((k) => bodies.includes(panels[k].body))) return null;
  const end = joint.between.findIndex((k) => between.includes(k));
  if (end < 0) return null;
  const line = lines[between.indexOf(joint.between[end])];
  const [ex, ey] = unit(line);
  const { x0, y0, x1, y1 } = joint.lines[end];
  const along = (x: number, y: number) => (x - line.x0) * ex + (y - line.y0) * ey;
  const off = (x: number, y: number) => Math.abs((x - line.x0) * ey - (y - line.y0) * ex);
  return Math.max(off(x0, y0), off(x1, y1)) > SAME_PLACE ? null : [along(x0, y0), along(x1, y1)];
}

/** The stretch from..to of a line, mm from its start. */
function part(line: Line, from: number, to: number): Line {
  const [ex, ey] = unit(line);
  return { x0: line.x0 + from * ex, y0: line.y0 + from * ey, x1: line.x0 + to * ex, y1: line.y0 + to * ey };
}
