/** A place or a way in space, mm. */
export type Space = readonly [number, number, number];

export const minus = (a: Space, b: Space): Space => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const lengthOf = (v: Space): number => Math.hypot(v[0], v[1], v[2]);
export const dot = (a: Space, b: Space): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Space, b: Space): Space => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
