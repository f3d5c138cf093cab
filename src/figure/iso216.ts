/**
 * Sheet sizes of ISO 216, series A and B: A0 is 841 × 1189 mm, B0 1000 × 1414 mm, and each next size is half the one
 * before, cut across its long side, with parts of a millimetre dropped.
 */
export interface SheetSize {
  readonly width: number;
  readonly height: number;
}

const WHOLE: Readonly<Record<string, SheetSize>> = {
  A: { width: 841, height: 1189 },
  B: { width: 1000, height: 1414 },
};

/**
 * The sheet of a name such as 'A5', 'a5 portrait' or 'B5 landscape', mm; upright where it says neither.
 * Sizes 0 to 10. Undefined where the name is none of these.
 */
export function isoSheet(name: string): SheetSize | undefined {
  const found = /^([AB])(10|[0-9])(?: (portrait|landscape))?$/i.exec(name.trim());
  if (found === null) return undefined;
  let { width, height } = WHOLE[found[1].toUpperCase()];
  for (let size = Number(found[2]); size > 0; size--) [width, height] = [Math.floor(height / 2), width];
  return found[3]?.toLowerCase() === 'landscape' ? { width: height, height: width } : { width, height };
}
