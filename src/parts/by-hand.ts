/** A straight stretch on a panel, from point to point: [along its foot, up from its foot], mm. */
export type Stretch = readonly [readonly [number, number], readonly [number, number]];

/** A drawn outline, and the creases that its edges may run along. */
export interface DrawnEdge {
  /** The field that holds the outline, its steps joined by dots. */
  readonly field: string;
  readonly panel: string;
  readonly creases: readonly Stretch[];
}
