import { crc32, inflateSync } from 'node:zlib';
import { PathFault } from '../../figure/outlines/flatten.js';
import type { CleanDrawing } from './clean-drawing.js';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** What of a picture is kept: its size, its colours and its points. Texts, places, times and profiles go. */
const KEPT = ['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND'];
export const MOST_POINTS = 25_000_000;
/** A picture that does not say how large it is has so many points an inch. */
const DPI = 300;
/** Values a point, by the colour type of PNG. */
const CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/**
 * Reads a PNG picture for printing (ISO/IEC 15948), at 300 points an inch or as large as it says. What is no picture in it
 * falls away.
 * @throws PathFault where it can't be printed
 */
export function cleanPicture(png: Uint8Array): CleanDrawing {
  const fault = (found: string, remedy = 'save it anew as a PNG') => new PathFault(found, remedy);
  if (SIGNATURE.some((byte, i) => png[i] !== byte)) throw fault('a file that is no PNG');
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const kept: Uint8Array[] = [png.subarray(0, 8)];
  const points: Uint8Array[] = [];
  let size: { width: number; height: number; depth: number; colour: number } | null = null;
  let perMetre = (DPI / 25.4) * 1000;
  let colours = 0;
  let ended = false;
  for (let at = 8; !ended; ) {
    if (at + 12 > png.length) throw fault('a PNG that breaks off');
    const long = view.getUint32(at);
    const end = at + 12 + long;
    if (end > png.length) throw fault('a PNG that breaks off');
    const kind = String.fromCharCode(...png.subarray(at + 4, at + 8));
    const data = png.subarray(at + 8, at + 8 + long);
    if (crc32(png.subarray(at + 4, at + 8 + long)) !== view.getUint32(end - 4)) throw fault('a damaged PNG');
    if ((at === 8) !== (kind === 'IHDR')) throw fault('a damaged PNG');
    if (kind === 'IHDR' && long === 13) {
      const [width, height] = [view.getUint32(at + 8), view.getUint32(at + 12)];
      size = { width, height, depth: data[8], colour: data[9] };
      if (data[12] !== 0) throw fault('an interlaced PNG', 'save it without interlacing');
    }
    // Points a metre, the same across and down.
    if (kind === 'pHYs' && long === 9 && data[8] === 1 && view.getUint32(at + 8) === view.getUint32(at + 12))
      perMetre = view.getUint32(at + 8);
    if (kind === 'IDAT') points.push(data);
    if (kind === 'PLTE') colours = long / 3;
    if (KEPT.includes(kind)) kept.push(png.subarray(at, end));
    ended = kind === 'IEND';
    at = end;
  }
  if (size === null || size.width === 0 || size.height === 0) throw fault('a PNG without a size');
  const { width, height, depth, colour } = size;
  const channels = CHANNELS[colour];
  if (depth !== 8 || channels === undefined)
    throw fault('a PNG of other than 8 bits a colour', 'save it with 8 bits a colour');
  if (width * height > MOST_POINTS)
    throw fault(`a picture of ${width} × ${height} points`, `keep it under ${MOST_POINTS} in all`);
  if (perMetre < 500 || perMetre > 100_000)
    throw fault('a picture that says it is of no sensible size', 'save it at 300 dpi');
  // A byte before each row says how it is written.
  const row = 1 + width * channels;
  const rows = unfolded(points, height * row);
  if (rows === null || (colour === 3 && !(Number.isInteger(colours) && colours > 0 && colours <= 256)))
    throw fault('a damaged PNG');
  // There are five ways. Who prints it meets a sixth where nobody can be told any more.
  for (let at = 0; at < rows.length; at += row) if (rows[at] > 4) throw fault('a damaged PNG');
  const mm = 1000 / perMetre;
  return { width: width * mm, height: height * mm, strokes: [], picture: Buffer.concat(kept), left: [] };
}

/** The bytes of a picture, if they are so many. */
function unfolded(parts: readonly Uint8Array[], length: number): Uint8Array | null {
  try {
    const bytes = inflateSync(Buffer.concat(parts), { maxOutputLength: length });
    return bytes.length === length ? bytes : null;
  } catch {
    return null;
  }
}

/** How many points a picture has that was read for printing: its size stands first. */
export function pointsOf(picture: Uint8Array): number {
  const view = new DataView(picture.buffer, picture.byteOffset, picture.byteLength);
  return view.getUint32(16) * view.getUint32(20);
}
