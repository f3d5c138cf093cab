/** Makes a canvas as large as asked, sharp on the reader's screen, and empty. */
export function prepared(canvas: HTMLCanvasElement, width: number, height: number): CanvasRenderingContext2D {
  const scale = Math.min(devicePixelRatio, 2);
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  const paint = canvas.getContext('2d');
  if (paint === null) throw new Error('the browser draws no canvas');
  paint.scale(scale, scale);
  return paint;
}
