/** Where things lie: the figure file, the folder of its results, and the state that the maker has kept. */
export interface Places {
  readonly file: string;
  readonly results: string;
  /** Where a state to compare with is written, if there is one. */
  readonly kept: string | null;
}
