/**
 * What any true motion of card must keep to, checked on the document of `check --poses` alone: written without the
 * program's kernel, from the document's own description.
 */
type Point = [number, number];
interface Document {
  format: string;
  panels: { name: string; outline: Point[]; holes: Point[][] }[];
  joints: {
    kind: string;
    between: [string, string];
    lines?: [[Point, Point], [Point, Point]];
    closesLoop?: boolean;
  }[];
  frames: { pageAngle: number; poses: number[][] }[];
  scorecard: { bind: { misfit: number }; locks: { pageAngle: number } | null };
}

export interface Broken {
  invariant: string;
  pageAngle: number;
  by: number;
  what: string;
}

/** Lists every invariant that is broken by more than round-off: mm, or a pure number for a rotation. */
export function brokenInvariants(
  document: Document,
  allowed = { length: 1e-4, rotation: 1e-9, outside: 0.3 },
): Broken[] {
  const broken: Broken[] = [];
  const index = new Map(document.panels.map((panel, k) => [panel.name, k]));
  const note = (invariant: string, pageAngle: number, by: number, most: number, what: string) => {
    if (!(by <= most)) broken.push({ invariant, pageAngle, by, what });
  };
  const reachable = new Set(['left page', 'right page']);
  for (let grew = true; grew; ) {
    grew = false;
    for (const { between } of document.joints)
      if (reachable.has(between[0]) !== reachable.has(between[1])) {
        for (const name of between) reachable.add(name);
        grew = true;
      }
  }
  for (const { name } of document.panels)
    note('every panel hangs on the pages through joints', 180, reachable.has(name) ? 0 : 1, 0, name);

  document.frames.forEach(({ pageAngle, poses }, f) => {
    const at = (k: number, [x, y]: Point) => {
      const p = poses[k];
      return [0, 4, 8].map((r) => p[r] * x + p[r + 1] * y + p[r + 3]);
    };
    const step = f === 0 ? 180 - pageAngle : document.frames[f - 1].pageAngle - pageAngle;
    note('frames fall from 180° in steps of at most 2°', pageAngle, step, 2 + 1e-9, '');

    const phi = (pageAngle * Math.PI) / 180;
    const right = at(index.get('right page') as number, [1, 0]);
    const expected = [-Math.cos(phi), 0, Math.sin(phi)];
    note(
      'the right page stands at the page angle',
      pageAngle,
      Math.max(...right.map((v, i) => Math.abs(v - expected[i]))),
      1e-9,
      '',
    );
    const left = at(index.get('left page') as number, [-1, 2]);
    note('the left page lies still', pageAngle, Math.hypot(left[0] + 1, left[1] - 2, left[2]), 1e-9, '');

    document.panels.forEach(({ name, outline }, k) => {
      const p = poses[k];
      const rows = [p.slice(0, 3), p.slice(4, 7), p.slice(8, 11)];
      for (let i = 0; i < 3; i++)
        for (let j = i; j < 3; j++) {
          const dot = rows[i][0] * rows[j][0] + rows[i][1] * rows[j][1] + rows[i][2] * rows[j][2];
          note('panels are rigid', pageAngle, Math.abs(dot - (i === j ? 1 : 0)), allowed.rotation, name);
        }
      const det =
        rows[0][0] * (rows[1][1] * rows[2][2] - rows[1][2] * rows[2][1]) -
        rows[0][1] * (rows[1][0] * rows[2][2] - rows[1][2] * rows[2][0]) +
        rows[0][2] * (rows[1][0] * rows[2][1] - rows[1][1] * rows[2][0]);
      note('panels are not turned inside out', pageAngle, Math.abs(det - 1), allowed.rotation, name);
      for (const point of outline) {
        const [x, , z] = at(k, point);
        // Below the left page, or behind the right one: its inner side is towards (−sin φ, 0, −cos φ).
        note(
          'card stays between the pages',
          pageAngle,
          Math.max(-z, Math.sin(phi) * x + Math.cos(phi) * z),
          allowed.outside,
          name,
        );
      }
    });

    for (const { kind, between, lines, closesLoop } of document.joints) {
      const [a, b] = between.map((name) => index.get(name) as number);
      const label = between.join(' and ');
      if (kind === 'crease' && lines !== undefined) {
        const most = closesLoop ? document.scorecard.bind.misfit + allowed.length : allowed.length;
        for (const end of [0, 1]) {
          const [p, q] = [at(a, lines[0][end]), at(b, lines[1][end])];
          note(
            'shared creases coincide',
            pageAngle,
            Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]),
            most,
            label,
          );
        }
      }
      if (kind === 'glue') {
        const first = document.frames[0].poses;
        // The one's place on the other never changes: Rᵀ(t' − t) is what it was in the open figure.
        const relative = (all: number[][]) => {
          const [p, q] = [all[a], all[b]];
          const d = [q[3] - p[3], q[7] - p[7], q[11] - p[11]];
          return [0, 1, 2].map((c) => p[c] * d[0] + p[4 + c] * d[1] + p[8 + c] * d[2]);
        };
        const [now, then] = [relative(poses), relative(first)];
        note(
          'glued faces stay together',
          pageAngle,
          Math.hypot(...now.map((v, i) => v - then[i])),
          allowed.length,
          label,
        );
        const tilt =
          1 - Math.abs(poses[a][2] * poses[b][2] + poses[a][6] * poses[b][6] + poses[a][10] * poses[b][10]);
        note('glued faces stay parallel', pageAngle, tilt, allowed.rotation, label);
      }
    }
  });
  const last = document.frames.at(-1)?.pageAngle ?? 180;
  const { locks } = document.scorecard;
  note('frames end shut, or at a lock', last, locks === null ? last : last - locks.pageAngle, 2, '');
  return broken;
}
