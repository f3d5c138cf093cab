import { inside, moved, STILL } from '../../geometry/plane.js';
import { overlapOf, totalArea } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Bond } from '../nets/bonds.js';
import type { Frames } from '../nets/fold-sense.js';
import type { Hub } from '../nets/hub.js';
import type { Net } from '../nets/net.js';
import { tongueOf } from '../nets/tongue.js';
import { coversOf } from './covers.js';
import { type Group, groupsOf, isPage, pairOf, Sets } from './groups.js';
import { sideOfHub } from './hub-side.js';
import { lastClosedOn } from './last-tab.js';
import { inOrder, type Task } from './order.js';
import { type Pass, passesOf } from './passes.js';

/** One step of the assembly. */
export interface Step extends Task {
  readonly kind: 'join' | 'close' | 'attach' | 'hub' | 'thread' | 'tongue';
  /** Its glue, in the order in which it is done. */
  readonly bonds: readonly Bond[];
  /** The tab, one of its bonds and the last, on which the page or the fold below is closed; null where none is. */
  readonly closedOn: Bond | null;
  /** What is handled in it, the piece that is added first. */
  readonly nets: readonly Net[];
  /** Whether it glues what is left loose of a piece whose other end is fixed. */
  readonly isOtherEnd: boolean;
  readonly hub: Hub | null;
  /** Of a hub, on which face of the first piece the second lies: 1 the printed one, −1 the back, 0 where either will do. */
  readonly face: 1 | -1 | 0;
  /** The panel with the slot that a limb goes through; −1 where none does. */
  readonly through: number;
  /** Whether the work lies flat on the mat, or is in the book already. */
  readonly where: 'mat' | 'book';
}

interface Making extends Omit<Step, 'where' | 'bonds' | 'after' | 'better'> {
  readonly bonds: Bond[];
  rank: number;
  readonly after: Making[];
  /** 0: what keeps glue within reach; 1: what is built on the mat before it goes into the book; 2: flat work first; 3: supports first. */
  readonly better: [Making[], Making[], Making[], Making[]];
}

/**
 * The order of assembly, as at the mat (common practice, no source). What must come before what:
 * - parts of a split piece are joined, and loops closed, before anything else is done with the piece;
 * - of glue on one face that overlaps, the earlier part's comes first; a hub before a flap that is glued over it;
 * - a limb goes through a slot before its other end is fixed, and before the part with the slot is glued in; where its end stays free, after it is
 *   glued flat on what hangs on it;
 * - a tongue goes into its slit after that, and after its limb is fixed.
 *
 * What had better:
 * - glue comes before whatever will lie over it is fixed, so that a finger still reaches it;
 * - what can be put together on the mat is, before it goes into the book;
 * - hubs are set and flat pieces glued on while a piece lies flat, before its tabs are glued;
 * - what stands on something comes after it.
 */
export function stepsOf(
  assembly: Assembly,
  frames: Frames,
  nets: readonly Net[],
  bonds: readonly Bond[],
  hubs: readonly Hub[],
): { steps: Step[]; circle: readonly Task[] } {
  const rank = ranksOf(nets, bonds);
  const rankOf = (net: Net) => rank.get(net) ?? 0;
  const netOf = netsByPanel(nets);
  const passes = passesOf(assembly, frames, netOf, bonds, hubs);
  const flat = ({ of }: Bond) => of === 'join' || of === 'piece';
  const groups = groupsOf(
    nets,
    bonds.filter(flat).map(pairOf),
    bonds.filter((bond) => !flat(bond) && bond.giver.net !== bond.receiver.net).map(pairOf),
    hubs.map(({ panels }) => [netOf(panels[0]), netOf(panels[1])]),
  );
  const steps: Making[] = [];
  const add = (step: Pick<Making, 'kind' | 'name' | 'rank' | 'nets'> & Partial<Making>): Making => {
    const made: Making = {
      bonds: [],
      closedOn: null,
      isOtherEnd: false,
      hub: null,
      face: 0,
      through: -1,
      ...step,
      after: [],
      better: [[], [], [], []],
    };
    steps.push(made);
    return made;
  };
  addGluing(bonds, passes, groups, rankOf, add);
  for (const hub of hubs) {
    const two = hub.panels.map(netOf);
    const ranks = two.map(rankOf);
    const at = two.some(isPage) ? Math.max(...ranks) + 0.25 : Math.min(...ranks) - 0.25;
    const { place } = two[0].areas.find(({ panel }) => panel === hub.panels[0]) ?? { place: STILL };
    const face = (place.flip * sideOfHub(assembly, frames, hub)) as 1 | -1 | 0;
    add({ kind: 'hub', name: hub.net.name, rank: at, nets: two, hub, face });
  }
  const fixing = new Map<Bond | Hub, Making>();
  for (const step of steps) {
    for (const bond of step.bonds) fixing.set(bond, step);
    if (step.hub !== null) fixing.set(step.hub, step);
  }
  addPasses(passes, rankOf, fixing, steps, add);
  assembly.joints.forEach((_, i) => {
    const tongue = tongueOf(assembly, i);
    if (tongue === null) return;
    const [limb, holder] = [tongue.panels[0], tongue.holder].map(netOf);
    const name = `put ${limb.name} into the slit of ${holder.name}`;
    const before = steps.filter(({ nets: own, kind }) => kind !== 'tongue' && own.includes(limb));
    const at = Math.max(rankOf(limb), rankOf(holder)) + 0.45;
    const step = add({ kind: 'tongue', name, rank: at, nets: [limb, holder] });
    step.after.push(...before);
    // The rest of what it hangs on is in its place.
    step.better[1].push(...steps.filter(({ kind }) => kind !== 'tongue'));
  });
  for (const step of steps) {
    if (step.kind !== 'join' && step.kind !== 'close')
      step.after.push(
        ...steps.filter(
          ({ kind, nets: own, bonds: glued }) =>
            (kind === 'join' || kind === 'close') &&
            own.some((net) => step.nets.includes(net)) &&
            // A flap that is folded over a hub is closed when the hub is in.
            !glued.some((bond) => step.hub !== null && covers(bond, step.hub)),
        ),
      );
    if (step.bonds.length > 0)
      step.after.push(
        ...steps.filter(({ hub }) => hub !== null && step.bonds.some((bond) => covers(bond, hub))),
      );
  }
  keepFileOrder(bonds, fixing);
  keepWithinReach(coversOf(assembly, frames, nets, bonds), fixing, steps);
  buildOnMat(groups, rankOf, steps);
  const { order, circle } = inOrder(steps);
  return { steps: placed(order, frames), circle };
}

/** Steps of glue: of each piece what joins its parts, what closes it on itself, and what glues it to others. */
function addGluing(
  bonds: readonly Bond[],
  passes: readonly Pass[],
  groups: ReadonlyMap<Net, Group>,
  rankOf: (net: Net) => number,
  add: (step: Pick<Making, 'kind' | 'name' | 'rank' | 'nets'> & Partial<Making>) => Making,
): void {
  const attach = new Map<string, Making>();
  const close = new Map<Net, Making>();
  const ids = new Map<Net | Group, number>();
  const idOf = (what: Net | Group) => ids.get(what) ?? ids.set(what, ids.size).size - 1;
  const loose = new Set(passes.flatMap(({ looseEnd }) => [...looseEnd]));
  for (const bond of bonds) {
    const [giver, receiver] = pairOf(bond);
    if (giver === receiver) {
      const made =
        close.get(giver) ??
        add({ kind: 'close', name: `close ${giver.name}`, rank: rankOf(giver) - 0.4, nets: [giver] });
      close.set(giver, made);
      made.bonds.push(bond);
      continue;
    }
    if (bond.of === 'join') {
      add({
        kind: 'join',
        name: `join ${giver.name} to ${receiver.name}`,
        rank: Math.min(rankOf(giver), rankOf(receiver)) - 0.5,
        bonds: [bond],
        nets: [giver, receiver],
      });
      continue;
    }
    const [stays, added] = rankOf(giver) > rankOf(receiver) ? [receiver, giver] : [giver, receiver];
    const inGroup = groups.get(added) === groups.get(stays);
    const second =
      loose.has(bond) && passes.some(({ limb, looseEnd }) => limb === added && looseEnd.has(bond));
    // On the mat and in the book are two steps; so are the two ends of what goes through a slot.
    const key = `${idOf(added)} ${inGroup} ${second}`;
    const isOtherEnd =
      second && bonds.some((other) => other !== bond && !loose.has(other) && pairOf(other).includes(added));
    const made =
      attach.get(key) ??
      add({
        kind: 'attach',
        name: `glue ${isOtherEnd ? 'the other end of ' : ''}${added.name}`,
        rank: rankOf(added) + (second ? 0.1 : 0),
        nets: [added],
        isOtherEnd,
      });
    attach.set(key, made);
    made.bonds.push(bond);
  }
}

/** A limb goes through while one end of it is loose, and before the part with the slot is in its place. */
function addPasses(
  passes: readonly Pass[],
  rankOf: (net: Net) => number,
  fixing: ReadonlyMap<Bond | Hub, Making>,
  steps: readonly Making[],
  add: (step: Pick<Making, 'kind' | 'name' | 'rank' | 'nets'> & Partial<Making>) => Making,
): void {
  const attached = (net: Net) => steps.filter(({ kind, nets }) => kind === 'attach' && nets[0] === net);
  for (const { limb, holder, through, looseEnd } of passes) {
    const ends = [...looseEnd].flatMap((what) => fixing.get(what) ?? []);
    const rank = (isPage(holder) ? rankOf(limb) : Math.max(rankOf(limb) + 0.05, rankOf(holder))) - 0.25;
    const step = add({
      kind: 'thread',
      name: `pass ${limb.name} through ${holder.name}`,
      rank: ends.length > 0 ? Math.min(...ends.map((end) => end.rank)) - 0.02 : rank,
      nets: [limb, holder],
      through,
    });
    for (const end of ends) end.after.push(step);
    if (ends.length > 0) {
      // What it goes through stands already, and its other end is fixed.
      step.better[1].push(...attached(holder));
      for (const own of attached(limb)) if (!ends.includes(own)) step.better[2].push(own);
      continue;
    }
    for (const own of attached(holder)) own.after.push(step);
    // Of a free end nothing is in the way: what the limb is glued on flat, on the mat, comes first and hangs on it as it goes through.
    const onMat = ({ bonds }: Making) =>
      bonds.every(({ of, giver, receiver }) => {
        const other = giver.net === limb ? receiver.net : giver.net;
        return of === 'piece' && other !== holder && !isPage(other);
      });
    if (rankOf(limb) > rankOf(holder))
      for (const own of attached(limb)) {
        if (onMat(own)) step.after.push(own);
        else own.after.push(step);
      }
  }
}

/** Of two places of glue that overlap on one face, the earlier part's comes first: as the stack of card is counted. */
function keepFileOrder(bonds: readonly Bond[], fixing: ReadonlyMap<Bond | Hub, Making>): void {
  bonds.forEach((first, i) => {
    for (const second of bonds.slice(i + 1)) {
      const [a, b] = [first.receiver, second.receiver];
      if (a.net !== b.net || a.area !== b.area || a.face !== b.face) continue;
      const common = a.shapes.some((shape) =>
        b.shapes.some((other) => totalArea(overlapOf(shape, other)) > 0.5),
      );
      const [before, after] = [fixing.get(first), fixing.get(second)];
      if (common && before !== undefined && after !== undefined && before !== after) after.after.push(before);
    }
  });
}

/** Glue comes before the last fixing of whatever lies over it. */
function keepWithinReach(
  covers: ReadonlyMap<Bond, readonly Net[]>,
  fixing: ReadonlyMap<Bond | Hub, Making>,
  steps: readonly Making[],
): void {
  for (const [bond, over] of covers) {
    const step = fixing.get(bond);
    if (step === undefined) continue;
    for (const net of over)
      for (const fixed of steps)
        if (fixed !== step && fixed.kind === 'attach' && fixed.nets[0] === net && !isBefore(fixed, step))
          fixed.better[0].push(step);
  }
}

/** Whether a step must come before another, as far as is known. */
function isBefore(first: Making, second: Making): boolean {
  const seen = new Set<Making>();
  const queue = [second];
  for (const at of queue)
    for (const before of at.after) {
      if (before === first) return true;
      if (!seen.has(before)) queue.push(before);
      seen.add(before);
    }
  return false;
}

/** On the mat first: all of a group before it goes into the book; flat work before tabs; supports before what they carry. */
function buildOnMat(
  groups: ReadonlyMap<Net, Group>,
  rankOf: (net: Net) => number,
  steps: readonly Making[],
): void {
  const touched = (step: Making): Net[] => [...step.nets, ...step.bonds.flatMap(pairOf)];
  const groupOf = new Map(
    steps.map((step) => {
      const own = new Set(touched(step).map((net) => groups.get(net) ?? null));
      const [only] = own;
      return [step, own.size === 1 ? (only ?? null) : null];
    }),
  );
  const most = Math.max(1, ...steps.flatMap(({ nets }) => nets.map(rankOf)));
  for (const step of steps) {
    const group = groupOf.get(step) ?? null;
    if (group !== null) {
      // Just before its group goes into the book.
      const first = Math.min(...[...group.nets].map(rankOf));
      step.rank = first - 0.4 + (0.35 * step.rank) / most;
      for (const other of steps)
        if (
          groupOf.get(other) === null &&
          other.kind !== 'thread' &&
          other.kind !== 'tongue' &&
          touched(other).some((net) => group.nets.has(net))
        )
          other.better[1].push(step);
    }
    if (group !== null && (step.kind === 'hub' || step.bonds.some(({ of }) => of === 'piece')))
      // The pieces still lie flat while hubs are set and flat pieces glued on them.
      for (const other of steps)
        if (
          other !== step &&
          other.kind === 'attach' &&
          groupOf.get(other) === group &&
          (step.kind === 'hub' || other.nets[0] !== step.nets[0]) &&
          (touched(step).includes(other.nets[0]) ||
            other.bonds.some((bond) => bond.of !== 'piece' && touched(step).includes(bond.receiver.net)))
        )
          other.better[2].push(step);
    if (step.kind === 'attach')
      for (const other of steps)
        if (
          other.kind === 'attach' &&
          other.nets[0] !== step.nets[0] &&
          groupOf.get(other) === group &&
          step.bonds.some((bond) => pairOf(bond).includes(other.nets[0]))
        )
          step.better[3].push(other);
  }
}

/** Steps as they are done: each on the mat, until what it handles hangs on the page. */
function placed(order: readonly Making[], frames: Frames): Step[] {
  const all = [...new Set(order.flatMap(({ nets, bonds }) => [...nets, ...bonds.flatMap(pairOf)]))];
  const together = new Sets(all);
  const pages = all.filter(isPage);
  return order.map((step): Step => {
    const own = [...new Set([...step.nets, ...step.bonds.flatMap(pairOf)])];
    const roots = new Set(pages.map((net) => together.of(net)));
    const inBook = !own.every(isPage) && own.some((net) => isPage(net) || roots.has(together.of(net)));
    if (step.kind !== 'thread') for (const net of own) together.join(own[0], net);
    const closedOn = step.kind === 'attach' ? lastClosedOn(frames, step.bonds) : null;
    const bonds =
      closedOn === null ? step.bonds : [...step.bonds.filter((bond) => bond !== closedOn), closedOn];
    return { ...step, bonds, closedOn, where: inBook ? 'book' : 'mat' };
  });
}

function netsByPanel(nets: readonly Net[]): (panel: number) => Net {
  const found = new Map<number, Net>();
  for (const net of nets) for (const { panel } of net.areas) if (panel >= 0) found.set(panel, net);
  return (panel) => {
    const net = found.get(panel);
    if (net === undefined) throw new Error(`panel ${panel} is in no net`);
    return net;
  };
}

/** Ranks by the first panel that a net holds, the page lowest. A strip, which has none, comes right after its owner. */
function ranksOf(nets: readonly Net[], bonds: readonly Bond[]): Map<Net, number> {
  const rank = new Map<Net, number>();
  for (const net of nets) {
    const own = net.areas
      .filter(({ kind, panel }) => kind === 'panel' && panel >= 0)
      .map(({ panel }) => panel);
    if (own.length > 0) rank.set(net, Math.min(...own));
  }
  nets.forEach((net, i) => {
    if (rank.has(net)) return;
    const owner = bonds.find((bond) => bond.of === 'join' && bond.giver.net === net)?.receiver.net;
    rank.set(net, (owner === undefined ? 0 : (rank.get(owner) ?? 0)) + (i + 1) / (10 * nets.length));
  });
  return rank;
}

/** Whether glue of a bond lies over a hub. */
function covers({ giver, receiver }: Bond, hub: Hub): boolean {
  return hub.panels.some((panel, i) =>
    [giver, receiver].some(({ net, area, shapes }) => {
      const { panel: there, place } = net.areas[area];
      return there === panel && shapes.some(({ outline }) => inside(outline, moved(place, hub.points[i])));
    }),
  );
}
