import { inside, moved } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Bond } from '../nets/bonds.js';
import type { Hub } from '../nets/hub.js';
import type { Net } from '../nets/net.js';
import { tongueOf } from '../nets/tongue.js';
import { inOrder, type Task } from './order.js';

/** One step of the assembly. */
export interface Step extends Task {
  readonly kind: 'join' | 'close' | 'attach' | 'hub' | 'thread' | 'tongue';
  readonly after: Step[];
  readonly bonds: readonly Bond[];
  /** What is handled in it, the piece that is added first. */
  readonly nets: readonly Net[];
  readonly hub: Hub | null;
}

/**
 * The order of assembly. What must come before what:
 * - parts of a split piece are joined, and loops closed, before the piece is glued on;
 * - what a piece stands on, or what carries it, before the piece (the order in which the figure's parts were added);
 * - a limb goes through its slot before the part with the slot is glued;
 * - a limb that goes through a slot is free at one end until then: only its first hub may be set before;
 * - so is its tongue free until then;
 * - hubs are set before a flap is glued over them.
 * Hubs are otherwise set early, while both faces can be reached.
 */
export function stepsOf(
  assembly: Assembly,
  nets: readonly Net[],
  bonds: readonly Bond[],
  hubs: readonly Hub[],
): { steps: Step[]; circle: Step[] } {
  const rank = ranksOf(nets, bonds);
  const rankOf = (net: Net) => rank.get(net) ?? 0;
  const later = ({ giver, receiver }: Bond) =>
    rankOf(giver.net) > rankOf(receiver.net) ? giver.net : receiver.net;
  const other = (bond: Bond, net: Net) => (bond.giver.net === net ? bond.receiver.net : bond.giver.net);
  const steps: Step[] = [];
  const add = (step: Omit<Step, 'after'>): Step => {
    const made = { ...step, after: [] };
    steps.push(made);
    return made;
  };
  const netOf = (panel: number) =>
    nets.find(({ areas }) => areas.some((area) => area.panel === panel)) as Net;

  const joins: Step[] = [];
  const attach = new Map<Net, Step>();
  for (const net of nets) {
    const own = bonds.filter((bond) => later(bond) === net);
    for (const bond of own)
      if (bond.of === 'join' && other(bond, net) !== net) {
        const stays = bond.receiver.net;
        const [name, at] = [`join ${net.name} to ${stays.name}`, Math.min(rankOf(net), rankOf(stays)) - 0.5];
        joins.push(add({ kind: 'join', name, rank: at, bonds: [bond], nets: [net, stays], hub: null }));
      }
    const closing = own.filter((bond) => other(bond, net) === net);
    if (closing.length > 0)
      joins.push(
        add({
          kind: 'close',
          name: `close ${net.name}`,
          rank: rankOf(net) - 0.4,
          bonds: closing,
          nets: [net],
          hub: null,
        }),
      );
    const onto = own.filter((bond) => bond.of !== 'join' && other(bond, net) !== net);
    if (onto.length > 0)
      attach.set(
        net,
        add({
          kind: 'attach',
          name: `glue ${net.name}`,
          rank: rankOf(net),
          bonds: onto,
          nets: [net],
          hub: null,
        }),
      );
  }
  for (const [net, step] of attach) {
    for (const join of joins) if (join.nets.includes(net)) step.after.push(join);
    for (const bond of step.bonds) {
      const stood = other(bond, net);
      const before = attach.get(stood);
      if (before !== undefined) step.after.push(before);
      for (const join of joins)
        if (join.nets.includes(stood) && !step.after.includes(join)) step.after.push(join);
    }
  }

  const threads = assembly.joints.flatMap((joint) => {
    if (joint.kind !== 'slot') return [];
    const [limb, holder] = joint.between.map(netOf);
    const name = `pass ${limb.name} through ${holder.name}`;
    const early = holder.piece === 'page' ? rankOf(limb) : rankOf(holder);
    const step = add({
      kind: 'thread',
      name,
      rank: early - 0.25,
      bonds: [],
      nets: [limb, holder],
      hub: null,
    });
    attach.get(holder)?.after.push(step);
    if (rankOf(limb) > rankOf(holder)) attach.get(limb)?.after.push(step);
    return [{ limb, step }];
  });

  assembly.joints.forEach((_, i) => {
    const tongue = tongueOf(assembly, i);
    if (tongue === null) return;
    const two = [tongue.panels[0], tongue.holder].map(netOf);
    const rank = Math.max(...two.map(rankOf)) + 0.25;
    const name = `put ${two[0].name} into the slit of ${two[1].name}`;
    const step = add({ kind: 'tongue', name, rank, bonds: [], nets: two, hub: null });
    for (const { limb, step: thread } of threads) if (limb === two[0]) step.after.push(thread);
  });

  const pinned = new Set<Net>();
  for (const hub of hubs) {
    const two = hub.panels.map(netOf) as [Net, Net];
    const onPage = two.some(({ piece }) => piece === 'page');
    const ranks = two.map(rankOf);
    const step = add({
      kind: 'hub',
      name: hub.net.name,
      rank: onPage ? Math.max(...ranks) + 0.25 : Math.min(...ranks) - 0.25,
      bonds: [],
      nets: two,
      hub,
    });
    for (const { limb, step: thread } of threads)
      if (two.includes(limb) && pinned.has(limb)) step.after.push(thread);
    for (const net of two) pinned.add(net);
    for (const gluing of [...attach.values(), ...joins])
      if (gluing.bonds.some((bond) => covers(bond, hub))) gluing.after.push(step);
  }
  const { order, circle } = inOrder(steps);
  return { steps: order, circle };
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
