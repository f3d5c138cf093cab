import { describe, expect, it } from 'vitest';
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

  it('is not told of a figure that does not shut', () => {
    expect(stackOf([tent('wide', 40, 20)]).stack).toBeNull();
  });
});
