import { isoSheet } from '../../figure/iso216.js';

/** A sheet of paper or card, mm. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** A sheet of ISO 216, upright. */
function isoPaper(name: string): Paper {
  const { width, height } = isoSheet(name) ?? { width: 0, height: 0 };
  return { name, width, height };
}

const INCH = 25.4;

/** Papers known by name, smallest first; upright. */
export const PAPERS: readonly Paper[] = [
  ...[6, 5, 4, 3, 2, 1, 0].flatMap((n) => [isoPaper(`A${n}`), isoPaper(`B${n}`)]),
  { name: 'Letter', width: 8.5 * INCH, height: 11 * INCH },
  { name: 'Tabloid', width: 11 * INCH, height: 17 * INCH },
].sort((a, b) => a.width * a.height - b.width * b.height);

/** A sheet that cannot be, or pieces that do not fit on it: what to tell the maker. */
export class SheetError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'SheetError';
  }
}

/** A paper by its name, or as WIDTHxHEIGHT in mm. @example paperNamed('320x450') */
export function paperNamed(text: string): Paper {
  const known = PAPERS.find(({ name }) => name.toLowerCase() === text.trim().toLowerCase());
  if (known !== undefined) return known;
  const size = /^\s*(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)\s*$/i.exec(text);
  const [width, height] = size === null ? [0, 0] : [Number(size[1]), Number(size[2])];
  if (!(width >= 50 && height >= 50 && width <= 3000 && height <= 3000))
    throw new SheetError(
      `no sheet is called '${text}': give ${PAPERS.map(({ name }) => name).join(', ')}, or its size in mm such as 320x450 (50 to 3000 mm)`,
    );
  return { name: `${width} × ${height} mm`, width, height };
}
