import { describe, expect, test } from 'vitest';
import type { Nudge } from '../../../src/insight/local/nudge.js';
import { responseCurve, shareCurve } from '../../../src/insight/sensitivity/response.js';
import type { SensitivityRow } from '../../../src/insight/sensitivity/sensitivity.js';
import { wilson } from '../../../src/insight/sensitivity/wilson.js';
import { effectMap } from '../../../src/report/charts/effect-map.js';
import { failureCausesChart } from '../../../src/report/charts/failure-causes.js';
import { failureKindsChart } from '../../../src/report/charts/failure-kinds.js';
import { nudgeChart } from '../../../src/report/charts/nudge-chart.js';
import { parallelCoordinates } from '../../../src/report/charts/parallel-coordinates.js';
import { responseCurvesChart } from '../../../src/report/charts/response-curves.js';
import { safeRangesChart } from '../../../src/report/charts/safe-ranges.js';
import { totalEffectsChart } from '../../../src/report/charts/total-effects.js';
import { tradeOffChart } from '../../../src/report/charts/trade-off.js';
import { turnChart, turnsChart } from '../../../src/report/charts/turn-chart.js';
import { readSvg } from './svg.js';
import { turning } from './turning.js';

function row(dim: string, score: string, total: number | null): SensitivityRow {
  const some = (value: number) => (total === null ? null : value);
  return {
    dim,
    score,
    first: some((total ?? 0) / 2),
    firstLow: some(0),
    firstHigh: some(1),
    total,
    totalLow: total,
    totalHigh: total,
    from: total === null ? null : 'scoring',
    heldOut: null,
    rankCorrelation: null,
    reason: total === null ? 'does not vary' : '',
  };
}

const nudge = (change: number | null): Nudge =>
  change === null
    ? { change, reason: 'a choice has no +1', from: null, sides: { below: null, above: null } }
    : { change, reason: null, from: 'both sides', sides: { below: change, above: change } };

const xs = Array.from({ length: 200 }, (_, i) => 20 + i / 5);

/** Every chart, with `name` for a dim, a score, a failure or a dummy. */
const CHARTS: Record<string, (name: string) => string> = {
  'total effects': (name) => totalEffectsChart(name, [row(name, name, 0.4), row('mast', name, null)], ''),
  'effect map': (name) => effectMap([row(name, name, 0.4), row('mast', name, null)], ''),
  'response curves': (name) =>
    responseCurvesChart(
      name,
      '°',
      'quantiles',
      [
        { dim: name, unit: 'mm', response: responseCurve(xs, xs) },
        {
          dim: 'fold',
          unit: '',
          options: [name, 'b'],
          response: responseCurve(
            xs.map((_, i) => i % 2),
            xs,
          ),
        },
        { dim: 'mast', unit: 'mm', response: responseCurve([], []) },
      ],
      '',
    ),
  'share that works': (name) =>
    responseCurvesChart(
      name,
      '',
      'share',
      [
        {
          dim: name,
          unit: 'mm',
          response: shareCurve(
            xs,
            xs.map((x) => (x > 30 ? 1 : 0)),
          ),
        },
      ],
      '',
    ),
  nudges: (name) =>
    nudgeChart(
      name,
      '°',
      [
        { dim: name, unit: 'mm', nudge: nudge(-2.5), mark: '' },
        { dim: 'mast', unit: '°', nudge: nudge(3.25), mark: ' ?' },
        { dim: 'fold', unit: '', nudge: nudge(null), mark: '' },
      ],
      '',
    ),
  'safe ranges': (name) =>
    safeRangesChart(
      [
        {
          dim: name,
          unit: 'mm',
          bounds: { min: 20, max: 60 },
          value: 30,
          safe: {
            range: { low: { value: 20, failure: null }, high: { value: 41.259, failure: name } },
            reason: null,
          },
        },
        {
          dim: 'fold',
          unit: '',
          bounds: null,
          value: 0,
          safe: { range: null, reason: 'a choice has no range' },
        },
      ],
      '',
    ),
  'failure causes': (name) =>
    failureCausesChart(
      {
        causes: [
          { name, explains: 0.3, chance: 0, cured: wilson(30, 50), reason: null },
          { name: 'mast', explains: 0, chance: 0.4, cured: null, reason: 'not among the errors cut again' },
        ],
        reason: null,
      },
      '',
    ),
  'failure kinds': (name) => failureKindsChart(name, [{ failure: name, count: 30 }], 200, ''),
  'parallel coordinates': (name) =>
    parallelCoordinates(
      [
        { name, unit: 'mm', min: 20, max: 60 },
        { name: 'fold', unit: '', min: 0, max: 1, options: [name, 'valley'] },
        { name: 'swing', unit: '°', min: 5, max: 5 },
      ],
      [
        { name, values: [20, 0, 5], best: true },
        { name: 'b', values: [60, null, 5], best: false },
      ],
      '',
    ),
  'how hard the page turns': (name) => turnChart({ name, turning: turning([name, 'mast'], [3, 0.4]) }),
  'how hard pages turn': (name) =>
    turnsChart([
      { name, turning: turning([name], [3]) },
      { name: 'mast', turning: { unknown: { because: 'it never opens flat', pageAngle: 180 } } },
    ]),
  'trade-off': (name) =>
    tradeOffChart(
      { name, unit: '°', better: 'more' },
      { name: 'card', unit: 'mm', better: 'less' },
      [
        { name, x: 3, y: 4, front: true },
        { name: 'b', x: 2, y: 5, front: false },
        { name: 'c', x: null, y: 5, front: false },
      ],
      '',
    ),
};

describe.each(Object.entries(CHARTS))('%s', (_, chart) => {
  test('is well-formed, self-contained SVG with a title, a description and a caption', () => {
    const svg = readSvg(chart('oar'));
    expect(svg.title).not.toBe('');
    expect(svg.description).toContain('oar');
    expect(svg.texts.join(' ')).toContain(svg.title);
    expect(svg.texts.join(' ').split(' ').length).toBeGreaterThan(25);
    for (const never of ['script', 'style', 'image', 'a', 'foreignObject'])
      expect(svg.counts.has(never)).toBe(false);
  });

  test.each([
    '<script>alert(1)</script>',
    '"/><image href="x" onerror="alert(1)"/>',
    "&lt;b&gt; ' ]]> <!-- &nope;",
    'null \u0000, bell \u0007, half \ud800, turned \u202eabc',
    '__proto__',
    '',
    '2024-01-01',
    'a'.repeat(400),
    'ферма 渡し船 🚣',
  ])('a hostile name stays a text: %j', (name) => {
    const svg = readSvg(chart(name));
    for (const never of ['script', 'image', 'b']) expect(svg.counts.has(never)).toBe(false);
    expect(svg.counts.get('rect')).toBeGreaterThanOrEqual(1);
  });

  test('never writes NaN, undefined or Infinity', () => {
    expect(chart('oar')).not.toMatch(/NaN|undefined|Infinity|null/);
  });

  test('the same data give the same bytes', () => {
    expect(chart('oar')).toBe(chart('oar'));
  });
});

describe('what the charts say', () => {
  const texts = (svg: string) => readSvg(svg).texts;

  test('total effects: the largest first, the reason where there is none', () => {
    const rows = [
      row('mast', 'swing', 0.2),
      row('oar', 'swing', 0.7),
      row('idle', 'swing', 0),
      row('fold', 'swing', null),
    ];
    const said = texts(totalEffectsChart('swing', rows, 'From the surrogate.'));
    const names = said.filter((text) => ['mast', 'oar', 'idle', 'fold'].includes(text));
    expect(names).toEqual(['oar', 'mast', 'idle', 'fold']);
    expect(said).toContain('does not vary');
    expect(said).toContain('share of the variance of swing');
    expect(said.join(' ')).toContain('oar drives swing most');
    expect(said.join(' ')).toContain('Of no account here: idle. From the surrogate.');
  });

  test('effect map: a number to each pair, a dash where there is none', () => {
    const rows = [
      row('mast', 'swing', 0.123),
      row('mast', 'pile', null),
      row('oar', 'swing', 1),
      row('oar', 'pile', 0),
    ];
    const said = texts(effectMap(rows, ''));
    for (const cell of ['0.12', '–', '1.00', '0.00']) expect(said).toContain(cell);
    expect(said.join(' ')).toContain('The strongest: oar on swing.');
    expect(said.join(' ')).not.toContain('surrogate');
    const byOther = texts(effectMap([{ ...row('mast', 'swing', 0.5), from: 'surrogate' }], ''));
    expect(byOther).toContain('≈0.50');
    expect(byOther.join(' ')).toContain('≈: from a surrogate');
  });

  test('nudges: the largest first, signs and units', () => {
    const said = texts(CHARTS.nudges('oar'));
    expect(said.indexOf('mast +1°')).toBeLessThan(said.indexOf('oar +1 mm'));
    for (const text of ['+3.25° ?', '−2.5°', 'a choice has no +1']) expect(said).toContain(text);
    expect(said).toContain('change of oar (°) for one unit more');
  });

  test('safe ranges: rounded to the safe side, with what fails', () => {
    const said = texts(CHARTS['safe ranges']('boat catches'));
    expect(said).toContain('20 to 41.25 mm');
    expect(said).toContain('the range ends');
    expect(said.filter((text) => text === 'boat catches')).toHaveLength(2);
    expect(said).toContain('a choice has no range');
  });

  test('failure causes: what it would save, and how many were not tried', () => {
    const said = texts(CHARTS['failure causes']('oar')).join(' ');
    expect(said).toContain(
      'Take most care over oar: made exact, it would have saved 60 % of the failed dummies.',
    );
    expect(said).toContain('not put to the proof: 1 more.');
    const none = texts(failureCausesChart({ causes: [], reason: 'no dummy failed' }, '')).join(' ');
    expect(none).toBe('Which cut causes the failures Nothing to draw: no dummy failed.');
  });

  test('failure kinds: counts and none', () => {
    expect(texts(CHARTS['failure kinds']('locks')).join(' ')).toContain('30 of 200 dummies failed');
    expect(texts(failureKindsChart('Failures', [], 20, '')).join(' ')).toBe(
      'Failures Nothing to draw: none of 20 dummies failed.',
    );
  });

  test('parallel coordinates: a gap where a value is missing, options by name', () => {
    const axes = ['a', 'b', 'c', 'd', 'e'].map((name) => ({ name, unit: 'mm', min: 0, max: 1 }));
    const paths = (values: (number | null)[]) =>
      readSvg(parallelCoordinates(axes, [{ name: 'x', values, best: false }], '')).counts.get('path');
    expect(paths([0, 1, 0, 1, 0])).toBe(1);
    expect(paths([0, 1, null, 1, 0])).toBe(2);
    const said = texts(CHARTS['parallel coordinates']('oar'));
    expect(said).toContain('oar (mm)');
    expect(said).toContain('valley');
    expect(said.join(' ')).toContain('A gap in a line: not computed.');
  });

  test('how hard the page turns: a line for the sum and each part that is felt, with the bounds', () => {
    const said = texts(turnChart({ name: 'boat', turning: turning(['oar', 'mast'], [7, 0.01]) }));
    for (const line of ['in sum', 'oar', 'creases']) expect(said).toContain(line);
    expect(said).not.toContain('mast');
    expect(said).toContain('easy up to 5 N');
    expect(said.join(' ')).toContain('to shut: 7.01 N at 2.0°');
    expect(said.join(' ')).toContain('Ringed: 1 place where it clicks over.');
    expect(said.join(' ')).toContain('It ends at 2.0°, where it locks.');
  });

  test('how hard the page turns: many parts are drawn as one, and a bound out of sight is told', () => {
    const names = Array.from({ length: 8 }, (_, i) => `part ${i}`);
    const said = texts(
      turnChart({
        name: 'boat',
        turning: turning(
          names,
          names.map((_, i) => 0.1 * (i + 1)),
        ),
      }),
    );
    expect(said).toContain('3 parts more');
    expect(said).toContain('part 7');
    expect(said).not.toContain('part 0');
    expect(said.join(' ')).toMatch(/5 N, up to which it is easy, is [\d.]+ times as far/);
  });

  test('how hard the page turns: a reason where it is not known', () => {
    const unknown = { because: 'it cannot be built', reason: 'the tab of sail is too wide' } as const;
    const said = texts(turnChart({ name: 'boat', turning: { unknown } })).join(' ');
    expect(said).toContain('Not reckoned of boat: the tab of sail is too wide.');
    expect(texts(CHARTS['how hard pages turn']('oar')).join(' ')).toContain(
      'Not reckoned of mast: it never opens flat: it locks at 180.0°.',
    );
  });

  test('trade-off: where better lies, what is not drawn', () => {
    const said = texts(CHARTS['trade-off']('swing'));
    expect(said).toContain('swing (°), better →');
    expect(said).toContain('card (mm), better ↓');
    expect(said.join(' ')).toContain('Better lies to the lower right.');
    expect(said.join(' ')).toContain('Not drawn, as not computed: 1 of 3 dummies.');
  });

  test('a share of a few in a hundred fills its panel: the axis ends where the shares do', () => {
    const rare = shareCurve(
      xs,
      xs.map((_, i) => (i % 50 === 0 ? 1 : 0)),
    );
    const highest = Math.max(...rare.points.map(({ high }) => high));
    expect(highest).toBeLessThan(0.15);
    const panel = { dim: 'mast', unit: 'mm', response: rare };
    const said = texts(responseCurvesChart('the share that works', '', 'share', [panel], ''));
    expect(said).toContain('the share that works (%)');
    // In per cent; the dim's own ticks begin at 20.
    const ticks = said.map(Number).filter((tick) => tick > 0 && tick < 20);
    expect(ticks.length).toBeGreaterThanOrEqual(2);
    expect(Math.max(...ticks)).toBeGreaterThan(50 * highest);
  });

  test('response curves: units on both axes, the reason where there is no curve', () => {
    const said = texts(CHARTS['response curves']('swing'));
    expect(said).toContain('swing (°)');
    expect(said).toContain('mast (mm)');
    expect(said).toContain('only 0 of 0 dummies could be computed');
  });
});
