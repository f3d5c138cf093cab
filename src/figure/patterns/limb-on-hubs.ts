import type { Pattern } from './pattern.js';

export const limbOnHubs: Pattern = {
  name: 'limb-on-hubs',
  about: 'a leg with a knee, on paper hubs, from a plate that travels to a slit in the page',
  text: `# A limb on hubs: a plate is carried over on two posts, and from it a leg reaches to the page. It hangs on the plate by a
# hub, has another at the knee, and ends in a tongue that slides in a slit in the page. The leg is described where it lies
# when the page is open flat.
figure: limb on hubs
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  wide: { from: 80, to: 88, start: 84, unit: degrees }    # the posts' glue lines on the left page, from the gutter
  narrow: { from: 40, to: 50, start: 45, unit: degrees }  # and on the right page
  near: { from: 35, to: 60, start: 46 }                   # where the nearer post stands along the gutter
  apart: { from: 40, to: 55, start: 50 }                  # and how far behind it the other one
  high: { from: 9, to: 15, start: 12 }                    # the plate, above the posts' glue lines
  foot: { from: 60, to: 76, start: 68 }                   # length of the posts' glue lines on the left page
  thigh: { from: 28, to: 42, start: 32 }                  # from hip to knee, along the posts' glue lines
  away: { from: 48, to: 56, start: 52 }                   # from hip to toe
  bend: { from: 10, to: 26, start: 20 }                   # the knee, off the way from hip to toe: straight legs bind
  bends: { choose: [left, right] }                        # which way the knee bends if it ever lies straight

places:
  # The ends of the plate's hinge on the nearer post. On the far one it lies square across from them.
  inner: { on: near post left, at: [foot - 18, high] }
  outer: { on: near post left, at: [foot - 4, high] }
  # The leg, drawn on the floor while it lies open.
  hip: { on: floor, at: [7, apart / 2] }
  knee: { on: floor, at: [7 + thigh, apart / 2 + bend] }
  toe: { on: floor, at: [7 + away, apart / 2] }

parts:
  - name: near post
    kind: v-fold
    at: near
    glue: [wide, narrow]
    panels: [narrow, wide]   # opposite sectors equal: it swings right over
    feet: [foot, 36]
    ridge: 30
    outlines: { left: { polygon: [[0, 0], [foot, 0], [foot - 2, high], [foot - 32, high], { on: ridge, at: end }] } }
    tab: { width: 6, side: outer }

  - { name: far post, twin of: near post, at: near + apart }

  - name: floor
    kind: plate
    supports:
      - { panel: near post left, line: [inner, outer] }
      - { panel: far post left, line: [[along(inner on far post left), high], [along(outer on far post left), high]] }
    margin: 4
    tab: { width: 5 }

  # Each link is a strip between two points of the plane on which it is drawn.
  - { name: thigh, kind: link, on: floor, from: hip, to: knee, width: 8 }
  - { name: shin, kind: link, on: floor, from: knee, to: toe, width: 8 }
  # A hub's waist turns in the hole, and its shoulders hold it there.
  - { name: hip, kind: pivot, between: [thigh, floor], at: [0, 0], hole: 3.4, waist: 2.9, shoulder: 6.5, margin: 1 }
  - { name: knee, kind: pivot, between: [shin, thigh], at: [0, 0], hole: 3.4, waist: 2.9, shoulder: 6.5, margin: 1, bends: bends }
  - { name: toe, kind: tongue, panel: shin, at: toe, slit: { panel: left page, line: [{ from: toe, turn: 270, far: 4 }, { from: toe, turn: 90, far: 4 }] } }

wants:
  - { name: the knee turns, kind: turn, panel: shin, reference: floor, least: 20, weight: 2 }
  - { name: the floor stays level, kind: level, panel: floor, most: 8 }   # a hair's error tilts it by some degrees

limits:
  pile: 5   # mm of card on card when it is shut
  press: 1  # links press on what they lie on as they tilt
`,
};
