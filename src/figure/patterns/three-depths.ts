import type { Pattern } from './pattern.js';

export const threeDepths: Pattern = {
  name: 'three-depths',
  about: 'three floating layers, each on the ridge of the one below',
  text: `# A scene of three depths: floating layers on one another. Each stands on the ridge of the one below, which lies like the
# gutter, and is smaller; so one looks down on three levels as the page opens.
figure: three depths
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  begins: { from: 30, to: 55, start: 40 }   # where the lowest layer begins, from the foot of the page
  long: { from: 95, to: 115, start: 105 }   # and how far it goes along the gutter
  inset: { from: 10, to: 18, start: 16 }    # how much shorter each layer is at either end than the one below
  broad: { from: 50, to: 70, start: 60 }    # how far the lowest layer reaches out from its ridge
  step: { from: 12, to: 18, start: 15 }     # and how much less each of the others
  lift: { from: 12, to: 20, start: 17 }     # how much wider their sides are than their feet: the more, the higher they float,
                                            # and the easier a side bows where it is off by a hair
  foot: 10        # of each layer, from the crease that it stands on
  side: foot + lift   # tied, so that they shut

parts:
  - { name: water, kind: parallel-fold, shape: layer, at: begins, length: long, glue: foot, widths: side, layers: [broad, broad], tab: { width: 6 } }
  - { name: shore, kind: parallel-fold, shape: layer, on: water ridge, at: inset, length: long - 2 * inset, glue: foot, widths: side, layers: [broad - step, broad - step], tab: { width: 6 } }
  - { name: hill, kind: parallel-fold, shape: layer, on: shore ridge, at: inset, length: long - 4 * inset, glue: foot, widths: side, layers: [broad - 2 * step, broad - 2 * step], tab: { width: 6 } }

wants:
  - { name: the water floats, kind: rise, panel: water layer left, from: 180, to: 90, least: 12 }
  - { name: the hill stands above, kind: rise, panel: hill layer left, from: 180, to: 90, least: 40, weight: 2 }

limits:
  pile: 6   # mm of card on card when it is shut: many layers
`,
};
