import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { Assembly } from '../../src/motion/assembly.js';
import { assemble, posesAt } from '../support/assemble.js';
import { example, plan, table } from './figures.js';
import { poseOf, toPanel } from './in-space.js';

/** The way that the printed face of a panel looks at a page angle: +z up from the left page, +y to the head. */
function printed(assembly: Assembly, name: string, pageAngle: number, options = {}): Vector3 {
  const { pieces } = plan(assembly, { paper: 'A2', ...options });
  const area = pieces.flatMap(({ net }) => net.areas).find((own) => own.name === name);
  if (area === undefined) throw new Error(name);
  const poses = posesAt(assembly, pageAngle);
  return new Vector3(0, 0, 1).transformDirection(poseOf(poses, area.panel).multiply(toPanel(area)));
}

describe('the printed face', () => {
  const tent = () =>
    assemble([{ name: 'tent', kind: 'parallel-fold', at: 40, length: 60, glue: [30, 30], widths: [40, 40] }]);

  it('of a tent is its outside, which looks up when the book lies open', () => {
    for (const side of ['left', 'right']) expect(printed(tent(), `tent ${side}`, 170).z).toBeGreaterThan(0.3);
  });

  it('is the other one where that is asked for', () => {
    expect(printed(tent(), 'tent left', 170, { faceOf: () => 'back' }).z).toBeLessThan(-0.3);
  });

  it('of what stands up looks to the reader at the foot', () => {
    for (const name of ['near right', 'far right'])
      expect(printed(assemble(table), name, 90).y, name).toBeLessThan(0.1);
    expect(
      printed(
        assemble([
          {
            name: 'sail',
            kind: 'v-fold',
            at: 100,
            glue: [60, 60],
            panels: [80, 80],
            feet: [60, 60],
            ridge: 50,
          },
        ]),
        'sail left',
        150,
      ).y,
    ).toBeLessThan(0);
  });

  it('of twins is alike', () => {
    const ferryman = example('ferryman');
    const [port, starboard] = ['port left', 'starboard left'].map((name) => printed(ferryman, name, 150));
    // In the mirror of the plane between the leaves; the right one has risen by 30°, so across it is 15° up.
    const across = new Vector3(Math.cos(Math.PI / 12), 0, Math.sin(Math.PI / 12));
    expect(port.clone().reflect(across).distanceTo(starboard)).toBeLessThan(0.01);
  });
});

describe('a flat piece', () => {
  const flag = (face: string) =>
    plan(
      assemble([
        { name: 'tent', kind: 'parallel-fold', at: 40, length: 60, glue: [30, 30], widths: [40, 40] },
        { name: 'flag', kind: 'stiffener', on: 'tent left', at: [10, 10], size: [20, 10], face },
      ]),
    ).bonds.find(({ bond }) => bond.giver.net.name === 'flag')?.bond;

  it('is glued in a tent or outside it, as its face says', () => {
    // The front of a tent's panel is the inner one; the outside is printed.
    expect(flag('front')?.receiver.face).toBe(-1);
    expect(flag('back')?.receiver.face).toBe(1);
    expect(flag('front')?.giver.face).not.toBe(flag('back')?.giver.face);
  });

  it('and its twin lie on the same face in the pattern of arms on counter-folds', () => {
    const { name, text } = patterns.find((each) => each.name === 'arm-on-counter-fold') ?? patterns[0];
    const figure = compileFigure(parseFigure(text, name));
    const { bonds } = plan(figure.build(figure.start));
    const arms = bonds.filter(({ bond }) => bond.of === 'piece').map(({ bond }) => bond.receiver.face);
    expect(arms).toHaveLength(2);
    expect(arms[0]).toBe(arms[1]);
  });
});

it('a face that is told must be that of a piece', () => {
  const text = (piece: string) =>
    `page: A5\nparts: [{ name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [40, 40] }]\nfaces: { ${piece}: back }\n`;
  expect(compileFigure(parseFigure(text('tent'), 'f.yaml')).faces.get('tent')).toBe('back');
  expect(() => compileFigure(parseFigure(text('tend'), 'f.yaml'))).toThrow(/'tend'; did you mean 'tent'/);
});
