/** A crease or a panel, by name. */
export interface Place {
  readonly kind: 'crease' | 'panel';
  readonly name: string;
  /** Where on it, if anybody has pointed there: so far along the crease, or along and up on the panel, mm. */
  readonly along?: number;
  readonly up?: number;
}
