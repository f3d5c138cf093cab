import { describe, expect, it } from 'vitest';
import { Kernel } from '../../src/desk/page/kernel.js';
import { draggedMotion, motionOf } from '../../src/desk/page/shown.js';
import { STALL } from '../edit/support.js';

describe('a drag', () => {
  const kernel = new Kernel();
  kernel.read(STALL, 'stall.yaml', {});
  kernel.hold(kernel.findTies());

  it('shows what the file with the dragged numbers in it would show', () => {
    for (const [path, values] of [
      [
        ['parts', 0, 'at'],
        [42, 45.5],
      ],
      [
        ['parts', 3, 'at', 0],
        [6, 7],
      ],
      [
        ['dims', 'slack'],
        [13, 10],
      ],
      [
        ['parts', 1, 'glue', 0],
        [64, 58],
      ],
      // That of the arm, an angle that is written.
      [
        ['parts', 4, 'turn'],
        [12, 9],
      ],
    ] as const)
      for (const value of values) {
        const { changes } = kernel.dragged([path], [value]);
        const shown = draggedMotion(1, kernel.changed(changes), kernel.source, 77);
        const other = new Kernel();
        other.read(kernel.placed([path], [value]).text, 'stall.yaml', {});
        const written = motionOf(1, { figure: other.figure, vector: other.figure.start }, other.source);
        expect(written.frames).not.toEqual(asRead.frames);
        const width = 12 * written.panels.length;
        expect(shown.panels).toEqual(written.panels);
        // Every two degrees against every half degree.
        for (const frame of [0, 30, 90])
          expect(shown.frames.slice(frame * width, (frame + 1) * width)).toEqual(
            written.frames.slice(4 * frame * width, (4 * frame + 1) * width),
          );
        expect(shown.shown?.poses).toEqual(written.frames.slice(206 * width, 207 * width));
      }
  });

  const asRead = motionOf(1, { figure: kernel.figure, vector: kernel.figure.start }, kernel.source);
});
