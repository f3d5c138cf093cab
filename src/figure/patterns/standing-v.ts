import type { Pattern } from './pattern.js';

export const standingV: Pattern = {
  name: 'standing-v',
  about: 'one V-fold that stands up from the gutter as the page opens',
  text: `# A standing V: two panels that meet at a ridge and stand over the gutter.
figure: standing V
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  # A range goes from … to …; a dummy starts at its start, or else in the middle.
  where: { from: 40, to: 120, start: 70 }                 # its apex, from the foot of the page along the gutter
  spread: { from: 45, to: 75, start: 60, unit: degrees }  # of its glue lines, from the gutter
  stand: { from: 2, to: 20, start: 8, unit: degrees }     # how far it stands off the open page: 0 would lie flat
  foot: { from: 20, to: 60, start: 40 }                   # length of its glue lines
  high: { from: 30, to: 80, start: 55 }                   # length of its ridge
  side: spread + stand                                    # tied, so that it shuts whatever the two are

parts:
  - name: sail
    kind: v-fold
    at: where
    glue: [spread, spread]   # left and right; where they are equal, the panels must be equal too
    panels: [side, side]     # angles of the panels at the apex
    feet: [foot, foot]
    ridge: high
    tab: { width: 8 }

wants:
  - { name: it rises, kind: rise, panel: sail left, point: { on: sail ridge, at: end }, least: 40 }
  - { name: its tip travels, kind: travel, panel: sail left, point: { on: sail ridge, at: end }, least: 40 }

limits:
  pile: 2            # mm of card on card when it is shut
  flatWhenOpen: no   # it shall stand
`,
};
