import type { Assembly } from '../motion/assembly.js';

/**
 * Adds the two misfits that `hingedStep` writes for one line of a hinged panel: the gap in the panel's plane, and the
 * whole of it. @returns the index of the first
 */
export function addSupportMisfits(
  assembly: Assembly,
  part: string,
  joint: 'support' | 'top',
  other: number,
): number {
  const at = { part, joint, panels: [part, assembly.panels[other].name], locksBeyond: null };
  const first = assembly.addMisfit({ ...at, of: 'gap' });
  assembly.addMisfit({ ...at, of: 'forced' });
  return first;
}
