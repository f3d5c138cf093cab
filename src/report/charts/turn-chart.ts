import * as Plot from '@observablehq/plot';
import type { ForceCurve } from '../../score/force/force.js';
import type { Turning } from '../../score/force/turning.js';
import { counted } from '../../text/phrases.js';
import { unknownInWords } from '../words/finding-words.js';
import { FELT, hardestInWords } from '../words/force-words.js';
import { withUnit } from '../words/numbers.js';

import { framed, type Panel } from './frame.js';
import { ACCENT, INK, LINE, QUIET, SMALL_SIZE, TEXT_SIZE, WIDTH } from './style.js';
import { label, threeDigits } from './text.js';
import { valueAxis } from './value-axis.js';

/** A figure, or one way to make it, and how hard its page is to turn. */
export interface Turned {
  readonly name: string;
  readonly turning: Turning;
}

interface Line {
  readonly name: string;
  readonly pageAngles: readonly number[];
  readonly newtons: readonly number[];
}

/** So many parts have a line of their own, those that push hardest; the others are drawn as one. */
const MOST_PARTS = 5;

/** The heading above it. */
export const TURN_TITLE = 'How hard the page turns';

/** How hard the page of one figure is to turn: in sum and by part. */
export function turnChart({ name, turning }: Turned, note = ''): string {
  const title = `${TURN_TITLE}: ${name}`;
  if ('unknown' in turning) return notReckoned(title, [{ name, turning }], note);
  const { curve } = turning;
  const { pageAngles } = curve;
  const parts = byPart(curve);
  const lines = [
    { name: parts.length === 0 ? 'in sum, all of it for creases' : 'in sum', newtons: curve.total },
    ...parts,
  ].map((line) => ({ ...line, pageAngles }));
  return framed({
    title,
    description: `${hardestInWords(turning.score)} ${lines.map(described).join(' ')}`,
    caption: [
      hardestInWords(turning.score),
      WAYS,
      ...conditions([turning]),
      turning.locksAt === null ? '' : `It ends at ${withUnit(turning.locksAt, 'degrees')}, where it locks.`,
      note,
    ],
    panels: panelsOf(lines, [turning]),
  });
}

/** How hard the pages of several figures are to turn, in sum, over one another. */
export function turnsChart(turned: readonly Turned[], note = ''): string {
  const known = turned.flatMap(({ name, turning }) => ('unknown' in turning ? [] : [{ name, turning }]));
  if (known.length === 0) return notReckoned(TURN_TITLE, turned, note);
  const lines = known.map(({ name, turning: { curve } }) => ({
    name,
    pageAngles: curve.pageAngles,
    newtons: curve.total,
  }));
  const said = known.map(({ name, turning: { score } }) => `${name}: ${uncapital(hardestInWords(score))}`);
  const turnings = known.map(({ turning }) => turning);
  return framed({
    title: TURN_TITLE,
    description: said.join(' '),
    caption: [
      ...said,
      WAYS,
      ...conditions(turnings),
      ...known.map(({ name, turning: { locksAt } }) =>
        locksAt === null ? '' : `${name} ends at ${withUnit(locksAt, 'degrees')}, where it locks.`,
      ),
      ...missing(turned),
      note,
    ],
    panels: panelsOf(lines, turnings),
  });
}

const uncapital = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const WAYS = 'Above 0 the page pushes back when it is shut, below 0 when it is opened.';

const notReckoned = (title: string, turned: readonly Turned[], note: string): string => {
  const why = missing(turned);
  return framed({ title, description: why.join(' '), caption: [...why, note], panels: [] });
};

const missing = (turned: readonly Turned[]): string[] =>
  turned.flatMap(({ name, turning }) =>
    'unknown' in turning ? [`Not reckoned of ${name}: ${unknownInWords(turning.unknown)}.`] : [],
  );

type Known = Exclude<Turning, { unknown: unknown }>;

/** Bounds, which are those of the first, clicks, and what was left out. */
function conditions(turnings: readonly Known[]): string[] {
  const [{ easy, hard, score }] = turnings;
  const clicks = turnings.reduce((sum, { score }) => sum + score.clicks.length, 0);
  const alike = turnings.every((each) => each.easy === easy && each.hard === hard);
  return [
    `Up to ${newtons(easy)} it is easy, beyond ${newtons(hard)} it jams${alike ? '' : ': by the limits of the first, the others have their own'}.`,
    clicks === 0 ? '' : `Ringed: ${counted(clicks, 'place')} where it clicks over.`,
    `Typical card, not measured on yours; nearer to shut than ${score.shutTo}° nothing is told.`,
  ];
}

/** The parts that push hardest, each by itself, and creases; what nobody feels has no line. None where all is for creases. */
function byPart({ creases, parts }: ForceCurve): Pick<Line, 'name' | 'newtons'>[] {
  const felt = parts
    .map(({ part, newtons }) => ({ name: part, newtons, most: mostOf(newtons) }))
    .filter(({ most }) => most >= FELT)
    .sort((a, b) => b.most - a.most);
  const [own, rest] = [felt.slice(0, MOST_PARTS), felt.slice(MOST_PARTS)];
  if (felt.length === 0) return [];
  const others =
    rest.length === 0
      ? []
      : [
          {
            name: counted(rest.length, 'part more', 'parts more'),
            newtons: creases.map((_, k) => rest.reduce((sum, { newtons }) => sum + newtons[k], 0)),
          },
        ];
  return [...own, ...others, ...(mostOf(creases) >= FELT ? [{ name: 'creases', newtons: creases }] : [])];
}

const mostOf = (newtons: readonly number[]): number =>
  newtons.reduce((most, push) => Math.max(most, Math.abs(push)), 0);

const newtons = (value: number): string => `${threeDigits(value)} N`;

function described({ name, pageAngles, newtons }: Line): string {
  const most = mostOf(newtons);
  const at = pageAngles[newtons.findIndex((push) => Math.abs(push) === most)] ?? 0;
  return `${name}: at most ${withUnit(most, 'N')}, at ${withUnit(at, 'degrees')}.`;
}

const HEIGHT = 340;
const ROW = 20;
const LEFT = 62;
const RIGHT = 30;
/** Less than this over the whole chart would draw what nobody feels as mountains, N. */
const LEAST_SPAN = 0.25;
/** Told apart by dashes first, by colour second. */
const LOOKS = [
  { stroke: ACCENT, width: 2.5, dash: 'none' },
  { stroke: INK, width: 1.3, dash: 'none' },
  { stroke: INK, width: 1.3, dash: '7 3' },
  { stroke: INK, width: 1.3, dash: '2 3' },
  { stroke: INK, width: 1.3, dash: '9 3 2 3' },
  { stroke: QUIET, width: 2.5, dash: '7 3' },
  { stroke: QUIET, width: 2.5, dash: '2 3' },
  { stroke: QUIET, width: 1.3, dash: '12 5' },
] as const;

function panelsOf(lines: readonly Line[], turnings: readonly Known[]): Panel[] {
  const key = keyOf(lines);
  return [key, { ...plotOf(lines, turnings), y: key.height + 4 }];
}

/** A sample of each line and its name. */
function keyOf(lines: readonly Line[]): Panel {
  const columns = Math.min(3, lines.length);
  const wide = (WIDTH - 70) / columns;
  const places = lines.map(({ name }, i) => ({
    ...LOOKS[i % LOOKS.length],
    name: label(name, wide - 60, TEXT_SIZE, 1),
    x: LEFT + (i % columns) * wide,
    y: ROW * (Math.floor(i / columns) + 0.5),
  }));
  return {
    width: WIDTH,
    height: ROW * Math.ceil(lines.length / columns),
    plot: {
      margin: 0,
      x: { type: 'identity', axis: null },
      y: { type: 'identity', axis: null },
      marks: places.flatMap(({ name, x, y, stroke, width, dash }) => [
        Plot.link([0], {
          x1: x,
          x2: x + 30,
          y1: y,
          y2: y,
          stroke,
          strokeWidth: width,
          strokeDasharray: dash,
        }),
        Plot.text([name], { x: x + 38, y, textAnchor: 'start', fontSize: TEXT_SIZE, fill: INK }),
      ]),
    },
  };
}

function plotOf(lines: readonly Line[], turnings: readonly Known[]): Panel {
  const [low, high] = spanOf(lines);
  const margin = 0.08 * (high - low);
  const domain = [low - margin, high + margin];
  const [{ easy, hard }] = turnings;
  const bounds = [
    { at: easy, words: `easy up to ${newtons(easy)}` },
    { at: hard, words: `jams beyond ${newtons(hard)}` },
    { at: -easy, words: `easy up to ${newtons(easy)}` },
    { at: -hard, words: `jams beyond ${newtons(hard)}` },
  ];
  const seen = bounds.filter(({ at }) => at > domain[0] && at < domain[1]);
  const clicks = turnings.flatMap(({ score }) => score.clicks);
  const third = (WIDTH - LEFT - RIGHT) / 3;
  return {
    width: WIDTH,
    height: HEIGHT,
    plot: {
      marginLeft: LEFT,
      marginRight: RIGHT,
      marginTop: 30,
      marginBottom: 52,
      x: {
        type: 'linear',
        domain: [0, NEAR_FLAT, 180 - NEAR_FLAT, 180],
        range: [LEFT, LEFT + third, LEFT + 2 * third, WIDTH - RIGHT],
        label: null,
      },
      y: { domain, label: null },
      marks: [
        Plot.gridX({ stroke: LINE, strokeOpacity: 1, ticks: TICKS }),
        Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 6 }),
        valueAxis(
          `page angle (°): shut at 0, open at 180; the ${NEAR_FLAT}° next to either are drawn wider`,
          threeDigits,
          TICKS,
        ),
        Plot.axisY({ label: null, tickSize: 4, ticks: 6, tickFormat: threeDigits, fontSize: TEXT_SIZE }),
        Plot.text([`push at the page's edge (N)${seen.length > 0 ? '' : outOfSight(easy, domain)}`], {
          frameAnchor: 'top-left',
          dx: -46,
          dy: -22,
          text: (line: string) => line,
          fontSize: TEXT_SIZE,
        }),
        Plot.ruleX([NEAR_FLAT, 180 - NEAR_FLAT], { stroke: QUIET }),
        Plot.ruleY([0], { stroke: INK }),
        Plot.ruleY(seen, { y: 'at', stroke: QUIET, strokeDasharray: '4 4' }),
        Plot.text(seen, {
          x: 180,
          y: 'at',
          dy: -7,
          text: 'words',
          textAnchor: 'end',
          fill: QUIET,
          fontSize: SMALL_SIZE,
        }),
        // The sum lies over its parts.
        ...lines.map((line, i) => lineOf(line, i)).reverse(),
        Plot.dot(clicks, {
          x: (click: number) => click,
          y: 0,
          r: 6,
          stroke: ACCENT,
          strokeWidth: 2,
          title: (click: number) => `clicks over at ${withUnit(click, 'degrees')}`,
        }),
      ],
    },
  };
}

/** Forces grow within the last degrees before flat: as much room for them as for all the way between. */
const NEAR_FLAT = 20;
const TICKS = [0, 5, 10, 15, 20, 60, 90, 120, 160, 165, 170, 175, 180];

function lineOf({ name, pageAngles, newtons }: Line, i: number): Plot.Markish {
  const { stroke, width, dash } = LOOKS[i % LOOKS.length];
  const points = pageAngles.map((x, k) => ({ x, y: newtons[k] }));
  return Plot.line(points, {
    x: 'x',
    y: 'y',
    stroke,
    strokeWidth: width,
    strokeDasharray: dash,
    title: () => name,
  });
}

/** From the least push to the greatest, 0 within; wide enough that what nobody feels lies flat. */
function spanOf(lines: readonly Line[]): [number, number] {
  const [low, high] = lines.reduce(
    ([least, most], { newtons }) => [
      newtons.reduce((a, b) => Math.min(a, b), least),
      newtons.reduce((a, b) => Math.max(a, b), most),
    ],
    [0, 0],
  );
  const lacking = Math.max(0, LEAST_SPAN - (high - low)) / 2;
  return [low - lacking, high + lacking];
}

/** Where no bound is within the chart: how far off the nearer one is. */
function outOfSight(easy: number, [low, high]: readonly number[]): string {
  const times = easy / Math.max(-low, high);
  return `; ${newtons(easy)}, up to which it is easy, is ${threeDigits(Math.round(times * 10) / 10)} times as far from 0 as this chart reaches`;
}
