import { expect, it } from 'vitest';
import { endGives } from '../../src/card/closed-loop.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Opening } from '../../src/motion/opening.js';
import { POSE } from '../../src/motion/pose.js';
import { type ChainPull, chainPulls, forcedIn } from '../../src/score/force/chain-pulls.js';
import { stripsBetween } from '../../src/score/force/strips.js';
import { PROP } from '../support/prop.js';

type Space = readonly [number, number, number];
const minus = (p: Space, q: Space): Space => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
const dot = (p: Space, q: Space) => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
const length = (p: Space) => Math.sqrt(dot(p, p));

/** The prop in the open book, or at another frame: what its card does, and what its joints miss by, from its poses alone. */
function open(long: number, card = '', text = PROP, slit = 46, frame = 0) {
  const figure = compileFigure(
    parseFigure(
      text.replace('start: 50', `start: ${long}`).replace('240, bulk', `240${card}, bulk`),
      'x.yaml',
    ),
  );
  const assembly = figure.build(figure.start);
  const opening = new Opening();
  opening.run(assembly, 2);
  const poses = opening.frame(frame);
  const index = (name: string) => assembly.panels.findIndex((panel) => panel.name === name);
  const [deck, oar] = [index('deck layer left'), index('oar')];
  const at = (panel: number, x: number, y: number): Space => {
    const row = (k: number) =>
      poses[panel * POSE + 4 * k] * x + poses[panel * POSE + 4 * k + 1] * y + poses[panel * POSE + 4 * k + 3];
    return [row(0), row(1), row(2)];
  };
  const normal = (panel: number): Space => [
    poses[panel * POSE + 2],
    poses[panel * POSE + 6],
    poses[panel * POSE + 10],
  ];
  const missed = opening.misfitsAt(frame)[assembly.chains.closed[0].gap];
  // 0.4 mm of play in the hub, 0.7 in the slit, half to either side; the toe is past an end of its slit.
  const beyond = 1 - 0.01 / missed;
  const off = (p: Space, q: Space, play: number): Space => {
    const way = minus(p, q);
    const share = beyond * (1 - play / 2 / length(way));
    return [way[0] * share, way[1] * share, way[2] * share];
  };
  const hub = off(at(deck, 8, 20), at(oar, 0, 0), 0.4);
  const tip = at(oar, long, 0);
  const toe = off(tip, at(0, -21, Math.min(slit, Math.max(25, tip[1]))), 0.7);
  const gives = (panel: number, from: readonly [number, number], to: readonly [number, number]) => {
    const { bends, pulls } = stripsBetween(assembly, panel, from, to, figure.card, true);
    return endGives(bends, pulls, Math.hypot(to[0] - from[0], to[1] - from[1]));
  };
  return {
    missed,
    hub,
    toe,
    pull: chainPulls(assembly, opening, figure.card)[0].pulls[frame],
    /** In and out of a panel's plane, squared. */
    split: (way: Space, panel: number) => {
      const out = dot(way, normal(panel)) ** 2;
      return { out, within: dot(way, way) - out };
    },
    deck,
    oar,
    // The deck is held at its ridge, 20 mm from the hub; the oar at its other end.
    deckGives: gives(deck, [8, 20], [8, 0]),
    hubGives: gives(oar, [0, 0], [long, 0]),
    toeGives: gives(oar, [long, 0], [0, 0]),
  };
}

it.each([
  ['card as it is', ''],
  ['card that is soft to bend', ', bending: [0.5, 0.5]'],
  ['card that is soft to pull', ', modulus: [0.05, 0.05], bending: [50, 50]'],
  ['an oar that is soft to bend', ', pieces: { oar: { bending: [0.2, 0.2] } }'],
])('a prop that is pushed holds what is missed over what card gives at its joints: %s', (_, card) => {
  // A hair too long, so that it does not bow.
  const { hub, toe, split, deck, oar, deckGives, hubGives, toeGives, pull } = open(50.56, card);
  const [onDeck, onHub, onToe] = [split(hub, deck), split(hub, oar), split(toe, oar)];
  const given =
    onDeck.out * deckGives.out +
    onDeck.within * deckGives.along +
    onHub.out * hubGives.out +
    onHub.within * hubGives.along +
    onToe.out * toeGives.out +
    onToe.within * toeGives.along;
  const missed = dot(hub, hub) + dot(toe, toe);
  expect(pull.limb).toBe(-1);
  expect(pull.newtons).toBeCloseTo((missed / given) * Math.max(length(hub), length(toe)), 6);
  expect(pull.energy).toBeCloseTo(missed ** 2 / given / 2, 9);
});

it('however soft, nothing bends by more than the end of a taut limb moves aside for what is short', () => {
  const short = PROP.replace('[-21, 46]', '[-21, 26]');
  const { hub, toe, pull } = open(43, '', short, 26, 75);
  expect(pull.bend).toBeCloseTo(Math.sqrt(2 * 43 * (length(hub) + length(toe))), 6);
  expect(pull.lift).toBe(0);
});

it('card glued on a panel is held where it stands', () => {
  const pad =
    '- { name: pad, kind: glued-piece, on: deck layer left, at: [18, 12], outline: [[0, 0], [20, 0], [20, 12], [0, 12]] }\n  ';
  const flap =
    '- { name: flap, kind: cover-flap, edge: { panel: pad, line: [[0, 0], [0, 12]] }, depth: 6 }\n  ';
  const [padded, standing] = [pad, pad + flap].map(
    (parts) => open(50.56, '', PROP.replace('# more', parts)).pull,
  );
  expect(standing.newtons).toBeGreaterThan(1.05 * padded.newtons);
});

it('no more counts as forced than is missed: what juts up, bends or is missed by more than 3 mm, and what tears', () => {
  const none: ChainPull = {
    energy: 0,
    newtons: 0,
    torn: 0,
    bend: 0,
    bends: -1,
    bow: 0,
    shortened: 0,
    limb: -1,
    lift: 0,
  };
  expect(forcedIn(none, 2)).toBe(0);
  expect(forcedIn(none, 5)).toBe(2);
  expect(forcedIn({ ...none, shortened: 1 }, 2)).toBe(1);
  expect(forcedIn({ ...none, bend: 4 }, 2)).toBe(1);
  expect(forcedIn({ ...none, bend: 9 }, 2)).toBe(2);
  expect(forcedIn({ ...none, torn: 0.25 }, 2)).toBe(0.5);
  expect(forcedIn({ ...none, torn: 3 }, 2)).toBe(2);
});
