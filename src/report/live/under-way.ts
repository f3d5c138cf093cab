/** How often a page is loaded again that is written as its study goes on, ms. */
const EVERY = 10_000;

/** Loads the page again and again, to show what is new in it; not once a hand has begun to work with it. */
export function loadAgainUntilTouched(): void {
  const timer = setTimeout(() => location.reload(), EVERY);
  for (const touch of ['pointerdown', 'keydown', 'wheel'])
    addEventListener(touch, () => clearTimeout(timer), { once: true, passive: true });
}
