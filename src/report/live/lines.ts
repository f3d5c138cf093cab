import { prepared } from './canvas.js';
import { colour } from './dom.js';
import type { Study } from './study.js';
import { thin } from './thin.js';
import type { Upright } from './upright.js';

/** More lines than these only blacken the paper. */
const MOST_BEHIND = 1500;
const MOST_PASSING = 600;

/** The lines of the parallel coordinates on their canvas: pale all dummies, dark those that pass, in colour the chosen. */
export class Lines {
  readonly canvas: HTMLCanvasElement;
  readonly #behind = document.createElement('canvas');
  /** What the pale lines were drawn for: they stay the same while filters change. */
  #behindFor = '';

  constructor(canvas: HTMLCanvasElement) {
    this.canvas = canvas;
  }

  /** @param xs where each axis stands, px */
  draw(
    { candidates, shown, chosen, beside }: Study,
    uprights: readonly Upright[],
    xs: readonly number[],
    width: number,
    height: number,
  ): void {
    const paint = prepared(this.canvas, width, height);
    if (shown.value.length < candidates.count) {
      this.#drawBehind(candidates.count, uprights, xs, width, height);
      paint.drawImage(this.#behind, 0, 0, width, height);
    }
    const passing = thin(shown.value, MOST_PASSING);
    const alpha = Math.max(0.12, Math.min(0.6, 40 / passing.length));
    trace(paint, passing, uprights, xs, { stroke: colour('ink'), alpha, width: 1 });
    if (beside.value !== null) {
      paint.setLineDash([5, 4]);
      trace(paint, [beside.value], uprights, xs, { stroke: colour('mark'), alpha: 1, width: 2 });
      paint.setLineDash([]);
    }
    trace(paint, [chosen.value], uprights, xs, { stroke: colour('paper'), alpha: 1, width: 6 });
    trace(paint, [chosen.value], uprights, xs, { stroke: colour('mark'), alpha: 1, width: 3 });
  }

  #drawBehind(
    count: number,
    uprights: readonly Upright[],
    xs: readonly number[],
    width: number,
    height: number,
  ): void {
    const stroke = colour('line');
    const wanted = `${width} ${height} ${stroke} ${devicePixelRatio}`;
    if (this.#behindFor === wanted) return;
    this.#behindFor = wanted;
    const all = Array.from({ length: count }, (_, place) => place);
    trace(prepared(this.#behind, width, height), thin(all, MOST_BEHIND), uprights, xs, {
      stroke,
      alpha: 0.35,
      width: 1,
    });
  }
}

interface Pen {
  readonly stroke: string;
  readonly alpha: number;
  readonly width: number;
}

function trace(
  paint: CanvasRenderingContext2D,
  places: readonly number[],
  uprights: readonly Upright[],
  xs: readonly number[],
  pen: Pen,
): void {
  paint.strokeStyle = pen.stroke;
  paint.globalAlpha = pen.alpha;
  paint.lineWidth = pen.width;
  for (const place of places) {
    paint.beginPath();
    // A gap where a value was not computed.
    let down = false;
    for (let axis = 0; axis < xs.length; axis++) {
      const y = uprights[axis].at(place);
      if (Number.isNaN(y)) down = false;
      else if (down) paint.lineTo(xs[axis], y);
      else {
        paint.moveTo(xs[axis], y);
        down = true;
      }
    }
    paint.stroke();
  }
}
