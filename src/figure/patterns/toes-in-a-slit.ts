import type { Pattern } from './pattern.js';

export const toesInASlit: Pattern = {
  name: 'toes-in-a-slit',
  about: 'two oars on hubs, whose toes slide in slits in the page',
  text: `# Toes in a slit: a plate is carried over on two posts, and two oars hang from it by hubs. The end of each is a tongue that
# slides in a slit in the page, so that the oars swing as the plate goes. They are drawn where they lie when the page is
# open flat.
figure: toes in a slit
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  wide: { from: 80, to: 88, start: 84, unit: degrees }    # the posts' glue lines on the left page, from the gutter
  narrow: { from: 40, to: 50, start: 45, unit: degrees }  # and on the right page
  near: { from: 35, to: 55, start: 45 }                   # where the nearer post stands along the gutter
  apart: { from: 54, to: 64, start: 60 }                  # and how far behind it the other one
  high: { from: 8, to: 13, start: 10 }                    # the plate, above the posts' glue lines
  foot: { from: 60, to: 74, start: 66 }                   # length of the posts' glue lines on the left page
  reach: { from: 44, to: 54, start: 48 }                  # an oar, from its hub to its toe
  slant: { from: 5, to: 20, start: 12, unit: degrees }    # how it slants towards the foot of the page
  slides: { from: 8, to: 16, start: 12 }                  # how far its slit goes on towards the gutter from there

places:
  inner: { on: near post left, at: [foot - 18, high] }
  outer: { on: near post left, at: [foot - 4, high] }
  pin: { on: boat, at: [7, apart / 2] }
  toe: { from: pin, turn: 0 - slant, far: reach }
  far pin: { on: boat, at: [7, apart / 2 + 14] }
  far toe: { from: far pin, turn: 0 - slant, far: reach }

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

  - name: boat
    kind: plate
    supports:
      - { panel: near post left, line: [inner, outer] }
      - { panel: far post left, line: [[along(inner on far post left), high], [along(outer on far post left), high]] }
    margin: 4
    tab: { width: 5 }

  - { name: oar, kind: link, on: boat, from: pin, to: toe, width: 8 }
  - { name: far oar, twin of: oar, from: far pin, to: far toe }
  # A hub's waist turns in the hole, and its shoulders hold it there.
  - { name: hub, kind: pivot, between: [oar, boat], at: [0, 0], hole: 3.4, waist: 2.9, shoulder: 6.5, margin: 1 }
  - { name: far hub, twin of: hub, between: [far oar, boat] }
  - { name: slide, kind: tongue, panel: oar, at: toe, slit: { panel: left page, line: [{ from: toe, turn: 180, far: 3 }, { from: toe, turn: 0, far: slides }] } }
  - { name: far slide, twin of: slide, panel: far oar, at: far toe, slit: { panel: left page, line: [{ from: far toe, turn: 180, far: 3 }, { from: far toe, turn: 0, far: slides }] } }

wants:
  - { name: the oars swing, kind: turn, panel: oar, line: 0, reference: boat, either: yes, least: 15, weight: 2 }
  - { name: the boat stays level, kind: level, panel: boat, most: 1, from: 150, to: 30 }   # flatter, a tilt is not seen

limits:
  pile: 5   # mm of card on card when it is shut
  press: 1  # links press on what they lie on as they tilt
`,
};
