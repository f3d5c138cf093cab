/** How far numbers go at first, mm or degrees: each either way. */
export const LADDER = [1, 2, 3.5, 6, 10, 16, 25, 40, 65, 100, 150];
