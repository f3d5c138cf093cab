import {
  cardIn,
  direction,
  distance,
  onCard,
  type Point,
  type Segment,
  type Shape,
} from '../../geometry/plane.js';
import { overlapOf, solid } from '../../geometry/region.js';

/** Where card lies along a line: the share of the line that has card right beside it. */
export interface CardBeside {
  readonly left: number;
  readonly right: number;
}

const LOOKS = 25;
/** How far from the line to look, mm. */
const BESIDE = 0.1;

export function cardBeside(shape: Shape, line: Segment): CardBeside {
  const [ex, ey] = direction(line);
  const long = distance(...line);
  let left = 0;
  let right = 0;
  for (let i = 0; i < LOOKS; i++) {
    const t = ((i + 0.5) / LOOKS) * long;
    const x = line[0][0] + t * ex;
    const y = line[0][1] + t * ey;
    if (onCard(shape, [x - BESIDE * ey, y + BESIDE * ex])) left++;
    if (onCard(shape, [x + BESIDE * ey, y - BESIDE * ex])) right++;
  }
  return { left: left / LOOKS, right: right / LOOKS };
}

/**
 * On which side of a line a panel lies: +1 left, −1 right. Where it has card on both, or on neither (the line is a
 * hinge drawn across it, or off it), the side with more card.
 */
export function sideOf(shape: Shape, line: Segment): 1 | -1 {
  const { left, right } = cardBeside(shape, line);
  if (left !== right) return left > right ? 1 : -1;
  const onLeft = overlapOf(shape, leftHalf(line)).reduce((sum, part) => sum + cardIn(part), 0);
  return onLeft * 2 >= cardIn(shape) ? 1 : -1;
}

/** The half plane to the left of a line, as far as any sheet goes. */
function leftHalf([a, b]: Segment): Shape {
  const far = 1e5;
  const [ex, ey] = direction([a, b]);
  const at = (along: number, left: number): Point => [
    a[0] + along * ex - left * ey,
    a[1] + along * ey + left * ex,
  ];
  return solid([at(-far, 0), at(far, 0), at(far, far), at(-far, far)]);
}
