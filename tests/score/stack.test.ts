import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { stackWhenShut } from '../../src/score/stack.js';
import { assemble, open, type PlainPart } from '../support/assemble.js';

const tent = (name: string, feet: number, width: number): PlainPart => ({
  name,
  kind: 'parallel-fold',
  at: 50,
  length: 80,
  glue: [feet, feet],
  widths: [width, width],
});

function stackOf(parts: PlainPart[]) {
  const assembly = assemble(parts);
  const stack = stackWhenShut(assembly, open(assembly));
  const name = (k: number) => assembly.panels[k].name;
  return { order: stack?.order?.map(name) ?? null, loop: stack?.loop?.map(name) ?? null, stack };
}

describe('the stack of card in the shut book', () => {
  it('of a tent has its left side below its right one', () => {
    const { order } = stackOf([tent('hut', 20, 40)]);
    const place = (name: string) => order?.indexOf(name) ?? -1;
    expect(place('hut left')).toBeGreaterThanOrEqual(0);
    expect(place('hut left')).toBeLessThan(place('hut right'));
  });

  it('of a tent under a tent has the inner one between the sides of the outer one', () => {
    const { order } = stackOf([tent('outer', 40, 60), tent('inner', 20, 30)]);
    const place = (name: string) => order?.indexOf(name) ?? -1;
    // Shut, the outer tent's sides come down outside the inner one's: left below, right above.
    expect(place('outer left')).toBeLessThan(place('inner left'));
    expect(place('inner left')).toBeLessThan(place('inner right'));
    expect(place('inner right')).toBeLessThan(place('outer right'));
  });

  it('has a bar that leads from under a floating layer to the page below the layer, though its hubs let it lie a little off', () => {
    const figure = compileFigure(
      parseFigure(
        `page: A5 landscape
places:
  pin: { on: deck layer left, at: [25, 28] }
  toe: { on: left page, at: [-97, 65] }
parts:
  - { name: deck, kind: parallel-fold, shape: layer, at: 30, length: 95, glue: 13, widths: 19, layers: [50, 50] }
  - { name: bar, kind: link, on: deck layer left, from: pin, to: toe, width: 8 }
  - { name: hub, kind: pivot, between: [bar, deck layer left], at: [0, 0] }
  - { name: toe, kind: tongue, panel: bar, at: toe, slit: { panel: left page, line: [{ from: toe, turn: 270, far: 4 }, { from: toe, turn: 90, far: 62 }] } }
  - { name: gate, kind: slot, on: deck wall left, outline: [[15, 4], [59, 4], [59, 14], [15, 14]], passes: bar }
`,
        'bar.yaml',
      ),
    );
    const assembly = figure.build(figure.start);
    const order =
      stackWhenShut(assembly, open(assembly, 2))?.order?.map((k) => assembly.panels[k].name) ?? [];
    expect(order).toContain('bar');
    expect(order.indexOf('bar')).toBeLessThan(order.indexOf('deck layer left'));
    expect(order.indexOf('bar')).toBeLessThan(order.indexOf('deck layer right'));
  });

  it('is not told of a figure that does not shut', () => {
    expect(stackOf([tent('wide', 40, 20)]).stack).toBeNull();
  });
});
