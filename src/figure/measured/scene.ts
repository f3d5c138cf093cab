import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { POSE, worldPoint } from '../../motion/pose.js';
import type { Flat } from '../../parts/attach.js';

const RADIANS = Math.PI / 180;

/** A point marked on a panel, in the panel's own plane, and the page angle at which it is looked at, degrees. */
export interface Mark {
  readonly panel: number;
  readonly x: number;
  readonly y: number;
  readonly opened: number;
}

/** How far a point may stand off a panel that it is pricked onto, mm, where the two don't lie parallel. */
const OFF = 0.3;
/** Panels less than 0.5° apart count as parallel. */
const PARALLEL = Math.cos(0.5 * RADIANS);

/** The figure as far as it is built, for whatever is measured on it: one candidate at a time. */
export class Scene {
  #assembly: Assembly | undefined;
  #opened = 180;
  #poses: Float64Array = new Float64Array(0);
  #steps = -1;

  /** Looks at another assembly from here on. */
  look(assembly: Assembly): void {
    this.#assembly = assembly;
    this.#steps = -1;
  }

  get assembly(): Assembly {
    if (this.#assembly === undefined) throw new Error('nothing is built yet');
    return this.#assembly;
  }

  /** Where a mark is in space. @param field what to blame where that isn't known */
  world({ panel, x, y, opened }: Mark, field: string): [number, number, number] {
    const out: [number, number, number] = [0, 0, 0];
    worldPoint(this.poses(panel, opened, field), panel, x, y, out);
    return out;
  }

  /**
   * A mark as it lies in the plane of another panel: pricked through, square to the card.
   * @throws CannotBuild where it does not lie flat on that panel
   */
  prick(mark: Mark, target: number, field: string): Flat {
    if (mark.panel === target) return [mark.x, mark.y];
    const { panels } = this.assembly;
    const poses = this.poses(target, mark.opened, field);
    const p = this.world(mark, field);
    const [i, j] = [mark.panel * POSE, target * POSE];
    const d = [p[0] - poses[j + 3], p[1] - poses[j + 7], p[2] - poses[j + 11]];
    const along = (axis: number) =>
      poses[j + axis] * d[0] + poses[j + 4 + axis] * d[1] + poses[j + 8 + axis] * d[2];
    const turned = poses[i + 2] * poses[j + 2] + poses[i + 6] * poses[j + 6] + poses[i + 10] * poses[j + 10];
    const off = Math.abs(along(2));
    if (off > OFF && Math.abs(turned) < PARALLEL)
      throw new CannotBuild(
        `what lies on '${panels[mark.panel].name}' does not lie flat on '${panels[target].name}' there: it stands ${off.toFixed(1)} mm off it, and the two are not parallel`,
        field,
      );
    return [along(0), along(1)];
  }

  /** Poses at a page angle, where that of the panel is known. */
  poses(panel: number, opened: number, field: string): Float64Array {
    const { assembly } = this;
    if (opened === 180) return assembly.open;
    if (assembly.chains.holds(assembly.panels[panel].body))
      throw new CannotBuild(
        `'${assembly.panels[panel].name}' hangs on hubs: where it goes follows when all is built, and only its place in the open page is known`,
        field,
        true,
      );
    if (this.#opened !== opened || this.#steps !== assembly.steps.length) {
      this.#poses = assembly.openedTo(opened * RADIANS);
      this.#opened = opened;
      this.#steps = assembly.steps.length;
    }
    return this.#poses;
  }
}
