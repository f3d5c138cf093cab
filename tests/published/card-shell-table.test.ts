import { describe, expect, it } from 'vitest';
import { foldState, newFoldState, parallelSpring, vertexSpring } from '../../src/card/fold-spring.js';
import { openingShare } from '../../src/card/too-short.js';
import { contactAngle, rigidStop, toggleTorque, vertexToggle } from '../card/toggle.js';

/**
 * Results of a 3-D shell of triangles and hinges between rigid pages without friction, computed apart from this project
 * and handed to it as a table: forces (N) at the edge of an A5 page. Its modes snap, so that between two frames the
 * force is 0.3 to 1.7 of the rule's.
 */
const RADIANS = Math.PI / 180;
const PAGE = 148;
const card = { pull: 900, bend: 8 };
const v = (error: number) =>
  vertexSpring([45 * RADIANS, 45 * RADIANS], [(60 + error) * RADIANS, 60 * RADIANS], 75, 5, 1, card, 0.3, 0);
const tent = (error: number) => parallelSpring([30, 30], [50 + error, 50], 60, 1, card, 0.3, 0);
const at = (spring: ReturnType<typeof v>, degrees: number) =>
  foldState(spring, degrees * RADIANS, newFoldState());
const force = (spring: ReturnType<typeof v>, degrees: number) => -at(spring, degrees).slope / PAGE;

describe('a V-fold 45/45 with panels of 60°, ridge 75', () => {
  it.each([
    [0.25, 6.0, 2.7, 0.3, 0.3, 1.3],
    [0.5, 8.5, 3.9, 0.7, 2.2, 5.3],
    [1, 12.1, 5.5, 6, 6, 31],
    [2, 17.0, 7.9, 23, 70, 124],
  ])('%d° off', (error, contact, bow, least, most, atOne) => {
    const spring = v(error);
    expect(contactAngle(spring.excess, spring.room) / RADIANS).toBeCloseTo(contact, 0);
    const bows = [2, 3, 4, 5, 6, 8].map((degrees) => at(spring, degrees).bow);
    expect(Math.max(...bows) / bow).toBeGreaterThan(0.85);
    expect(Math.max(...bows) / bow).toBeLessThan(1.3);
    expect(force(spring, 2)).toBeGreaterThan(0.6 * least);
    expect(force(spring, 2)).toBeLessThan(2.5 * most);
    expect(force(spring, 1) / atOne).toBeGreaterThan(0.6);
    expect(force(spring, 1) / atOne).toBeLessThan(1.9);
  });
});

describe('a tent d 30, w 50, ℓ 60', () => {
  it.each([
    [0.3, 6.4, 0.5, 3.7],
    [0.5, 8.3, 1.3, 8.7],
    [1, 11.7, 7.2, 33],
  ])('%d mm off', (error, contact, atTwo, atOne) => {
    const spring = tent(error);
    expect(contactAngle(spring.excess, spring.room) / RADIANS).toBeCloseTo(contact, 0);
    for (const [degrees, known] of [
      [2, atTwo],
      [1, atOne],
    ]) {
      expect(force(spring, degrees) / known).toBeGreaterThan(0.6);
      expect(force(spring, degrees) / known).toBeLessThan(1.7);
    }
  });
});

it.each([
  [0.5, 8.0, 1.3],
  [1, 11.3, 3.4],
])(
  'a V-fold 84/45, ridge 75, that lacks %d° stops %d° short of open, and %d N press it flat',
  (lack, short, newton) => {
    const spring = vertexSpring(
      [84 * RADIANS, 45 * RADIANS],
      [45 * RADIANS, (84 - lack) * RADIANS],
      75,
      5,
      1,
      card,
      0.3,
      0,
    );
    const toggle = vertexToggle([84 * RADIANS, 45 * RADIANS]);
    expect(rigidStop(lack * RADIANS, toggle) / RADIANS).toBeCloseTo(short, 0);
    const most = toggleTorque(spring.membrane * openingShare(spring.together), lack * RADIANS, toggle);
    expect(most / PAGE / newton).toBeGreaterThan(0.7);
    expect(most / PAGE / newton).toBeLessThan(1.3);
    // The greatest slope of the energy over the last 15° is that torque.
    const slopes = Array.from({ length: 150 }, (_, i) => at(spring, 165 + i / 10).slope);
    expect(Math.max(...slopes) / most).toBeCloseTo(1, 1);
  },
);
