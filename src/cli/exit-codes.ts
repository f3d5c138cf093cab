/** How the commands end. */
export const FINE = 0;
/** Nothing works, or the one candidate doesn't. */
export const DOES_NOT_WORK = 1;
/** Input that can't be used, or a place that can't be written to: a message says which. */
export const BAD_INPUT = 2;
/** A fault of the program itself. */
export const FAULT = 3;
/** What was found could not be printed, or the program is not whole: nothing is said of the figure. */
export const CANNOT_TELL = 4;
/** Ended by Ctrl-C, with what there was. */
export const INTERRUPTED = 130;
