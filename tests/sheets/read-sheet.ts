import { SaxesParser } from 'saxes';

export type P = readonly [number, number];

/** A sheet as it is printed, read back from its SVG alone: mm, y up. */
export interface ReadSheet {
  readonly pieces: readonly ReadPiece[];
}

/** What is cut out in one: the areas between its cuts and creases, and what is drawn on them. */
export interface ReadPiece {
  readonly areas: readonly P[][];
  readonly creases: readonly { readonly kind: string; readonly line: readonly [P, P] }[];
  readonly glue: readonly { readonly behind: boolean; readonly ring: readonly P[] }[];
  /** Each letter where its leader begins, or where it stands. */
  readonly letters: readonly { readonly letter: string; readonly behind: boolean; readonly at: P }[];
  readonly number: string;
}

interface Path {
  readonly group: string;
  readonly points: P[];
  readonly closed: boolean;
}

export function readSheet(svg: string): ReadSheet {
  const { paths, texts } = parse(svg);
  const cuts = paths.filter(({ group }) => group === 'cut');
  const rings = cuts.filter(({ closed }) => closed).map(({ points }) => points);
  const outer = rings.filter((ring) => !rings.some((other) => other !== ring && within(other, ring[0])));
  const leaders = paths.filter(
    ({ group, closed, points }) => group === 'note' && !closed && points.length === 2,
  );
  const belongs = (p: P): number => {
    const on = outer.findIndex((ring) => within(ring, p));
    if (on >= 0) return on;
    const far = outer.map((ring) => away(ring, p));
    return far.indexOf(Math.min(...far));
  };
  const pieces = outer.map((ring, i) => {
    const own = paths.filter(
      ({ points }) => (points === ring || within(ring, mean(points))) && belongs(mean(points)) === i,
    );
    const lines = own.filter(({ group }) => ['cut', 'mountain', 'valley', 'both-ways'].includes(group));
    return {
      areas: areasOf(lines).filter(
        (area) =>
          !rings.some(
            (hole) =>
              hole !== ring &&
              within(ring, hole[0]) &&
              area.every((p) => away(hole, p) < SAME) &&
              Math.abs(areaOf(area)) < 1.001 * Math.abs(areaOf(hole)),
          ),
      ),
      creases: own
        .filter(({ group }) => ['mountain', 'valley', 'both-ways'].includes(group))
        .map(({ group, points }) => ({ kind: group, line: [points[0], points[1]] as const })),
      glue: own
        .filter(({ group, closed }) => closed && (group === 'glue-area' || group === 'glue-behind'))
        .map(({ group, points }) => ({ behind: group === 'glue-behind', ring: points })),
      letters: [] as ReadPiece['letters'][number][],
      number: '',
    };
  });
  for (const { text, at, bold, size } of texts) {
    const leader = leaders.find(
      ({ points }) => Math.hypot(points[1][0] - at[0], points[1][1] - at[1]) < 2 * size,
    );
    const begins = leader === undefined ? at : leader.points[0];
    const piece = pieces[belongs(begins)];
    if (bold)
      piece.letters.push({ letter: text.replace(/[()]/g, ''), behind: text.startsWith('('), at: begins });
    else if (/^\d+( |$)/.test(text)) piece.number = text.split(' ')[0];
  }
  return { pieces };
}

function parse(svg: string) {
  const paths: Path[] = [];
  const texts: { text: string; at: P; bold: boolean; size: number }[] = [];
  let group = '';
  let high = 0;
  let open: { at: P; bold: boolean; size: number; text: string } | null = null;
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes: a }) => {
    if (name === 'svg') high = Number(String(a.viewBox).split(' ')[3]);
    if (name === 'g') group = String(a.id);
    if (name === 'path' && group !== 'shading' && group !== 'key')
      for (const part of String(a.d).split('M').slice(1)) {
        const points = part
          .replace('Z', '')
          .split('L')
          .map((pair): P => {
            const [x, y] = pair.trim().split(' ').map(Number);
            return [x, high - y];
          });
        paths.push({ group, points, closed: part.endsWith('Z') });
      }
    if (name === 'text')
      open = {
        at: [Number(a.x), high - Number(a.y)],
        bold: a['font-weight'] === 'bold',
        size: a['text-anchor'] === 'middle' ? Number(a['font-size']) : -1,
        text: '',
      };
  });
  parser.on('text', (text) => {
    if (open !== null) open.text += text;
  });
  parser.on('closetag', ({ name }) => {
    // Notes at the foot of the sheet begin at their left end.
    if (name === 'text' && open !== null && open.size > 0) texts.push(open);
    if (name === 'text') open = null;
  });
  parser.write(svg).close();
  return { paths, texts };
}

/** Corners that are one on the sheet, mm: it is written to a ten-thousandth. */
const SAME = 0.002;

/** The areas that lines part a piece into, by walking round each with card on the left. */
function areasOf(lines: readonly Path[]): P[][] {
  const corners: P[] = [];
  const idOf = (p: P) => {
    const found = corners.findIndex((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < SAME);
    return found >= 0 ? found : corners.push(p) - 1;
  };
  const pairs = lines.flatMap(({ points, closed }) =>
    points.flatMap((p, i) => {
      const next = i + 1 < points.length ? points[i + 1] : closed ? points[0] : null;
      return next === null ? [] : [[idOf(p), idOf(next)] as const];
    }),
  );
  const next = new Map<number, Set<number>>();
  const add = (a: number, b: number) => {
    if (a !== b) next.set(a, (next.get(a) ?? new Set()).add(b));
  };
  for (const [a, b] of pairs) {
    const [p, q] = [corners[a], corners[b]];
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const on = corners
      .flatMap((c, id) => {
        const t = ((c[0] - p[0]) * (q[0] - p[0]) + (c[1] - p[1]) * (q[1] - p[1])) / long;
        const off = Math.abs((c[0] - p[0]) * (q[1] - p[1]) - (c[1] - p[1]) * (q[0] - p[0])) / long;
        return off < SAME && t > -SAME && t < long + SAME ? [{ id, t }] : [];
      })
      .sort((one, other) => one.t - other.t);
    on.slice(1).forEach(({ id }, i) => {
      add(on[i].id, id);
      add(id, on[i].id);
    });
  }
  const heading = (a: number, b: number) =>
    Math.atan2(corners[b][1] - corners[a][1], corners[b][0] - corners[a][0]);
  const walked = new Set<string>();
  const areas: P[][] = [];
  for (const [start, ways] of next)
    for (const first of ways) {
      if (walked.has(`${start} ${first}`)) continue;
      const ring: P[] = [];
      let [a, b] = [start, first];
      while (!walked.has(`${a} ${b}`)) {
        walked.add(`${a} ${b}`);
        ring.push(corners[a]);
        const back = heading(b, a);
        // The next line clockwise from where one came keeps to the same area.
        const turn = (c: number) => (back - heading(b, c) + 4 * Math.PI) % (2 * Math.PI) || 2 * Math.PI;
        const to = [...(next.get(b) ?? [])].reduce((one, other) => (turn(other) < turn(one) ? other : one));
        [a, b] = [b, to];
      }
      if (areaOf(ring) > 0.05) areas.push(ring);
    }
  return areas;
}

export function areaOf(ring: readonly P[]): number {
  let twice = 0;
  ring.forEach(([x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length];
    twice += x * v - u * y;
  });
  return twice / 2;
}

export const mean = (points: readonly P[]): P =>
  points.reduce(([x, y], p): P => [x + p[0] / points.length, y + p[1] / points.length], [0, 0]);

export function within(ring: readonly P[], [x, y]: P): boolean {
  let odd = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ay, by] = [ring[j][1], ring[i][1]];
    if (ay > y !== by > y && x < ring[j][0] + ((y - ay) * (ring[i][0] - ring[j][0])) / (by - ay)) odd = !odd;
  }
  return odd;
}

/** How far a point lies from a closed line. */
export function away(ring: readonly P[], [x, y]: P): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = [ring[j][0], ring[j][1]];
    const [ex, ey] = [ring[i][0] - ax, ring[i][1] - ay];
    const long = ex * ex + ey * ey;
    const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / long));
    const [dx, dy] = [x - ax - t * ex, y - ay - t * ey];
    least = Math.min(least, dx * dx + dy * dy);
  }
  return Math.sqrt(least);
}
