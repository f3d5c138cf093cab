/**
 * A click: two bars that are pushed through the line of their ends (the truss of von Mises, 1923).
 * With half-span b and rise h, a bar l = √(b² + y²) long at rise y is shorter than at first by l₀ − l, and both together
 * push back with P = 2 EA (l₀ − l)/l₀ · y/l. The greatest P is at l³ = l₀ b², from dP/dy = 0.
 */
export function clickForce(rise: number): number {
  const long = Math.hypot(1, rise);
  const there = Math.cbrt(long);
  const y = Math.sqrt(Math.max(0, there * there - 1));
  return (2 * (long - there) * y) / (long * there);
}

/** The same where the rise is small: 2/(3√3) · rise³, over E A. */
export const shallowClickForce = (rise: number): number => (2 / (3 * Math.sqrt(3))) * rise ** 3;
