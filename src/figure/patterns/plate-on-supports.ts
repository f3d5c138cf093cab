import type { Pattern } from './pattern.js';

export const plateOnSupports: Pattern = {
  name: 'plate-on-supports',
  about: 'a level plate that is carried over on two posts as the page turns',
  text: `# A plate on supports: two posts that swing right over carry a plate, which stays level all the way. The posts are
# V-folds with opposite sectors equal: each panel angle is the glue angle of the other side.
figure: plate on supports
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  wide: { from: 76, to: 88, start: 84, unit: degrees }    # the posts' glue lines on the left page, from the gutter
  narrow: { from: 36, to: 55, start: 45, unit: degrees }  # and on the right page
  first: { from: 25, to: 60, start: 45 }                  # where the nearer post stands along the gutter
  apart: { from: 30, to: 60, start: 45 }                  # and how far behind it the other one
  high: { from: 12, to: 26, start: 20 }                   # the plate, above the posts' glue lines
  foot: { from: 62, to: 90, start: 74 }                   # length of the posts' glue lines on the left page
  post: { from: 45, to: 70, start: 55 }                   # length of their ridges

places:
  # The ends of the plate's hinge on the nearer post. On the far one it lies square across from them.
  inner: { on: near left, at: [foot - 16, high] }
  outer: { on: near left, at: [foot - 4, high] }

parts:
  - name: near
    kind: v-fold
    at: first
    glue: [wide, narrow]
    panels: [narrow, wide]
    feet: [foot, 36]
    ridge: post
    # Drawn, so that its card ends where the plate lies on it. Points are [along the foot, up from the foot].
    outlines: { left: { polygon: [[0, 0], [foot, 0], [foot - 2, high], [foot - 32, high], { on: ridge, at: end }] } }
    tab: { width: 6, side: outer }

  - { name: far, twin of: near, at: first + apart }

  - name: plate
    kind: plate
    supports:   # lines on the posts along which it is hinged: both at the same height, or it binds
      - { panel: near left, line: [inner, outer] }
      - { panel: far left, line: [[along(inner on far left), high], [along(outer on far left), high]] }
    margin: 3   # card beyond the hinges
    tab: { width: 5 }

wants:
  - { name: it stays level, kind: level, panel: plate, most: 8 }   # a hair's error tilts it by some degrees
  - { name: it rises, kind: rise, panel: plate, from: 130, to: 50, least: 15, weight: 2 }

limits:
  pile: 4             # mm of card on card when it is shut
  flatWhenOpen: yes   # the posts lie down both ways
`,
};
