import type { Pattern } from './pattern.js';

export const plateOnThree: Pattern = {
  name: 'plate-on-three',
  about: 'a long plate carried over on three posts alike',
  text: `# A plate on three: a long stage, carried over by a post at either end and a third one in its middle. A third support must
# agree with the other two, or the plate binds: so it is their twin.
figure: plate on three
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  wide: { from: 83, to: 88, start: 85, unit: degrees }    # the posts' glue lines on the left page, from the gutter
  narrow: { from: 38, to: 54, start: 45, unit: degrees }  # and on the right page
  first: { from: 32, to: 50, start: 38 }                  # where the nearest post stands along the gutter
  apart: { from: 36, to: 45, start: 41 }                  # and how far behind each the next one
  high: { from: 13, to: 24, start: 18 }                   # the stage, above the posts' glue lines
  foot: { from: 62, to: 84, start: 72 }                   # length of the posts' glue lines on the left page
  post: { from: 40, to: 52, start: 46 }                   # length of their ridges
  more: { from: 2, to: 6, start: 4, unit: degrees }       # each panel beyond what would lie flat: posts that never quite lie down err less

places:
  # The ends of the stage's hinge on the nearest post. On the others it lies square across from them.
  inner: { on: near left, at: [foot - 20, high] }
  outer: { on: near left, at: [foot - 4, high] }

parts:
  - name: near
    kind: v-fold
    at: first
    glue: [wide, narrow]
    panels: [narrow + more, wide + more]   # each as much more than the other side's glue angle, so that they shut
    feet: [foot, 36]
    ridge: post
    outlines: { left: [[0, 0], [foot, 0], [foot - 2, high], [foot - 32, high], { on: ridge, at: end }] }
    tab: { width: 6, side: outer }
  - { name: middle, twin of: near, at: first + apart }
  - { name: far, twin of: near, at: first + 2 * apart }

  # The first two supports place it; what the third one misses by is measured.
  - name: stage
    kind: plate
    supports:
      - { panel: near left, line: [inner, outer] }
      - { panel: far left, line: [[along(inner on far left), high], [along(outer on far left), high]] }
      - { panel: middle left, line: [[along(inner on middle left), high], [along(outer on middle left), high]] }
    margin: 3   # card beyond the hinges
    tab: { width: 5 }

wants:
  - { name: it stays level, kind: level, panel: stage, most: 1 }
  - { name: it rises, kind: rise, panel: stage, from: 130, to: 50, least: 13, weight: 2 }

limits:
  pile: 4   # mm of card on card when it is shut
`,
};
