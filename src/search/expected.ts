/** What is expected of some points before any is scored; nothing of it is ever a result. */
export interface Expected {
  /** For each point and objective: what is expected, in the objective's own unit. */
  objectives: Float64Array[];
  /** For each point and objective: how far what expects it disagrees with itself, in the same unit. */
  spread: Float64Array[];
  /** For each point: how far it breaks limits. */
  violation: Float64Array;
  /** For each point: the odds that it breaks none. */
  sound: Float64Array;
}

/** Whatever has learnt from scored candidates what others will score. */
export interface Foresight {
  /** From these odds on a point counts as sound. */
  readonly soundFrom: number;
  expect(units: readonly Float64Array[]): Expected;
}
