import { type Assembly, isPage } from '../motion/assembly.js';
import { worldPoint } from '../motion/pose.js';

/** One panel as a flat drawing has it. */
export interface DrawnPanel {
  readonly panel: number;
  /** The `d` of an SVG path, holes included (fill rule evenodd). */
  readonly d: string;
}

export interface Picture {
  /** From the farthest to the nearest: each hides what lies behind it. */
  readonly panels: readonly DrawnPanel[];
  /** The room that all of it takes. */
  readonly whole: ViewBox;
  /** The room that the figure takes with a little of the pages around it. */
  readonly close: ViewBox;
  /** The room that some panels take, with as much around them; the whole if there are none. */
  roomOf(isMeant: (panel: number) => boolean): ViewBox;
}

/** x, y, width and height in a drawing, y downwards. */
export type ViewBox = readonly [number, number, number, number];

/** From where it is seen: to the right by `turn` and up by `lift`, degrees, from the foot of the page. */
export interface View {
  readonly turn: number;
  readonly lift: number;
}

/** The view of the little pictures, and the one that the moving figure starts from. */
export const USUAL_VIEW: View = { turn: -28, lift: 26 };

/** A figure as a flat drawing, in parallel projection; hidden parts are painted over, the pages first of all. */
export function pictureOf(
  assembly: Pick<Assembly, 'panels' | 'page'>,
  poses: Float64Array,
  { turn, lift }: View = USUAL_VIEW,
): Picture {
  const t = (turn * Math.PI) / 180;
  const l = (lift * Math.PI) / 180;
  const right = [Math.cos(t), Math.sin(t), 0];
  const up = [-Math.sin(t) * Math.sin(l), Math.cos(t) * Math.sin(l), Math.cos(l)];
  const away = [-Math.sin(t) * Math.cos(l), Math.cos(t) * Math.cos(l), -Math.sin(l)];
  const point = new Float64Array(3);
  const along = (axis: readonly number[]) => point[0] * axis[0] + point[1] * axis[1] + point[2] * axis[2];
  const rooms = assembly.panels.map(() => new Room());

  const drawn = assembly.panels.map(({ outline, holes }, k) => {
    let depth = 0;
    const ring = (corners: Float64Array, isOutline: boolean): string => {
      let d = '';
      for (let i = 0; i < corners.length; i += 2) {
        worldPoint(poses, k, corners[i], corners[i + 1], point);
        const [x, y] = [along(right), -along(up)];
        if (isOutline) depth += (2 * along(away)) / corners.length;
        rooms[k].take(x, y);
        d += `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`;
      }
      return `${d}Z`;
    };
    const d = [ring(outline, true), ...holes.map((hole) => ring(hole, false))].join('');
    return { panel: k, d, depth: isPage(k) ? Infinity : depth };
  });
  const around = AROUND * assembly.page.width;
  const roomOf = (isMeant: (panel: number) => boolean, margin = around): ViewBox => {
    const meant = rooms.filter((_, k) => isMeant(k));
    return Room.of(meant.length > 0 ? meant : rooms).box(margin);
  };
  return {
    panels: drawn.sort((a, b) => (a.depth === b.depth ? a.panel - b.panel : b.depth - a.depth)),
    whole: roomOf(() => true, 2),
    close: roomOf((k) => !isPage(k)),
    roomOf: (isMeant) => roomOf(isMeant),
  };
}

/** How much of the pages a close picture shows around the figure, as a share of their width. */
const AROUND = 0.12;

/** The least upright rectangle around points. */
class Room {
  #left = Infinity;
  #top = Infinity;
  #right = -Infinity;
  #bottom = -Infinity;

  /** That of several together. */
  static of(rooms: readonly Room[]): Room {
    const all = new Room();
    for (const each of rooms) {
      all.take(each.#left, each.#top);
      all.take(each.#right, each.#bottom);
    }
    return all;
  }

  take(x: number, y: number): void {
    this.#left = Math.min(this.#left, x);
    this.#right = Math.max(this.#right, x);
    this.#top = Math.min(this.#top, y);
    this.#bottom = Math.max(this.#bottom, y);
  }

  box(margin: number): ViewBox {
    return [
      this.#left - margin,
      this.#top - margin,
      this.#right - this.#left + 2 * margin,
      this.#bottom - this.#top + 2 * margin,
    ];
  }
}
