import { describe, expect, it } from 'vitest';
import { besideOf, trimmedFrom } from '../../src/desk/page/beside.js';
import { Kernel } from '../../src/desk/page/kernel.js';
import { untrimPanel } from '../../src/edit/remove.js';
import { difference, read, STALL } from '../edit/support.js';

const TRIM = 'region: [[20, 0], [25, 0], [25, 2]]';
const trimmed = STALL.replace(TRIM, 'region: [[8, 8], [12, 8], [12, 10], [8, 10]]');

function kernelOf(text: string): Kernel {
  const kernel = new Kernel();
  kernel.read(text, 'stall.yaml', {});
  return kernel;
}

describe('beside the scorecard', () => {
  it('stands how much card trims have taken from a panel', () => {
    const { source, figure } = kernelOf(trimmed);
    const [{ panel, lost, share }, ...more] = trimmedFrom(source, figure);
    expect(more).toEqual([]);
    expect(panel).toBe('sail left');
    // A window of 4 × 2 mm in a triangle with sides of 25 and 30 mm and 68° between them.
    expect(lost).toBeCloseTo(8, 4);
    expect(share).toBeCloseTo(800 / (0.5 * 25 * 30 * Math.sin((68 * Math.PI) / 180)), 3);
  });

  it('stands nothing of trims where there are none', () => {
    const { source, figure } = kernelOf(untrimPanel(read(trimmed), 'sail left'));
    expect(trimmedFrom(source, figure)).toEqual([]);
  });

  it('stand the force over the page angle, and what is tied', () => {
    const { turnChart, ties } = besideOf(3, kernelOf(trimmed));
    expect(turnChart).toMatch(/^<svg[^>]*>[\s\S]*How hard the page turns: market stall/);
    expect(ties.join(' ')).toContain('sail.panels.0 = sail.panels.1');
  });
});

describe('card that was trimmed', () => {
  it('is put back by an edit that changes nothing else', () => {
    expect(difference(STALL, untrimPanel(read(STALL), 'sail left'))).toEqual([
      '-trims:',
      `-  - { panel: sail left, ${TRIM} }`,
      '-',
    ]);
    expect(() => untrimPanel(read(STALL), 'tent left')).toThrow("nothing is trimmed from 'tent left'");
  });
});
