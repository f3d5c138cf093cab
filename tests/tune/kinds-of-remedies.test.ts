import { expect, test } from 'vitest';
import { costsInWords } from '../../src/report/words/tune-words.js';
import type { Tuned, TuneOptions } from '../../src/tune/tune.js';
import { changesOf, figureFrom, textWorks, tuned } from './support.js';

/** What frees a figure: every remedy works as it is written, with no slot missed and no want worse. */
async function remediesOf(
  text: string,
  options: Partial<TuneOptions> = {},
  budget = 250,
): Promise<Tuned['remedies']> {
  const { remedies, ties } = await tuned(figureFrom(text), options, budget);
  // What is moved together in one remedy is told there, and not as if it were tied.
  for (const { because } of ties) expect(['equal', 'shuts']).toContain(because);
  expect(remedies.length).toBeGreaterThan(0);
  for (const remedy of remedies) {
    expect(textWorks(remedy.text)).toBe(true);
    expect(remedy.wantLosses).toEqual([]);
  }
  return remedies;
}
const whyOf = (remedies: Tuned['remedies']) =>
  remedies.flatMap(({ ties }) => ties.map(({ because }) => because));

/** A man with an arm that a counter-fold behind him swings out through a slot in his side. */
const armThrough = (sleeve: string) => `page: A5
parts:
  - { name: man, kind: v-fold, at: 75, glue: [60, 60], panels: [69, 69], feet: [36, 36], ridge: 72, outlines: { left: { polygon: [[0, 0], [36, 0], { on: ridge, at: [26, 28] }, { on: ridge, at: [end, 26] }, { on: ridge, at: end }], grow: yes }, right: { mirror: left } }, tab: { width: 6 } }
  - { name: joint, kind: counter-fold, on: man ridge, at: 46, diagonal: 36, side: 11, length: 22 }
  - { name: arm, kind: glued-piece, on: joint left, at: [0, 0], outline: [[4, 0.8], [16, 0.8], [16, -14], [21, -14], [21, 2], [18.1, 8.5], [4.5, 2.1]] }
  - { name: sleeve, kind: slot, on: man left, outline: ${sleeve}, passes: arm }
wants:
  - { name: the arm swings, kind: travel, panel: arm, point: [18.5, -14], reference: man left, least: 10 }
limits: { pile: 3 }
`;
const TOO_SMALL = armThrough('[[27.8, 52.1], [29.4, 49.6], [33, 51.9], [31.4, 54.4]]');
const TOO_HIGH = armThrough('[[31.2, 54.3], [32.9, 51.8], [39.6, 56.1], [37.9, 58.7]]');

test('a slot that is too small is made larger, rather than what passes cut down to it', async () => {
  const remedies = await remediesOf(TOO_SMALL, { hold: ['man', 'joint'] });
  expect(remedies.flatMap(({ cardLosses }) => cardLosses)).toEqual([]);
  const edge = remedies.find(({ ties }) => ties.some(({ because }) => because === 'edge'));
  // The two corners of its far end, which lies askew on the panel, go out alike.
  const moved = (edge?.changes ?? []).map(({ setting, from, to }) => {
    expect(setting.name).toContain('sleeve.outline');
    return Number(to) - Number(from);
  });
  expect(moved[0]).toBeCloseTo(moved[2], 1);
  expect(moved[1]).toBeCloseTo(moved[3], 1);
  expect(Math.hypot(moved[0], moved[1])).toBeGreaterThan(2);
});

test('what passes is cut down only where nothing else is left, and that stands first', async () => {
  const [remedy] = await remediesOf(TOO_SMALL, { hold: ['man', 'joint', 'sleeve'] }, 125);
  expect(remedy.cardLosses.length).toBeGreaterThan(0);
  expect(costsInWords(remedy).join()).toMatch(/^It costs: 'arm' loses \d+ mm² \(\d+ % of it\)/);
});

test('a slot in the wrong place is moved', async () => {
  expect(whyOf(await remediesOf(TOO_HIGH, { hold: ['man', 'joint', 'arm'] }))).toContain('moved');
});

/** An arm that reaches over the edge of the page when it is shut; what is drawn at its end may vary. */
const reaching = (outline: string) => `page: A5
parts:
  - { name: man, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: arm, kind: glued-piece, on: man left, at: [20, 10], outline: ${outline} }
wants: [{ name: his hand goes, kind: travel, panel: arm, point: [60, 4], least: 20 }]
`;

test('a part that is too long is shortened, at its end', async () => {
  const remedies = await remediesOf(reaching('[[0, 0], [165, 0], [165, 8], [0, 8]]'), { hold: ['man'] });
  expect(changesOf(remedies[0])[0]).toMatch(/^arm\.outline\.1\.0 165 → 1\d\d/);
  expect(whyOf(remedies)).toContain('edge');
});

test('a part of which only a spike sticks out loses its spike', async () => {
  const remedies = await remediesOf(
    reaching('[[0, 0], [60, 0], [62, 3], [165, 4], [62, 5], [60, 8], [0, 8]]'),
    { hold: ['man'] },
  );
  expect(
    remedies.some(({ changes }) => changes.length === 1 && changes[0].setting.name === 'arm.outline.3.0'),
  ).toBe(true);
});

test('a tab that is glued on another is turned to the other side, or its part is moved', async () => {
  const posts = `page: A5
parts:
  - { name: near, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50, tab: { width: 8, side: inner } }
  - { name: far, kind: v-fold, at: 74, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 40, tab: { width: 8, side: outer } }
`;
  const first = (await remediesOf(posts, { hold: ['far', 'near.glue', 'near.panels'] })).map(changesOf);
  expect(first).toContainEqual(['near.tab.side inner → outer']);
  expect(first).toContainEqual(['near.at 60 → 57']);
});

test('a fold the wrong way round is turned', async () => {
  const hat = `page: A5
parts:
  - { name: man, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: hat, kind: v-fold, on: man ridge, at: 30, glue: [50, 50], panels: [60, 60], feet: [16, 16], ridge: 20, toward: start }
`;
  const remedies = await remediesOf(hat, { hold: ['man'] });
  expect(remedies.map(changesOf)).toContainEqual(['hat.toward start → end']);
});

test('a link that is too short is lengthened', async () => {
  const leg = `page: A5 portrait
parts:
  - { name: near post, kind: v-fold, at: 45, glue: [84, 45], panels: [45, 84], feet: [68, 36], ridge: 40, outlines: { left: { polygon: [[0, 0], [68, 0], [66, 12], [36, 12], [21.2, 21.2]] } }, tab: { width: 6, side: outer } }
  - { name: far post, twin of: near post, at: 95 }
  - { name: floor, kind: plate, supports: [{ panel: near post left, line: [[50, 12], [64, 12]] }, { panel: far post left, line: [[44.77, 12], [58.77, 12]] }], margin: 4, tab: { width: 5 } }
  - { name: thigh, kind: link, on: floor, from: [7, 25], to: [39, 45], width: 7 }
  - { name: shin, kind: link, on: floor, from: [39, 45], to: [59, 25], width: 7 }
  - { name: hip, kind: pivot, between: [thigh, floor], at: [0, 0], hole: 2.5, waist: 2.1, shoulder: 5.5, margin: 1 }
  - { name: knee, kind: pivot, between: [shin, thigh], at: [0, 0], hole: 2.5, waist: 2.1, shoulder: 5.5, margin: 1, bends: left }
  - { name: toe, kind: tongue, panel: shin, at: [LONG, 0], slit: { panel: left page, line: [[-104.5, 89.2], [-104.5, 97.2]] } }
limits: { pile: 5, press: 1, creaseOnCard: 60 }
`;
  const hold = ['near post', 'far post', 'floor', 'thigh', 'hip', 'knee', 'shin', 'toe.slit'];
  const [{ changes }] = await remediesOf(leg.replace('LONG', '20'), { hold });
  expect(changes.map(({ setting }) => setting.name)).toEqual(['toe.at.0']);
  expect(Number(changes[0].to)).toBeGreaterThan(22);
});
