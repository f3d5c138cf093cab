import type { Pattern } from './pattern.js';

export const floatingLayer: Pattern = {
  name: 'floating-layer',
  about: 'a deck that floats over the gutter, propped by a strut, with a sail on it',
  text: `# A floating layer: a tent carries two panels that stay parallel to the pages, with walls at their outer edges. A strut props
# the left one in its middle: it is as high as the tent's own panel, so it leans as that does. A sail stands on the layer.
figure: floating layer
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  foot: { from: 12, to: 24, start: 16 }                  # from the gutter to each foot of the tent within
  slack: { from: 6, to: 16, start: 11 }                  # how much wider its sides are: the more, the higher it floats
  floor: { from: 36, to: 60, start: 48 }                 # how far the layer reaches out from its ridge
  begins: { from: 25, to: 55, start: 40 }                # where it begins, from the foot of the page
  long: { from: 80, to: 110, start: 95 }                 # and how far it goes along the gutter
  prop: { from: 16, to: 28, start: 22 }                  # the strut, from the ridge
  lean: { from: 45, to: 70, start: 58, unit: degrees }   # the glue lines of the sail, from the ridge
  tall: { from: 25, to: 50, start: 38 }                  # its ridge
  side: foot + slack   # tied, so that it shuts

parts:
  - { name: deck, kind: parallel-fold, shape: layer, at: begins, length: long, glue: foot, widths: side, layers: [floor, floor] }

  - name: strut
    kind: strut
    foot: { panel: left page, line: [[-foot - prop, begins + 12], [-foot - prop, begins + long - 12]] }
    top: { panel: deck layer left, line: [[12, prop], [long - 12, prop]] }
    height: side   # parallel to the side of the tent, so that it never pulls
    tab: { width: 6 }

  # The ridge of a layer lies like the gutter: what stands on it points in.
  - { name: sail, kind: v-fold, on: deck ridge, at: middle, glue: lean, panels: lean + 10, feet: 26, ridge: tall, tab: { width: 6 } }

wants:
  - { name: the deck floats, kind: rise, panel: deck layer left, from: 180, to: 60, least: 14 }
  - { name: the sail rises, kind: rise, panel: sail left, point: { on: sail ridge, at: end }, least: 35 }

limits:
  pile: 4   # mm of card on card when it is shut
`,
};
