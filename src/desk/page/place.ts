/** A crease or a panel, by name. */
export interface Place {
  readonly kind: 'crease' | 'panel';
  readonly name: string;
}
