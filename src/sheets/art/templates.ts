import { type Box, boxOf, moved, movedRing, movedShape, type Point, undoing } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { type Drawing, emptyDrawing, fitted, LEAST_TYPE } from '../drawn/drawing.js';
import type { Piece } from '../layout/piece.js';
import { drawnOn } from './place-art.js';

/** Room around a panel on its template, mm. */
const AROUND = 10;

export interface Template {
  readonly panel: string;
  readonly drawing: Drawing;
}

/**
 * For each panel a drawing at true size to draw its art on: its outline and holes, creases, slits, where glue goes and so
 * where it is covered, and how far art must run past the cut. The middle of the drawing comes to the middle of the panel,
 * so that what is drawn on it needs no `zero`.
 */
export function templatesOf(assembly: Assembly, pieces: readonly Piece[]): Template[] {
  return pieces.flatMap(({ net, lines, marks }) =>
    net.areas.flatMap((area, index): Template[] => {
      if (area.panel < 0 || area.kind !== 'panel') return [];
      const upright = undoing(drawnOn(assembly, area));
      const own = movedShape(upright, area.shape);
      const box: Box = boxOf(own.outline);
      const width = box.right - box.left + 2 * AROUND;
      const height = box.high - box.low + 2 * AROUND;
      const drawing = emptyDrawing(width, height);
      const at = ([x, y]: Point): Point => [x - box.left + AROUND, y - box.low + AROUND];
      for (const ring of [own.outline, ...own.holes])
        drawing.strokes.push({ kind: 'cut', points: ring.map(at), closed: true });
      for (const { segment, fold } of lines.creases)
        if (net.folds[fold].between.includes(index))
          drawing.strokes.push({
            kind: 'valley',
            points: segment.map((p) => at(moved(upright, p))),
            closed: false,
          });
      for (const slit of net.slits)
        drawing.strokes.push({ kind: 'cut', points: slit.map((p) => at(moved(upright, p))), closed: false });
      for (const { spot } of marks)
        if (spot.area === index && spot.face === 1)
          for (const shape of spot.shapes)
            drawing.strokes.push({
              kind: 'glue area',
              points: movedRing(upright, shape.outline).map(at),
              closed: true,
            });
      const note = fitted(area.name, LEAST_TYPE, width - 4);
      drawing.texts.push({ at: [2, 2], text: note, size: LEAST_TYPE, anchor: 'left', turn: 0, bold: false });
      return [{ panel: area.name, drawing }];
    }),
  );
}
