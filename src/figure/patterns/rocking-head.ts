import type { Pattern } from './pattern.js';

export const rockingHead: Pattern = {
  name: 'rocking-head',
  about: 'a head that rocks on a counter-fold, with room behind it',
  text: `# A head that rocks: a body stands as a V-fold, and a counter-fold in its ridge swings the head that is glued on it. The
# shoulders are drawn low beside the neck, so that there is room behind the head to rock into.
figure: rocking head
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  where: { from: 50, to: 100, start: 75 }                # where it stands, from the foot of the page along the gutter
  spread: { from: 50, to: 72, start: 62, unit: degrees } # its glue lines, from the gutter
  stand: { from: 4, to: 16, start: 9, unit: degrees }    # how far it stands off the open page
  neck: { from: 34, to: 50, start: 42 }                  # from its feet to the neck, along the ridge
  nod: { from: 25, to: 42, start: 34, unit: degrees }    # diagonals of the neck's counter-fold: it swings twice that, at most
  tilt: { from: 10, to: 40, start: 25, unit: degrees }   # how the head lies on its triangle
  face: { from: 16, to: 26, start: 20 }                  # how broad the head is
  side: spread + stand   # tied, so that it shuts

parts:
  - name: body
    kind: v-fold
    at: where
    glue: spread
    panels: side
    feet: 32
    ridge: neck + 18
    outlines:
      left: [[0, 0], [32, 0], { on: ridge, at: [neck - 12, 22] }, { on: ridge, at: [neck - 2, 15] }, { on: ridge, at: [neck + 10, 13] }, { on: ridge, at: [neck + 15, 7] }, { on: ridge, at: end }]
      right: { mirror: left }
    tab: { width: 7 }

  - { name: neck, kind: counter-fold, on: body ridge, at: neck, diagonal: nod, side: 14, length: 18 }

  # Its corners are [along, up] of the triangle: the neck is glued on it, the head is beyond.
  - name: head
    kind: glued-piece
    on: neck left
    at: { from: [0, 0], turn: nod - 8, far: 2 }
    turn: tilt
    outline: [[2, -3], [19, -3], [20, -face / 2], [20 + face, -face / 2], [20 + face, face / 2], [20, face / 2], [19, 3], [2, 3]]

wants:
  - { name: the head rocks, kind: turn, panel: head, line: 0, reference: body left, either: yes, least: 15, weight: 2 }
  - { name: the body rises, kind: rise, panel: body left, least: 40 }

limits:
  pile: 3   # mm of card on card when it is shut
`,
};
