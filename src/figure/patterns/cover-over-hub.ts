import type { Pattern } from './pattern.js';

export const coverOverHub: Pattern = {
  name: 'cover-over-hub',
  about: 'an arm on a hub, under an edge that is folded over it',
  text: `# A cover over a hub: a plate is carried over on two posts, and an arm turns on it by a hub. Its edge is folded over onto it,
# so that the hub's shoulders are out of sight and catch on nothing. The arm's end is a tongue that slides in the page.
figure: cover over a hub
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  wide: { from: 82, to: 88, start: 85, unit: degrees }    # the posts' glue lines on the left page, from the gutter
  narrow: { from: 40, to: 50, start: 45, unit: degrees }  # and on the right page
  near: { from: 35, to: 55, start: 45 }                   # where the nearer post stands along the gutter
  apart: { from: 44, to: 60, start: 52 }                  # and how far behind it the other one
  high: { from: 8, to: 13, start: 10 }                    # the plate, above the posts' glue lines
  foot: { from: 60, to: 74, start: 66 }                   # length of the posts' glue lines on the left page
  reach: { from: 44, to: 54, start: 48 }                  # the arm, from its hub to its end
  slant: { from: 5, to: 20, start: 12, unit: degrees }    # how it slants towards the foot of the page
  cover: { from: 12, to: 16, start: 14 }                  # how far the edge is folded over

places:
  inner: { on: near post left, at: [foot - 18, high] }
  outer: { on: near post left, at: [foot - 4, high] }
  pin: { on: board, at: [9, apart / 2] }
  end: { from: pin, turn: 0 - slant, far: reach }

parts:
  - name: near post
    kind: v-fold
    at: near
    glue: [wide, narrow]   # the panels follow: each as the other side's glue angle
    feet: [foot, 36]
    ridge: 30
    outlines: { left: [[0, 0], [foot, 0], [foot - 2, high], [foot - 32, high], { on: ridge, at: end }] }
    tab: { width: 6, side: outer }
  - { name: far post, twin of: near post, at: near + apart }

  - name: board
    kind: plate
    supports:
      - { panel: near post left, line: [inner, outer] }
      - { panel: far post left, line: [[along(inner on far post left), high], [along(outer on far post left), high]] }
    margin: 4
    tab: { width: 5 }

  - { name: arm, kind: link, on: board, from: pin, to: end, width: 8 }
  - { name: hub, kind: pivot, between: [arm, board], at: [0, 0], hole: 3.4, waist: 2.9, shoulder: 6.5, margin: 1 }
  - { name: toe, kind: tongue, panel: arm, at: end, slit: { panel: left page, line: [{ from: end, turn: 180, far: 3 }, { from: end, turn: 0, far: 12 }] } }

  # Creased to the plate's outer edge. No glue comes near the hub: it is glued around it.
  - { name: cover, kind: cover-flap, edge: { panel: board, line: [[18, apart / 2 - 14], [18, apart / 2 + 14]] }, depth: cover }

wants:
  - { name: the arm swings, kind: turn, panel: arm, line: 0, reference: board, either: yes, least: 15, weight: 2 }
  - { name: the board stays level, kind: level, panel: board, most: 1, from: 150, to: 30 }   # flatter, a tilt is not seen

limits:
  pile: 5   # mm of card on card when it is shut
  press: 1  # links press on what they lie on as they tilt
`,
};
