import type { Pattern } from './pattern.js';

export const boxedScene: Pattern = {
  name: 'boxed-scene',
  about: 'a box across the gutter with a floor in it, and a figure that stands before it',
  text: `# A boxed scene: a box that opens with the page, a shelf in it that stays parallel to the left page, and a figure before
# it. Each wall of a box is as wide as the opposite foot is far from the gutter, so it needs no widths.
figure: boxed scene
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  deep: { from: 30, to: 60, start: 45 }                 # from the gutter to the foot of the box on the left page
  broad: { from: 26, to: 50, start: 36 }                # and on the right page
  back: { from: 85, to: 110, start: 95 }                # where the box begins, from the foot of the page
  wide: { from: 50, to: 90, start: 70 }                 # how far it goes along the gutter
  level: { from: 8, to: 24, start: 16 }                 # the shelf, above the left page when the box stands square
  front: { from: 25, to: 45, start: 32 }                # where the figure stands
  lean: { from: 45, to: 65, start: 55, unit: degrees }  # its glue lines, from the gutter
  stand: { from: 5, to: 20, start: 10, unit: degrees }  # how far it stands off the open page
  tall: { from: 30, to: 60, start: 42 }                 # its ridge
  middle: wide / 2

parts:
  - { name: box, kind: parallel-fold, shape: box, at: back, length: wide, glue: [deep, broad] }

  - name: shelf
    kind: strut   # a panel hinged at both ends: here parallel to the left page at every page angle
    foot: { panel: right page, line: [[level, back + middle - 15], [level, back + middle + 15]] }
    top: { panel: box left, line: [[middle - 15, level], [middle + 15, level]] }
    tab: { width: 5 }

  - name: actor
    kind: v-fold
    at: front
    glue: [lean, lean]
    panels: [lean + stand, lean + stand]
    feet: [26, 26]
    ridge: tall

wants:
  - { name: the box rises, kind: rise, panel: box left, least: 30 }
  - { name: the actor rises, kind: rise, panel: actor left, point: { on: actor ridge, at: end }, least: 30 }
  - { name: the shelf rises, kind: rise, panel: shelf, least: 12 }

limits:
  pile: 3   # mm of card on card when it is shut
`,
};
