import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { Opening } from '../../src/motion/opening.js';
import { POSE } from '../../src/motion/pose.js';
import { Sobol } from '../../src/search/sobol.js';
import { Space } from '../../src/search/variables.js';
import { variablesOf } from '../../src/study/figure-variables.js';

test('between two page angles a pole on a hub stands where it does when the page is turned in finer steps', () => {
  const ferryman = compileFigure(
    readFigure(fileURLToPath(new URL('../../examples/ferryman.yaml', import.meta.url))),
  );
  const space = new Space(variablesOf(ferryman));
  const sobol = new Sobol(ferryman.free.length, 3);
  const { step } = ferryman.opening;
  const [frames, finer] = [new Opening(), new Opening()];
  const apart: number[] = [];
  for (let i = 0; i < 8; i++) {
    const vector = space.toValues(sobol.point(i));
    const assembly = ferryman.build(vector);
    frames.run(assembly, step);
    // Built anew: its loops know nothing of the others.
    finer.run(ferryman.build(vector), step / 8);
    const links = assembly.chains.closed.flatMap(({ panels }) => panels);
    for (let fine = 26; fine < finer.count; fine += 59) {
      if (fine % 8 === 0 || fine > 8 * (frames.count - 1)) continue;
      const there = frames.at(finer.pageAngles[fine]);
      const turned = finer.frame(fine);
      for (const k of links)
        for (const i of [3, 7, 11]) apart.push(Math.abs(there[k * POSE + i] - turned[k * POSE + i]));
    }
  }
  apart.sort((a, b) => a - b);
  expect(apart.length).toBeGreaterThan(150);
  // Where play leaves a choice, the finer steps may choose otherwise.
  expect(apart[Math.floor(0.9 * apart.length)]).toBeLessThan(1e-5);
});
