/** A candidate that cannot exist as card: why, and which field of the part says so (a path such as 'glue.1'). */
export class CannotBuild extends Error {
  constructor(
    message: string,
    readonly field: string = '',
    /** True when no dims could mend it (an unknown name, say): then it is the file that is wrong. */
    readonly structural: boolean = false,
    /** The part at fault, where that shows only once all parts have been added. */
    readonly part: string = '',
  ) {
    super(message);
    this.name = 'CannotBuild';
  }
}
