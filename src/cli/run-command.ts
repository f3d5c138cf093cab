import { inspect } from 'node:util';
import { CommanderError } from 'commander';
import { StudyError, troubleOf } from '../disk/error.js';
import { NotBuilt } from '../disk/root.js';
import { InputError } from '../figure/text/input-error.js';
import { BAD_INPUT, CANNOT_TELL, FAULT, FINE } from './exit-codes.js';
import { tell } from './print.js';
import { programOf } from './program.js';

/**
 * Reads a command line, does what it asks, and tells what stands in the way.
 * @param args without Node and the program
 * @returns the exit code
 */
export async function runCommand(args: readonly string[]): Promise<number> {
  let code: number = FINE;
  try {
    await programOf((ended) => {
      code = ended;
    }).parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    // Its message is printed already; asking for help or the version is no mistake.
    if (error instanceof CommanderError) return error.exitCode === 0 ? FINE : BAD_INPUT;
    if (error instanceof InputError || error instanceof StudyError) {
      tell(error.message);
      return BAD_INPUT;
    }
    if (error instanceof NotBuilt || hinders(error)) {
      tell(error instanceof NotBuilt ? error.message : `The program cannot go on: ${troubleOf(error)}.`);
      return CANNOT_TELL;
    }
    tell('This is a fault of dummyrun itself:', ...inspect(error).split('\n'));
    return FAULT;
  }
}

/** Whether the machine gives out, or a file of the program's own is gone: no fault of the figure, nor of the program. */
function hinders(error: unknown): error is NodeJS.ErrnoException {
  return (
    error instanceof Error &&
    'code' in error &&
    /^(EMFILE|ENFILE|ERR_MODULE_NOT_FOUND)$/.test(String(error.code))
  );
}
