import type { Pattern } from './pattern.js';

export const armOnCounterFold: Pattern = {
  name: 'arm-on-counter-fold',
  about: 'two arms that swing apart on counter-folds in the ridge of a tent',
  text: `# Arms on counter-folds: pairs of triangles folded in at the ridge of a tent; each swings the arm glued to it. They point
# opposite ways along the ridge, so that the arms part. (Two that point the same way go the same way.)
figure: arms on counter-folds
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  foot: { from: 20, to: 36, start: 28 }                  # from the gutter to each foot of the tent
  slack: { from: 12, to: 32, start: 22 }                 # how much wider its sides are: the more, the higher it stands
  first: { from: 45, to: 75, start: 60 }                 # where the one counter-fold sits, along the ridge
  second: { from: 125, to: 155, start: 140 }             # and where the other one does
  swing: { from: 20, to: 45, start: 32, unit: degrees }  # angle of their diagonals: an arm swings twice that, at most
  reach: { from: 25, to: 45, start: 36 }                 # length of the arms
  tilt: { from: 0, to: 25, start: 10, unit: degrees }    # how they lie on their triangles
  way: { choose: [end, start] }                          # which way along the ridge the first one points
  side: foot + slack   # tied, so that the tent shuts

parts:
  - { name: tent, kind: parallel-fold, at: 20, length: 170, glue: [foot, foot], widths: [side, side] }

  - { name: near, kind: counter-fold, on: tent ridge, at: first, toward: way, diagonal: swing, side: 14, length: 18 }
  - { name: far, kind: counter-fold, on: tent ridge, at: second, toward: start, diagonal: swing, side: 14, length: 18 }

  # Points are [along the foot, up from the foot] of the triangle that an arm is glued on.
  - name: near arm
    kind: glued-piece
    on: near left
    at: [2, 1]
    turn: tilt
    outline: { polygon: [[2, -1], [reach, -3], [reach + 4, 0], [reach, 3], [2, 1]] }
  - name: far arm
    kind: glued-piece
    on: far left
    at: [2, 1]
    turn: tilt
    face: back   # so that both arms lie on the same face of the tent
    outline: { polygon: [[2, -1], [reach, -3], [reach + 4, 0], [reach, 3], [2, 1]] }

wants:
  - { name: they part, kind: against, panels: [near arm, far arm], line: 0, reference: left page, least: 30, weight: 2 }
  - { name: they rise, kind: rise, panel: near arm, least: 30 }

limits:
  pile: 3   # mm of card on card when it is shut
`,
};
