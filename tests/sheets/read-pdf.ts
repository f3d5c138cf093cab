import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What a PDF page holds, as pdfjs-dist reads it, in mm from the page's lower left corner. */
export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly paths: readonly ReadPath[];
  readonly texts: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

export interface ReadPath {
  readonly filled: boolean;
  readonly closed: boolean;
  readonly points: readonly (readonly [number, number])[];
  /** mm */
  readonly dash: readonly number[];
}

const MM = 25.4 / 72;

export async function readPdf(bytes: Uint8Array): Promise<ReadPage[]> {
  // pdfjs-dist takes the buffer for itself.
  const document = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const [, , width, height] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    const { items } = await page.getTextContent();
    pages.push({
      width: width * MM,
      height: height * MM,
      paths: pathsIn(fnArray, argsArray),
      texts: items.flatMap((item) =>
        'str' in item && item.str.trim() !== ''
          ? [{ text: item.str, x: item.transform[4] * MM, y: item.transform[5] * MM }]
          : [],
      ),
    });
  }
  await document.destroy();
  return pages;
}

type Matrix = readonly number[];

function pathsIn(ops: readonly number[], args: readonly unknown[][]): ReadPath[] {
  const paths: ReadPath[] = [];
  let state: { matrix: Matrix; dash: readonly number[] } = { matrix: [1, 0, 0, 1, 0, 0], dash: [] };
  const saved: (typeof state)[] = [];
  ops.forEach((op, i) => {
    if (op === OPS.save) saved.push(state);
    else if (op === OPS.restore) state = saved.pop() ?? state;
    else if (op === OPS.transform) state = { ...state, matrix: times(state.matrix, args[i] as number[]) };
    else if (op === OPS.setDash) state = { ...state, dash: (args[i][0] as number[]).map((v) => v * MM) };
    else if (op === OPS.constructPath) {
      const [paint, [data]] = args[i] as [number, [ArrayLike<number> | null]];
      const filled = paint === OPS.fill || paint === OPS.eoFill;
      if (data !== null && (filled || paint === OPS.stroke || paint === OPS.closeStroke))
        for (const path of ringsOf(Array.from(data), state.matrix))
          paths.push({ ...path, filled, dash: state.dash });
    }
  });
  return paths;
}

/** pdfjs-dist 5 writes a path as numbers: 0 x y moves, 1 x y draws a line, 4 closes. */
function ringsOf(data: readonly number[], m: Matrix): Pick<ReadPath, 'points' | 'closed'>[] {
  const rings: { points: [number, number][]; closed: boolean }[] = [];
  for (let i = 0; i < data.length; ) {
    const kind = data[i];
    if (kind === 4) {
      rings[rings.length - 1].closed = true;
      i += 1;
      continue;
    }
    if (kind !== 0 && kind !== 1) throw new Error(`a path with a part of kind ${kind}`);
    if (kind === 0) rings.push({ points: [], closed: false });
    const [x, y] = [data[i + 1], data[i + 2]];
    rings[rings.length - 1].points.push([
      (m[0] * x + m[2] * y + m[4]) * MM,
      (m[1] * x + m[3] * y + m[5]) * MM,
    ]);
    i += 3;
  }
  return rings;
}

function times(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[2] * b[1],
    a[1] * b[0] + a[3] * b[1],
    a[0] * b[2] + a[2] * b[3],
    a[1] * b[2] + a[3] * b[3],
    a[0] * b[4] + a[2] * b[5] + a[4],
    a[1] * b[4] + a[3] * b[5] + a[5],
  ];
}
