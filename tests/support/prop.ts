/**
 * A deck that floats 22 mm over the page, and a prop from a hub on it to a slit in the page, the far end of which it
 * reaches when the page is open: 50.7 mm long it just fits.
 */
export const PROP = `figure: deck and prop
page: A5 portrait
card: { grammage: 240, bulk: 1.25 }
dims:
  prop: { from: 40, to: 60, start: 50 }
  slit: { from: 20, to: 30, start: 25 }
parts:
  - { name: deck, kind: parallel-fold, shape: layer, at: 62, length: 70, glue: 16, widths: 27, layers: [48, 48] }
  - { name: oar, kind: link, from: [-20, 70], to: [-21, 25], width: 8, outline: [[-4, -4], [prop, -4], [prop, 4], [-4, 4]] }
  - { name: hub, kind: pivot, between: [deck layer left, oar], at: [8, 20], meets: [0, 0], hole: 2.5, waist: 2.1, shoulder: 5.5, margin: 1 }
  - { name: toe, kind: tongue, panel: oar, at: [prop, 0], slit: { panel: left page, line: [[-21, slit], [-21, 46]] } }
  # more
limits: { outside: 3, pile: 6, press: 5, tilt: 40 }
`;
