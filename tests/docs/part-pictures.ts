import type { Shown } from './picture.js';

const PAGE = 'page: { width: 100, height: 140 }\nparts:\n';
const TENT = '  - { name: boat, kind: parallel-fold, at: 30, length: 80, glue: 28, widths: 40 }\n';
const POSTS = `  - { name: near, kind: v-fold, at: 30, glue: [84, 45], feet: [60, 34], ridge: 44, outlines: { left: [[0, 0], [60, 0], [58, 18], [28, 18], { on: ridge, at: end }] }, tab: { width: 5, side: outer } }
  - { name: far, twin of: near, at: 75 }
`;
const BOARD = `${POSTS}  - { name: board, kind: plate, supports: [{ panel: near left, line: [[42, 18], [56, 18]] }, { panel: far left, line: [[42, 18], [56, 18]] }], margin: 4, tab: { width: 5 } }
`;
const LEG = `${PAGE}${BOARD}  - { name: leg, kind: link, on: board, from: [7, 22], to: [42, 10], width: 7 }
  - { name: hub, kind: pivot, between: [leg, board], at: [0, 0], hole: 2.5, waist: 2.1, shoulder: 5.5, margin: 1 }
  - { name: toe, kind: tongue, panel: leg, at: [36, 0], slit: { panel: left page, line: [{ on: leg, at: [40, 0] }, { on: leg, at: [26, 0] }] }, tail: 8 }\n`;
const LEG_EYE = { aside: -0.4, down: 0.9 };
const HALF: Pick<Shown, 'eye'> = { eye: { aside: 0.55, down: 0.6 } };

/** One picture for each kind of part, and for each shape of a parallel fold. */
export const partPictures: Readonly<Record<string, Shown>> = {
  'v-fold': {
    text: `${PAGE}  - { name: man, kind: v-fold, at: 50, glue: 60, panels: 70, feet: 40, ridge: 60 }\n`,
    names: ['man left', 'man right', 'man ridge'],
    origins: ['man left'],
  },
  'parallel-fold-tent': {
    text: PAGE + TENT,
    names: ['boat right', 'boat ridge'],
    origins: ['boat left'],
    ...HALF,
  },
  'parallel-fold-box': {
    text: `${PAGE}  - { name: box, kind: parallel-fold, shape: box, at: 30, length: 80, glue: [45, 30] }\n`,
    pageAngle: 90,
    names: ['box left', 'box right', 'box ridge'],
    ...HALF,
  },
  'parallel-fold-layer': {
    text: `${PAGE}  - { name: deck, kind: parallel-fold, shape: layer, at: 30, length: 80, glue: 12, widths: 24, layers: [50, 50] }\n`,
    names: [
      'deck left',
      'deck ridge',
      'deck layer left',
      'deck layer right',
      'deck left edge',
      'deck wall right',
    ],
    ...HALF,
  },
  strut: {
    text: `${PAGE}${TENT}  - { name: prop, kind: strut, foot: { panel: left page, line: [[-62, 50], [-62, 90]] }, top: { panel: boat left, line: [[20, 26], [60, 26]] } }\n`,
    parts: ['prop'],
    names: ['prop', 'prop foot left', 'prop top left'],
    ...HALF,
  },
  plate: {
    text: PAGE + BOARD,
    pageAngle: 120,
    parts: ['board'],
    names: ['board hinge 1 left', 'board hinge 2 left'],
    origins: ['board'],
    notes: [
      { on: 'board', at: [9, 37], text: 'right of hinge 2' },
      { on: 'board', at: [9, 50], text: 'left of hinge 2' },
    ],
    eye: { aside: -0.5, down: 0.9 },
  },
  'counter-fold': {
    text: `${PAGE}${TENT}  - { name: swing, kind: counter-fold, on: boat ridge, at: 25, diagonal: 35, side: 30, length: 40 }\n`,
    parts: ['swing'],
    names: ['swing right', 'swing ridge'],
    origins: ['swing left'],
    eye: { aside: -0.5, down: 0.9 },
  },
  'glued-piece': {
    text: `${PAGE}${TENT}  - { name: sail, kind: glued-piece, on: boat left, at: [20, 12], turn: 20, face: back, outline: [[0, 0], [40, 0], [0, 45]] }\n`,
    parts: ['sail'],
    names: ['sail'],
    origins: ['sail'],
    eye: { aside: 0.6, down: 0.7 },
  },
  stiffener: {
    text: `${PAGE}${TENT}  - { name: stay, kind: stiffener, on: boat left, at: [10, 8], size: [60, 14], face: back }\n`,
    parts: ['stay'],
    names: ['stay'],
    origins: ['stay'],
    eye: { aside: 0.6, down: 0.7 },
  },
  'cover-flap': {
    text: `${PAGE}  - { name: card, kind: glued-piece, on: left page, at: [-80, 40], outline: [[0, 0], [60, 0], [60, 40], [0, 40]] }
  - { name: cover, kind: cover-flap, edge: { panel: card, line: [[60, 2], [60, 38]] }, depth: 16 }\n`,
    pageAngle: 150,
    parts: ['cover'],
    names: ['card', 'cover'],
  },
  link: {
    text: LEG,
    pageAngle: 150,
    parts: ['leg'],
    names: ['leg'],
    origins: ['leg'],
    eye: LEG_EYE,
  },
  pivot: {
    text: LEG,
    pageAngle: 150,
    parts: ['leg', 'board'],
    names: ['leg', 'board'],
    notes: [{ on: 'leg', at: [0, 0], text: 'hub' }],
    eye: LEG_EYE,
  },
  tongue: {
    text: LEG,
    pageAngle: 150,
    parts: ['leg', 'toe'],
    notes: [
      { on: 'leg', at: [36, 0], text: 'toe, in its slit' },
      { on: 'toe tail', at: [0, 10], text: 'toe tail, behind the page' },
    ],
    eye: LEG_EYE,
  },
  'glued-end': {
    text: `${PAGE}${BOARD}  - { name: leg, kind: link, on: board, from: [7, 22], to: [36, 10], width: 7 }
  - { name: hub, kind: pivot, between: [leg, board], at: [0, 0], hole: 2.5, waist: 2.1, shoulder: 5.5, margin: 1 }
  - { name: toe, kind: glued-end, end: { panel: leg, line: [[31, -3.5], [31, 3.5]] }, to: left page, tab: { width: 7 } }\n`,
    pageAngle: 165,
    parts: ['toe', 'leg'],
    names: ['leg'],
    notes: [{ on: 'leg', at: [31, 0], text: 'toe, glued to the page' }],
    eye: LEG_EYE,
  },
  slot: {
    text: `${PAGE}  - { name: man, kind: v-fold, at: 40, glue: 60, panels: 70, feet: 44, ridge: 76, outlines: { left: [[0, 0], [44, 0], { on: ridge, at: [20, 36] }, { on: ridge, at: [end, 34] }, { on: ridge, at: end }], right: { mirror: left } } }
  - { name: joint, kind: counter-fold, on: man ridge, at: 40, diagonal: 36, side: 12, length: 24 }
  - { name: arm, kind: glued-piece, on: joint left, at: [0, 0], outline: [[4, 0.8], [17, 0.8], [17, -22], [23, -22], [23, 2], { from: [0, 0], turn: 25, far: 20 }, { from: [0, 0], turn: 25, far: 5 }] }
  - { name: sleeve, kind: slot, on: man left, outline: { around: [{ on: joint left, at: [17, 0] }, { on: joint left, at: [23, 0] }], margin: 1.5 }, passes: arm }\n`,
    pageAngle: 90,
    parts: ['arm', 'man'],
    names: ['man left', 'arm'],
    notes: [{ on: 'man left', at: [29, 58], text: 'sleeve' }],
    eye: { aside: 0.5, down: 0.5 },
  },
};
