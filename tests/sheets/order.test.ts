import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inOrder, type Task } from '../../src/sheets/guide/order.js';
import { assemble } from '../support/assemble.js';
import { example, plan, table } from './figures.js';

interface Plain extends Task {
  after: Plain[];
}

describe('an order of tasks', () => {
  const task = (name: string, rank = 0): Plain => ({ name, rank, after: [] });

  it('puts what must come before before, for any graph without circles', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(19), fc.nat(19)), { maxLength: 60 }), (pairs) => {
        const tasks = Array.from({ length: 20 }, (_, i) => task(`${i}`, (i * 7) % 20));
        // Edges only from lower to higher numbers: no circle can arise.
        for (const [a, b] of pairs) if (a !== b) tasks[Math.max(a, b)].after.push(tasks[Math.min(a, b)]);
        const { order, circle } = inOrder(tasks);
        expect(circle).toEqual([]);
        expect(new Set(order).size).toBe(20);
        for (const at of order)
          for (const before of at.after) expect(order.indexOf(before)).toBeLessThan(order.indexOf(at));
      }),
    );
  });

  it('names the circle where there is one', () => {
    const [a, b, c, d] = ['a', 'b', 'c', 'd'].map((name) => task(name));
    b.after.push(a, d);
    c.after.push(b);
    d.after.push(c);
    const { order, circle } = inOrder([a, b, c, d]);
    expect(order).toEqual([a]);
    expect(new Set(circle)).toEqual(new Set([b, c, d]));
    // Each waits for the one before it.
    circle.forEach((at, i) => {
      expect(at.after).toContain(circle[(i + circle.length - 1) % circle.length]);
    });
  });
});

const names = (assembly: Parameters<typeof plan>[0]) =>
  plan(assembly, { paper: 'A2' }).steps.map(({ name }) => name);

describe('the order of assembly', () => {
  it('sets supports before the plate that they carry', () => {
    const steps = names(assemble(table));
    expect(steps.indexOf('glue near')).toBeLessThan(steps.indexOf('glue board'));
    expect(steps.indexOf('glue far')).toBeLessThan(steps.indexOf('glue board'));
  });

  it('joins the leaves of the page first of all', () => {
    const { steps } = plan(assemble(table), { paper: 'A4' });
    expect(steps[0].name).toBe('join base page, right leaf to base page, left leaf');
  });

  it('passes a limb through its slot before the plate with the slot is glued', () => {
    const steps = names(
      assemble([
        ...table,
        {
          name: 'mast',
          kind: 'v-fold',
          at: 20,
          glue: [60, 60],
          panels: [70, 70],
          feet: [30, 30],
          ridge: 40,
        },
        {
          name: 'gap',
          kind: 'slot',
          on: 'board',
          passes: 'mast left',
          outline: [
            [2, 10],
            [12, 10],
            [12, 14],
            [2, 14],
          ],
        },
      ]),
    );
    expect(steps.indexOf('pass mast through board')).toBeGreaterThanOrEqual(0);
    expect(steps.indexOf('pass mast through board')).toBeLessThan(steps.indexOf('glue board'));
    expect(steps.indexOf('pass mast through board')).toBeLessThan(steps.indexOf('glue mast'));
  });

  it('glues flat pieces on while what carries them lies flat: oars on their triangles', () => {
    const steps = names(example('ferryman'));
    for (const side of ['port', 'starboard'])
      expect(steps.indexOf(`glue ${side} oar`)).toBeLessThan(steps.indexOf(`glue ${side}`));
    // His arm, too, before anything stands on him; and it is passed through its slot before.
    expect(steps.indexOf('glue arm')).toBeLessThan(steps.indexOf('glue port'));
    expect(steps.indexOf('pass arm through man')).toBeLessThan(steps.indexOf('glue arm'));
  });

  it('handles every piece of the examples, each in a step of its own or with its hub', () => {
    for (const name of ['ferryman', 'heron', 'tightrope']) {
      const { steps, pieces, warnings } = plan(example(name), { paper: 'A2' });
      const handled = new Set(
        steps.flatMap((step) => [...step.nets, ...(step.hub === null ? [] : [step.hub.net])]),
      );
      for (const { net } of pieces) if (net.piece !== 'page') expect(handled.has(net), net.name).toBe(true);
      expect(
        warnings.filter((line) => line.includes('No order') || line.includes('joined to nothing')),
      ).toEqual([]);
    }
  });
});
