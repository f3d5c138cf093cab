import type { Pattern } from './pattern.js';

export const armThroughSlot: Pattern = {
  name: 'arm-through-slot',
  about: 'an arm that comes up through a slot, swung by a counter-fold',
  text: `# An arm up through a slot: behind a man, a counter-fold in his ridge swings an arm, which comes out through a slot in his
# side. The slot is drawn around the place where the arm goes through.
figure: arm through a slot
page: A5 portrait                       # one leaf of the base
card: { grammage: 240, bulk: 1.25 }     # g/m² and cm³/g: 0.3 mm thick

dims:
  where: { from: 50, to: 100, start: 75 }                 # where he stands, from the foot of the page along the gutter
  spread: { from: 50, to: 70, start: 60, unit: degrees }  # his glue lines, from the gutter
  stand: { from: 4, to: 16, start: 9, unit: degrees }     # how far he stands off the open page
  shoulder: { from: 36, to: 54, start: 46 }               # from his feet to his shoulder, along the ridge
  swing: { from: 32, to: 42, start: 36, unit: degrees }   # diagonals of the counter-fold: the arm swings twice that, at most
  reach: { from: 8, to: 20, start: 14 }                   # how far the arm comes out
  room: { from: 1, to: 2, start: 1.5 }                  # around it in its slot
  side: spread + stand   # tied, so that it shuts

parts:
  - name: man
    kind: v-fold
    at: where
    glue: spread
    panels: side
    feet: 36
    ridge: shoulder + 26
    outlines:
      # Wherever slot or counter-fold would come too near to its edge, card is added.
      left: { polygon: [[0, 0], [36, 0], { on: ridge, at: [26, 28] }, { on: ridge, at: [end, 26] }, { on: ridge, at: end }], grow: yes }
      right: { mirror: left }
    tab: { width: 6, side: outer }

  - { name: joint, kind: counter-fold, on: man ridge, at: shoulder, diagonal: swing, side: 11, length: 22 }

  # Glued on one triangle. On the line about which that triangle turns, its own diagonal, the arm comes through.
  - name: arm
    kind: glued-piece
    on: joint left
    at: [0, 0]
    outline: [[4, 0.8], [16, 0.8], [16, -reach], [21, -reach], [21, 2],
              { from: [0, 0], turn: swing * 0.7, far: 20 }, { from: [0, 0], turn: swing * 0.7, far: 5 }]
  - name: sleeve
    kind: slot
    on: man left
    outline: { around: [{ on: joint left, at: [16, 0] }, { on: joint left, at: [21, 0] }], margin: room }
    passes: arm

wants:
  - { name: the arm swings, kind: travel, panel: arm, point: [18.5, 0 - reach], reference: man left, least: 10, weight: 2 }
  - { name: he stands, kind: rise, panel: man left, least: 45 }

limits:
  pile: 3   # mm of card on card when it is shut
`,
};
