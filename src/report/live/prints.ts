import { CanvasTexture, SRGBColorSpace } from 'three';
import type { PrintedPanel } from '../../sheets/art/printed-panels.js';
import type { PageArt } from './data.js';

type PageDrawing = PageArt['drawings'][number];

/** Dots a mm, as far as a picture is not wider than MOST_DOTS. */
const DOTS = 8;
const MOST_DOTS = 2048;
/** Room round a drawing, mm: what runs past its edge is printed too; beyond, nothing. */
const ROUND = 3;

/** A drawing as a picture that lies on panels. */
export interface Print {
  readonly texture: CanvasTexture;
  /** The corners of the picture: mm from the drawing's top left corner, y down. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Art on a panel, with its picture. */
export interface OnPanel extends Pick<PrintedPanel, 'panel' | 'face' | 'matrix'> {
  readonly print: Print;
}

/**
 * Draws the drawings once; where they lie on a panel is worked out for each dummy.
 * @param whenReady told when a picture that takes time to read has come
 */
export function printsOf(drawings: readonly PageDrawing[], whenReady: () => void): Print[] {
  return drawings.map((drawing) => {
    const width = drawing.width + 2 * ROUND;
    const height = drawing.height + 2 * ROUND;
    const dots = Math.min(DOTS, MOST_DOTS / width, MOST_DOTS / height);
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(width * dots));
    canvas.height = Math.max(1, Math.round(height * dots));
    const texture = new CanvasTexture(canvas);
    texture.colorSpace = SRGBColorSpace;
    texture.anisotropy = 8;
    const pen = canvas.getContext('2d');
    if (pen !== null) {
      pen.setTransform(canvas.width / width, 0, 0, canvas.height / height, 0, 0);
      pen.translate(ROUND, ROUND);
      draw(pen, drawing);
      if (drawing.picture !== null)
        void pictureOf(drawing.picture).then((picture) => {
          pen.drawImage(picture, 0, 0, drawing.width, drawing.height);
          texture.needsUpdate = true;
          whenReady();
        });
    }
    return { texture, left: -ROUND, top: -ROUND, width, height };
  });
}

function draw(pen: CanvasRenderingContext2D, { strokes }: PageDrawing): void {
  for (const { d, fill, stroke, width, evenOdd } of strokes) {
    const path = new Path2D(d);
    if (fill !== null) {
      pen.fillStyle = fill;
      pen.fill(path, evenOdd ? 'evenodd' : 'nonzero');
    }
    if (stroke !== null) {
      pen.strokeStyle = stroke;
      pen.lineWidth = width;
      pen.stroke(path);
    }
  }
}

function pictureOf(png: string): Promise<ImageBitmap> {
  const bytes = Uint8Array.from(atob(png), (letter) => letter.charCodeAt(0));
  return createImageBitmap(new Blob([bytes], { type: 'image/png' }));
}

/**
 * Where the points of a panel's card lie in its picture: two numbers each, from its lower left corner, as parts of its size.
 * @param points x, y, z in the panel's own frame, mm
 */
export function onPrint(points: Float32Array, { matrix, print }: OnPanel): Float32Array<ArrayBuffer> {
  const [a, b, c, d, e, f] = matrix;
  const { left, top, width, height } = print;
  // Back from the panel's plane to the drawing.
  const whole = a * d - b * c;
  const uv = new Float32Array((2 * points.length) / 3);
  for (let i = 0; i < points.length / 3; i++) {
    const [x, y] = [points[3 * i] - e, points[3 * i + 1] - f];
    const right = (d * x - c * y) / whole;
    const down = (a * y - b * x) / whole;
    uv[2 * i] = (right - left) / width;
    uv[2 * i + 1] = 1 - (down - top) / height;
  }
  return uv;
}
