import type { Json } from '../../figure/text/source.js';
import type { Panel } from '../../motion/assembly.js';

/** A kind of want that can be said with a panel and a number. */
export interface WantKind {
  readonly kind: string;
  /** As a person says it: '… rises'. */
  readonly verb: string;
  readonly words: string;
  readonly field: 'least' | 'most';
  readonly unit: 'mm' | '°';
  /** A number to begin with. */
  readonly usual: number;
}

export const WANT_KINDS: readonly WantKind[] = [
  { kind: 'rise', verb: 'rises', words: 'rises above the page', field: 'least', unit: 'mm', usual: 30 },
  { kind: 'travel', verb: 'travels', words: 'travels, by its tip', field: 'least', unit: 'mm', usual: 30 },
  { kind: 'turn', verb: 'turns', words: 'turns, either way', field: 'least', unit: '°', usual: 30 },
  { kind: 'swing', verb: 'swings', words: 'swings open on its hinge', field: 'least', unit: '°', usual: 60 },
  {
    kind: 'level',
    verb: 'stays level',
    words: 'stays level with the page',
    field: 'most',
    unit: '°',
    usual: 10,
  },
];

/** A want of a panel as it is to be written. */
export function newWant(
  { kind, verb, field }: WantKind,
  panel: Pick<Panel, 'name' | 'outline' | 'up'>,
  value: number,
): { readonly name: string } & { readonly [own: string]: Json } {
  const more: { [own: string]: Json } =
    kind === 'travel' ? { point: tipOf(panel) } : kind === 'turn' ? { line: 0, either: 'yes' } : {};
  return { name: `${panel.name} ${verb}`, kind, panel: panel.name, ...more, [field]: value };
}

/** A panel lower than this share of its length is an arm: its tip is its far end, and not its highest corner. */
const SLENDER = 0.3;

/** The corner that lies highest above the foot, of an arm that farthest from its (0, 0); as a figure file has it. */
function tipOf({ outline, up }: Pick<Panel, 'outline' | 'up'>): Json {
  const corners = Array.from({ length: outline.length / 2 }, (_, i) => [
    outline[2 * i],
    up * outline[2 * i + 1],
  ]);
  const far = ([x, y]: readonly number[]) => Math.hypot(x, y);
  const high = ([, y]: readonly number[]) => y;
  const most = (of: typeof far) => corners.reduce((best, each) => (of(each) > of(best) + 1e-6 ? each : best));
  const highest = most(high);
  const [x, y] = high(highest) < SLENDER * far(most(far)) ? most(far) : highest;
  // Rounded towards (0, 0): a hair inside, so that it lies on the card.
  const inward = (v: number) => Math.trunc(10 * v) / 10;
  return [inward(x), inward(y)];
}
