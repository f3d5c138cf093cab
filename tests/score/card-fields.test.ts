import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { ForceScore } from '../../src/score/force/force.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';
import { PROP } from '../support/prop.js';

const scored = (text: string): Scorecard => {
  const figure = compileFigure(parseFigure(text, 'x.yaml'));
  return new Scorer(figure).score(figure.start);
};
/** A V-fold whose panels differ by so many degrees: how hard its page is to turn. */
const mast = (card: string, limits = '', error = 1, step = 2): ForceScore => {
  const { force } = scored(
    `figure: x\npage: A5 portrait\ncard: { ${card} }\nopening: { step: ${step} }\nlimits: { ${limits} }\nparts: [{ name: mast, kind: v-fold, at: 100, glue: [45, 45], panels: [60, ${60 + error}], feet: [40, 40], ridge: 60, tab: { width: 6 } }]`,
  );
  if (force === null) throw new Error('it does not move');
  return force;
};
const SOFT = 'grammage: 240, bulk: 1.25, crease: 0';
const part = ({ parts }: ForceScore) => parts[0].toShut.value;

describe('what a maker has measured of their card acts', () => {
  it('twice as hard to bend and to pull, it is twice as hard to shut', () => {
    const [bare, bent] = ['bending: [7, 7]', 'bending: [14, 14]'].map((more) => mast(`${SOFT}, ${more}`));
    expect(part(bent) / part(bare)).toBeCloseTo(2, 9);
    const [soft, hard] = ['modulus: [3, 3]', 'modulus: [6, 6]'].map((more) => mast(`${SOFT}, ${more}`));
    expect(part(hard) / part(soft)).toBeCloseTo(2, 9);
  });

  it('the grain counts by its way', () => {
    const push = (grain: string) => part(mast(`${SOFT}, bending: [16, 4], grain: ${grain}`));
    expect(push('across')).toBeGreaterThan(push('any'));
    expect(push('any')).toBeGreaterThan(push('along'));
  });

  it('creases push as they are stiff, and hold the book open as far as they open by themselves', () => {
    const exact = (crease: number, rest = 75) =>
      mast(`grammage: 240, bulk: 1.25, crease: ${crease}, creaseRest: ${rest}`, '', 0);
    expect(exact(0).toShut.value).toBeCloseTo(0, 9);
    expect(exact(0.2).toShut.value / exact(0.1).toShut.value).toBeCloseTo(2, 9);
    expect(exact(0.04, 90).standsOpen).toBeGreaterThan(exact(0.04, 75).standsOpen ?? 180);
  });

  it('a hub that holds less tears out sooner, of thin card at once', () => {
    const plank = '- { name: plank, kind: stiffener, on: oar, at: [8, -3], size: [32, 6], face: back }';
    const prop = (more: string) => {
      const { limits } = scored(
        PROP.replace('start: 50', 'start: 51.5')
          .replace('# more', plank)
          .replace('240, bulk', `240${more}, bulk`),
      );
      return limits.find(({ name }) => name === 'give')?.value ?? Number.NaN;
    };
    expect(prop(', hubHolds: 2') / prop(', hubHolds: 4')).toBeCloseTo(2, 6);
    expect(prop(', hubHolds: 4')).toBeGreaterThan(prop(''));
    // Of two cards at a joint the weaker one tears.
    expect(prop(', pieces: { oar: { hubHolds: 2 } }')).toBeCloseTo(prop(', hubHolds: 2'), 9);
    expect(prop(', hubHolds: 2, pieces: { oar: { hubHolds: 9 } }')).toBeCloseTo(prop(', hubHolds: 2'), 9);
    expect(prop(', pieces: { deck: { hubHolds: 2 } }')).toBeCloseTo(prop(''), 9);
    // E t 1000 N/mm tears at 2 %, 1 mm of it.
    const { card } = compileFigure(parseFigure(PROP, 'x.yaml'));
    expect(card.hubHolds).toBeCloseTo(card.stiffness.any.pull * 0.02, 9);
  });
});

describe('the rule of the three grades acts', () => {
  it('by force, by strain in the plane, by bending', () => {
    const usual = mast(SOFT);
    const [push, strain, bent] = [usual.toShut.value, usual.strain.value * 100, usual.bending.value * 100];
    const graded = (limits: string) => mast(SOFT, limits).grade;
    const all = `force: ${push * 1.1}, easyForce: ${push * 1.1}, strain: ${strain * 1.1}, easyStrain: ${strain * 1.1}, easyBend: ${bent * 1.1}`;
    expect(graded(all)).toBe('works');
    expect(graded(all.replace(/easyForce: [\d.]+/, `easyForce: ${push * 0.9}`))).toBe('stiff');
    expect(graded(all.replace(/easyStrain: [\d.]+/, `easyStrain: ${strain * 0.9}`))).toBe('stiff');
    expect(graded(all.replace(/easyBend: [\d.]+/, `easyBend: ${bent * 0.9}`))).toBe('stiff');
    expect(graded(all.replace(/^force: [\d.]+/, `force: ${push * 0.9}`))).toBe('jams or tears');
    expect(graded(all.replace(/ strain: [\d.]+/, ` strain: ${strain * 0.9}`))).toBe('jams or tears');
  });

  it('a book that need not be shut so far is easier to shut: force is told to there, whatever the steps', () => {
    for (const step of [2, 1.5])
      for (const to of [2, 3, 5]) {
        const { atShut, shutTo, toShut } = mast(SOFT, `shutTo: ${to}`, 1, step);
        expect(shutTo).toBe(to);
        expect(toShut).toMatchObject({ pageAngle: to, value: atShut });
      }
    expect(mast(SOFT, 'shutTo: 4').toShut.value).toBeLessThan(mast(SOFT).toShut.value / 2);
  });
});
