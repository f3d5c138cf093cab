/** A figure file to begin with: it works as it starts, and its remarks say what may be changed. */
export interface Pattern {
  /** As written on the command line. */
  readonly name: string;
  /** One line for the help. */
  readonly about: string;
  readonly text: string;
}
