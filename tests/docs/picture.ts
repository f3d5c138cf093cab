import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { areaOf, type Point } from '../../src/geometry/plane.js';
import { type Assembly, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { depthOrder } from '../../src/view/depth-order.js';
import { type Eye, type Look, lookAt } from '../../src/view/look.js';
import { Motion } from '../../src/view/motion.js';

/** What a picture of the docs shows, and from where. */
export interface Shown {
  readonly text: string;
  /** degrees */
  readonly pageAngle?: number;
  readonly eye?: Eye;
  /** The parts that it is about; all but the pages, if not given. */
  readonly parts?: readonly string[];
  /** Names of panels and creases to be written beside them; of a panel also where its (0, 0) lies. */
  readonly names?: readonly string[];
  readonly origins?: readonly string[];
  /** Words at a place of a panel: [along, up]. */
  readonly notes?: readonly { readonly on: string; readonly at: Point; readonly text: string }[];
}

/** The usual eye: from the foot of the page, a little aside. */
const EYE: Eye = { aside: 0.3, down: 0.75 };
const WIDE = 460;

/** A figure drawn for the docs by the kernel, as SVG with the names of what it is made of. */
export function pictureFor(
  title: string,
  { text, pageAngle = 110, eye = EYE, parts, names = [], origins = [], notes = [] }: Shown,
): string {
  const figure = compileFigure(parseFigure(text, 'picture.yaml'));
  const motion = new Motion(figure, figure.start);
  const { assembly } = motion;
  const look = lookAt(motion.at(pageAngle), pageAngle, eye);
  const seen = assembly.panels.map(({ outline, holes }, k) => {
    const rings = [outline, ...holes].map((ring) => pairs(ring).map(([x, y]) => look(k, x, y)));
    return {
      rings: rings.map((ring) => ring.map(([x, y]): Point => [x, y])),
      depths: rings[0].map(([, , z]) => z),
    };
  });
  const order = depthOrder(seen, hiddenPairs(assembly, seen));
  const about = (k: number) => parts?.includes(assembly.panels[k].part) ?? k > RIGHT_PAGE;

  const marks: Mark[] = [
    ...names.map((name) => nameMark(assembly, look, name)),
    ...origins.flatMap((name) => originMarks(assembly, look, name)),
    ...notes.map(({ on, at: [x, y], text: words }): Mark => {
      const k = assembly.panelNamed(on, '');
      return { at: look(k, x, assembly.panels[k].up * y), text: words };
    }),
  ];
  const figureOnly = seen.filter((_, k) => k > RIGHT_PAGE).flatMap(({ rings }) => rings[0]);
  const box = boxAround(
    figureOnly.flatMap(([x, y]): Point[] => [
      [x - MARGIN, y - MARGIN],
      [x + MARGIN, y + MARGIN],
    ]),
  );
  const paths = order.map((k) => {
    const d = seen[k].rings
      .map((ring) => `M${ring.map(([x, y]) => `${fixed(x)} ${fixed(-y)}`).join('L')}Z`)
      .join('');
    const front = areaOf(seen[k].rings[0]) > 0;
    return `<path class="${k <= RIGHT_PAGE ? 'page' : about(k) ? (front ? 'front' : 'back') : 'other'}" d="${d}"/>`;
  });
  const high = Math.round((WIDE * box[3]) / box[2]);
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box.map(fixed).join(' ')}" width="${WIDE}" height="${high}">`,
    `<title>${title}</title>`,
    `<style>path{fill-rule:evenodd;stroke:#333;stroke-width:.35;stroke-linejoin:round}.page{fill:#f4f1ea}.other{fill:#ddd8cc}.front{fill:#9fc3d8}.back{fill:#5f8fab}.line{fill:none;stroke:#b3261e;stroke-width:.9}.lead{stroke:#b3261e;stroke-width:.3}text{font-family:sans-serif;fill:#111;stroke:#fff;stroke-width:.25em;paint-order:stroke;stroke-linejoin:round}</style>`,
    `<rect x="${fixed(box[0])}" y="${fixed(box[1])}" width="${fixed(box[2])}" height="${fixed(box[3])}" fill="#fff"/>`,
    ...paths,
    ...marks.flatMap(({ lines = '' }) => (lines === '' ? [] : [`<path class="line" d="${lines}"/>`])),
    ...labels(marks, box[2] / WIDE),
    '</svg>',
  ].join('\n')}\n`;
}

/** Which of two glued panels hides the other, the hidden one first: by the face that is seen. */
function hiddenPairs(
  { joints }: Assembly,
  seen: readonly { rings: readonly (readonly Point[])[] }[],
): [number, number][] {
  return joints.flatMap((joint): [number, number][] => {
    if (joint.kind !== 'glue') return [];
    const [receiver, glued] = joint.between;
    const front = areaOf(seen[receiver].rings[0]) > 0;
    return [((joint.face ?? 1) === 1) === front ? [receiver, glued] : [glued, receiver]];
  });
}

/** A word at a place of the picture, and lines that go with it. */
interface Mark {
  readonly at: readonly number[];
  readonly text: string;
  readonly lines?: string;
}

const stroke = (a: readonly number[], b: readonly number[]) =>
  `M${fixed(a[0])} ${fixed(-a[1])}L${fixed(b[0])} ${fixed(-b[1])}`;

/** The name of a crease beside it, of a panel in its middle. */
function nameMark(assembly: Assembly, look: Look, name: string): Mark {
  const crease = assembly.creases.get(name);
  if (crease !== undefined) {
    const k = crease.between[1];
    const { x0, y0, x1, y1 } = crease.lines[1];
    const [a, b] = [look(k, x0, y0), look(k, x1, y1)];
    return { at: [a[0] + 0.8 * (b[0] - a[0]), a[1] + 0.8 * (b[1] - a[1])], text: name, lines: stroke(a, b) };
  }
  const k = assembly.panelNamed(name, '');
  const ring = pairs(assembly.panels[k].outline);
  const middle = ring.reduce((sum, [x, y]) => [sum[0] + x / ring.length, sum[1] + y / ring.length], [0, 0]);
  return { at: look(k, middle[0], middle[1]), text: name };
}

/** A panel's (0, 0), with the ways along and up. */
function originMarks(assembly: Assembly, look: Look, name: string): Mark[] {
  const k = assembly.panelNamed(name, '');
  const { up } = assembly.panels[k];
  const [o, x, y] = [look(k, 0, 0), look(k, 14, 0), look(k, 0, 14 * up)];
  return [
    { at: o, text: '(0, 0)' },
    { at: x, text: 'along', lines: stroke(o, x) },
    { at: y, text: 'up', lines: stroke(o, y) },
  ];
}

/** Letters are so high, px; and so broad, as a share of that. */
const LETTER = 12;
const BROAD = 0.6;

/** The words, beside their places, none over another: a line leads to where a word had to give way. @param unit mm to a px */
function labels(marks: readonly Mark[], unit: number): string[] {
  const high = LETTER * unit;
  const taken: { x: number; y: number; wide: number }[] = [];
  return marks.map(({ at, text }) => {
    const wide = text.length * BROAD * high;
    const meets = (x: number, y: number) =>
      taken.some(
        (other) =>
          x < other.x + other.wide + high / 2 &&
          other.x < x + wide + high / 2 &&
          Math.abs(y - other.y) < 1.2 * high,
      );
    let [x, y] = [at[0] + 0.4 * high, -at[1] - 0.3 * high];
    for (let step = 1; meets(x, y) && step < 12; step++)
      y = -at[1] + (step % 2 === 0 ? -1 : 1) * Math.ceil(step / 2) * 1.3 * high;
    taken.push({ x, y, wide });
    const lead =
      Math.abs(y + at[1]) > high ? `<path class="lead" d="${stroke(at, [x, -y + high / 3])}"/>` : '';
    return `${lead}<circle cx="${fixed(at[0])}" cy="${fixed(-at[1])}" r="${fixed(high / 6)}" fill="#b3261e"/><text x="${fixed(x)}" y="${fixed(y)}" font-size="${fixed(high)}">${text}</text>`;
  });
}

const pairs = (ring: Float64Array): Point[] =>
  Array.from({ length: ring.length / 2 }, (_, i): Point => [ring[2 * i], ring[2 * i + 1]]);

/** Around the figure, mm. */
const MARGIN = 16;

/** x, y downwards, width and height. */
function boxAround(points: readonly Point[]): [number, number, number, number] {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => -y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return [left, top, Math.max(...xs) - left, Math.max(...ys) - top];
}

/** To a fifth of a millimetre: no engine's last bit shows. */
const fixed = (v: number): string => (Math.round(v * 5) / 5 + 0).toFixed(1);
