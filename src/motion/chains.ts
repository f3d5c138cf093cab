import { CannotBuild } from './cannot-build.js';
import { type KneeBend, Loop, type LoopJoint } from './loop.js';
import type { Misfit } from './misfit.js';
import type { Step } from './pose.js';

const DEGREES = 180 / Math.PI;

/** The assembly that a chain belongs to, as far as it is concerned with it. */
interface Whole {
  readonly panels: readonly { readonly body: number }[];
  readonly steps: Step[];
  readonly open: Float64Array;
  readonly openMisfits: Float64Array;
  addMisfit(misfit: Misfit): number;
}

/** A joint of a chain, which way a limb bends there if that was said, and the part that made it. */
interface ChainJoint {
  readonly joint: LoopJoint;
  readonly bend: 1 | -1 | null;
  readonly part: string;
  /** How many steps there were when it was added: its driven panels are placed by those. */
  readonly after: number;
}

/** A loop of links as it is closed: its free panels, its joints, and which misfits tell how far these miss and its end lifts. */
export interface ClosedChain {
  readonly part: string;
  readonly panels: readonly number[];
  readonly joints: readonly LoopJoint[];
  readonly gap: number;
  readonly lift: number;
}

/** The panels of an assembly that no step places, and the joints that hold them: limbs on hubs, tongues in slits. */
export class Chains {
  readonly #free = new Map<number, string>();
  readonly #joints: ChainJoint[] = [];
  /** Once it is closed, all its loops. */
  readonly closed: ClosedChain[] = [];

  get isEmpty(): boolean {
    return this.#free.size === 0;
  }

  /** Takes a panel, drawn where the assembly's open poses have it, to be placed by its joints. */
  addPanel(panel: number, part: string): void {
    this.#free.set(panel, part);
  }

  /** Whether a joint between two panels belongs to a chain. */
  holds(...panels: number[]): boolean {
    return panels.some((panel) => this.#free.has(panel));
  }

  addJoint(joint: LoopJoint, part: string, after: number, bend: 1 | -1 | null = null): void {
    this.#joints.push({ joint, part, after, bend });
  }

  /**
   * Makes a loop of each set of free panels that are joined to one another, and puts its step where all that drives it
   * is placed. What is glued on its panels follows after it.
   * @throws CannotBuild when a panel hangs on nothing, or nobody said which way a straight limb bends
   */
  close(assembly: Whole): void {
    for (const panels of this.#sets()) {
      const joints = this.#joints.filter(({ joint }) => panels.has(joint.a) || panels.has(joint.b));
      const [first] = panels;
      const part = this.#free.get(first) as string;
      if (!joints.some(({ joint }) => !panels.has(joint.a) || !panels.has(joint.b)))
        throw new CannotBuild('it hangs on no part that is held', '', true, part);
      const { step, chain } = chainStep(assembly, part, [...panels], joints);
      this.closed.push(chain);
      const at = Math.max(...joints.map(({ after }) => after));
      const follows = (each: Step) =>
        each.hangsOn !== undefined && panels.has(assembly.panels[each.hangsOn].body);
      const early = assembly.steps.slice(0, at).filter(follows);
      const rest = assembly.steps.slice(0, at).filter((each) => !follows(each));
      assembly.steps.splice(0, at, ...rest, step, ...early);
    }
    for (const step of assembly.steps) step.place(assembly.open, assembly.openMisfits);
  }

  /** Free panels, set by set, as their joints connect them. */
  #sets(): Set<number>[] {
    const sets: Set<number>[] = [];
    const left = new Set(this.#free.keys());
    for (const seed of left) {
      const set = new Set([seed]);
      left.delete(seed);
      for (const panel of set)
        for (const { joint } of this.#joints)
          for (const [a, b] of [
            [joint.a, joint.b],
            [joint.b, joint.a],
          ])
            if (a === panel && left.delete(b)) set.add(b);
      sets.push(set);
    }
    return sets;
  }
}

/** Settles a chain in the open figure as drawn, and gives the step that follows it from there. */
function chainStep(
  assembly: Whole,
  part: string,
  panels: number[],
  chained: readonly ChainJoint[],
): { step: Step; chain: ClosedChain } {
  const bends: KneeBend[] = [];
  chained.forEach(({ bend }, joint) => {
    if (bend !== null) bends.push({ joint, side: bend });
  });
  const joints = chained.map(({ joint }) => joint);
  const loop = new Loop(panels, joints, bends);
  loop.start(assembly.open);
  const [unsaid] = loop.undecided;
  if (unsaid !== undefined)
    throw new CannotBuild(
      `the limb is drawn straight at '${chained[unsaid].part}': say there which way it bends`,
      'bends',
      false,
      chained[unsaid].part,
    );
  const misfit = { part, panels: [], locksBeyond: null };
  const gap = assembly.addMisfit({ ...misfit, of: 'gap', joint: 'joints' });
  const tilt = assembly.addMisfit({ ...misfit, of: 'tilt', joint: 'hubs' });
  const lift = assembly.addMisfit({ ...misfit, of: 'lift', joint: 'glued end' });
  const jump = assembly.addMisfit({ ...misfit, of: 'jump', joint: 'limb' });
  const step: Step = {
    part,
    place(poses, misfits) {
      loop.solve(poses);
      misfits[gap] = loop.gap < 1e-4 ? 0 : loop.gap;
      misfits[tilt] = loop.tilt * DEGREES;
      misfits[lift] = loop.lift < 1e-4 ? 0 : loop.lift;
      misfits[jump] = loop.jump * DEGREES;
    },
  };
  return { step, chain: { part, panels, joints, gap, lift } };
}
