/** What meets at a joint, or should: a fold's two sides, a plate and a support, a strut's top, the joints of a chain. */
export interface Meeting {
  /** The part whose joint it is; of a chain, the part that ends it. */
  readonly part: string;
  readonly joint: 'ridge' | 'support' | 'top' | 'joints' | 'hubs' | 'neck' | 'glued end' | 'limb';
  /** Names of the panels that meet there, those of the part first. */
  readonly panels: readonly string[];
}

/** Where a misfit is measured, once for each page angle: in mm, tilt and jump in degrees. */
export interface Misfit extends Meeting {
  /**
   * What is measured: a gap between what should meet (mm); by how much card is forced in all (mm), as it bows,
   * twists or is stretched; or, of a chain, how far its hubs tilt or the neck of a tongue is twisted (degrees), how far a glued end is lifted (mm), and how far
   * a limb turned at once (degrees), which it does at a dead point.
   */
  readonly of: 'gap' | 'forced' | 'tilt' | 'lift' | 'jump';
  /** A misfit of more than this stops the motion, mm: a fold that cannot close. Null where it only binds. */
  readonly locksBeyond: number | null;
}
