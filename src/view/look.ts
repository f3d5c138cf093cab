import { worldPoint } from '../motion/pose.js';

/** From where a figure is looked at: turned so far to the side and looked down upon so far, radians. */
export interface Eye {
  readonly aside: number;
  readonly down: number;
}

/** Where a point of a panel is seen, to the right and up, mm; and how far off it is. */
export type Look = (panel: number, x: number, y: number) => [right: number, up: number, far: number];

/** Looks at a figure from the foot of the page, the book turned so that both pages rise alike. */
export function lookAt(poses: Float64Array, pageAngle: number, { aside, down }: Eye): Look {
  const lean = ((180 - pageAngle) * Math.PI) / 360;
  const place = new Float64Array(3);
  return (panel, x, y) => {
    worldPoint(poses, panel, x, y, place);
    const across = place[0] * Math.cos(lean) + place[2] * Math.sin(lean);
    const up = -place[0] * Math.sin(lean) + place[2] * Math.cos(lean);
    const side = across * Math.cos(aside) - place[1] * Math.sin(aside);
    const back = across * Math.sin(aside) + place[1] * Math.cos(aside);
    return [side, back * Math.sin(down) + up * Math.cos(down), back * Math.cos(down) - up * Math.sin(down)];
  };
}
