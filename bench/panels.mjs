/** How the clash test grows with panels that are apart: tents in a row along the gutter, 8 to 128 panels. */

import { compileFigure } from '../dist/src/figure/figure.js';
import { parseFigure } from '../dist/src/figure/text/source.js';
import { Opening } from '../dist/src/motion/opening.js';
import { ClashTest } from '../dist/src/score/clash/clash.js';
import { cpu } from './examples.mjs';

const opening = new Opening();
const clash = new ClashTest();
let before = null;
for (const panels of [8, 16, 32, 64, 128]) {
  const tents = panels / 4;
  const parts = Array.from(
    { length: tents },
    (_, i) =>
      `  - { name: tent ${i}, kind: parallel-fold, at: ${30 * i}, length: 20, glue: [20, 20], widths: [30, 30], tab: { width: 5 } }`,
  );
  const text = `page: { width: 150, height: ${Math.max(30 * tents, 30)} }\nparts:\n${parts.join('\n')}\n`;
  const figure = compileFigure(parseFigure(text, 'tents.yaml'));
  const assembly = figure.build(figure.start);
  opening.run(assembly, 2);
  const rounds = Math.ceil(4000 / panels);
  for (let i = 0; i < rounds; i++) clash.run(assembly, opening, 0.3);
  const ms = cpu(() => {
    for (let i = 0; i < rounds; i++) clash.run(assembly, opening, 0.3);
  });
  const each = ms / rounds;
  console.log(
    `  ${String(panels).padStart(3)} panels: ${each.toFixed(3)} ms${before === null ? '' : `, ${(each / before).toFixed(2)} × half as many`}`,
  );
  before = each;
}
