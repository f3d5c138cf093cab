import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { catchesOf } from '../../../src/desk/page/catches-of.js';
import { compileFigure } from '../../../src/figure/figure.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { catchesAt } from '../../../src/report/live/catches.js';
import { Dummy } from '../../../src/report/live/dummy.js';

it('two panels are ringed where they catch, and not where they only rub', () => {
  const file = 'examples/stuck-drummer.yaml';
  const figure = compileFigure(parseFigure(readFileSync(file, 'utf8'), file));
  const dummy = new Dummy(figure, figure.start);
  const { motion } = dummy;
  if (motion === null) throw new Error('the drummer can be built');
  const catches = catchesOf(figure);
  expect(catches.length).toBeGreaterThan(0);
  for (const { between, spans, startsAt } of catches)
    for (let pageAngle = 175; pageAngle > 2; pageAngle -= 6) {
      const shown = catchesAt(motion.assembly, motion.at(pageAngle), pageAngle, dummy.counts, dummy.card);
      const catchesHere = shown.some(({ between: [a, b] }) =>
        [a, b].every((k) => between.includes(motion.assembly.panels[k].name)),
      );
      const inSpan = spans.some(([low, high]) => low <= pageAngle && pageAngle <= high);
      // Between frames it may begin or end half a step earlier or later.
      const near = spans.some(
        ([low, high]) => Math.min(Math.abs(low - pageAngle), Math.abs(high - pageAngle)) < 1.01,
      );
      expect(inSpan || near || pageAngle > startsAt || !catchesHere).toBe(true);
      expect(!inSpan || near || catchesHere).toBe(true);
    }
});
