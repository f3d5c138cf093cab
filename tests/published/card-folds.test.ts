import { describe, expect, it } from 'vitest';
import { parallelRoom, vertexRoom } from '../../src/card/fold-room.js';
import {
  creaseFromStrip,
  GRAVITY,
  stiffnessFromResistance,
  stiffnessFromSag,
} from '../../src/card/measured.js';
import { stiffnessOf } from '../../src/card/stock.js';
import { contactAngle, rigidStop, toggleTorque, vertexToggle } from '../card/toggle.js';

const RADIANS = Math.PI / 180;

describe('a fold cut off', () => {
  it('needs force from an angle that grows with the root of the error', () => {
    // √(2we/(d(d + w))) and √(2e sin p/(sin g sin(g + p))), derived for small angles.
    expect(contactAngle(0.5, parallelRoom([30, 30], [50, 50], 1)) / RADIANS).toBeCloseTo(8.27, 1);
    const V = vertexRoom(pair(45, 45), pair(60, 60), 1);
    expect(contactAngle(0.5 * RADIANS, V) / RADIANS).toBeCloseTo(8.53, 1);
  });

  it('and too short, is a toggle', () => {
    const toggle = vertexToggle(pair(84, 45));
    const lack = 0.5 * RADIANS;
    expect(rigidStop(lack, toggle) / RADIANS).toBeCloseTo(7.96, 2);
    // K = E t R²/2/Σp with R 75, E t 900.
    const pull = (900 * 75 ** 2) / 2 / (129 * RADIANS);
    expect(Math.abs(toggleTorque(pull, lack, toggle) - 474)).toBeLessThan(1);
  });
});

describe('stiffness that a maker measures', () => {
  it('follows from bending resistance (form of ISO 2493, from memory; F = 3EI δ/L³)', () => {
    expect(stiffnessFromResistance(0.1, 15, 50, 38)).toBeCloseTo(8.38, 2);
  });

  it('follows from a strip over the edge of a table', () => {
    // Back from the cantilever's own formula, qL⁴/8D.
    const drop = (240e-6 * GRAVITY * 1e-3 * 150 ** 4) / (8 * 8);
    expect(stiffnessFromSag(240, 150, drop)).toBeCloseTo(8, 9);
  });

  it('of a crease follows from how far the weight of a flap presses it', () => {
    const weight = 240e-9 * GRAVITY;
    const laid = 60 * RADIANS;
    const k = ((weight * 100 ** 2) / 2) * (Math.cos(laid) / (15 * RADIANS));
    expect(creaseFromStrip(240, 100, 75, 60)).toBeCloseTo(k, 9);
    expect(creaseFromStrip(240, 10, 75, 75)).toBeNull();
  });

  it('is typical where it was not: E t 600 to 1500 N/mm, D 4 to 12 N mm for card of 240 g/m², 0.3 mm', () => {
    const { along, across, any } = stiffnessOf(0.3, 240);
    expect(along.pull / 0.3).toBeCloseTo(5000, 0);
    expect(across.pull / 0.3).toBeCloseTo(2200, 0);
    expect(any.pull).toBeGreaterThan(900);
    expect(any.pull).toBeLessThan(1100);
    expect(any.bend).toBeGreaterThan(7);
    expect(any.bend).toBeLessThan(8);
  });
});

const pair = (a: number, b: number): [number, number] => [a * RADIANS, b * RADIANS];
