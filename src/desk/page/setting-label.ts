/** Fields of two entries, the left side first. */
const PAIRS = new Set(['glue', 'panels', 'feet', 'widths', 'layers', 'outlines']);
/** Fields that hold one point, or a length along and one up. */
const POINTS = new Set(['at', 'from', 'to', 'meets', 'point', 'size']);
/** Said by the number that follows, or by the part itself. */
const SILENT = new Set(['outline', 'outlines', 'polygon', 'line', 'supports', 'holes']);

/**
 * What a number or word of a part is called beside it, without the part's name: sides, corners and ends by their names, and
 * points by how far along and up they are, as the docs have it.
 * @param name as `Setting` has it
 * @example settingLabel('man.panels.0', 'man') // 'panels left'
 * @example settingLabel('tray.supports.1.line.0.1', 'tray') // 'hinge 2 start up'
 */
export function settingLabel(name: string, part: string): string {
  const plain = part !== '' && name.startsWith(`${part}.`) ? name.slice(part.length + 1) : name;
  // A dim is called as it is called.
  if (part === '') return plain;
  const steps = plain.split('.');
  return steps
    .flatMap((step, i) =>
      /^\d+$/.test(step)
        ? [placeOf(Number(step), steps.slice(0, i), i + 1 === steps.length)]
        : SILENT.has(step)
          ? []
          : [step],
    )
    .join(' ');
}

function placeOf(k: number, before: readonly string[], isLast: boolean): string {
  const [above = '', over = ''] = [before.at(-1), before.at(-2)];
  if (PAIRS.has(above) && k < 2) return k === 0 ? 'left' : 'right';
  if (above === 'line' && k < 2) return k === 0 ? 'start' : 'end';
  if (above === 'supports') return `hinge ${k + 1}`;
  if (above === 'holes') return `hole ${k + 1}`;
  // A number of a point: of a corner, of an end of a line, or of a field that is one.
  const isPoint = POINTS.has(above) || (/^\d+$/.test(above) && over !== 'supports');
  if (isLast && k < 2 && isPoint) return k === 0 ? 'along' : 'up';
  return `${above === 'around' ? '' : 'corner '}${k + 1}`;
}
