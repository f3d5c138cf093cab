import { withoutPasswords } from '../queue/address.js';
import { plainJson, plainLines, plainText } from '../text/plain-text.js';

/*
 * All that the commands print goes through here: names and files are strangers', and a line of ours is never theirs. What
 * is secret in an address that was typed is told to nobody, whatever is said of it.
 */

/** Prints lines. What would be a line end within one is none. */
export function say(...lines: readonly string[]): void {
  process.stdout.write(onLines(lines));
}

/** Prints lines beside the results: how far it is, what is wrong. */
export function tell(...lines: readonly string[]): void {
  process.stderr.write(onLines(lines));
}

/** Prints data, for other programs. */
export function sayJson(value: unknown): void {
  process.stdout.write(`${plainJson(value)}\n`);
}

/** Whatever the reader of the command line writes by itself, which may be many lines and hold what was typed. */
export const READERS_OUTPUT = {
  writeOut: (text: string) => process.stdout.write(hushed(plainLines(text))),
  writeErr: (text: string) => process.stderr.write(hushed(plainLines(text))),
  // A mistake is told on one line, which may hold what was typed, and on a second what was meant.
  outputError: (text: string, write: (text: string) => void) =>
    write(
      `${text
        .trimEnd()
        .split(/\n(?=\(Did you mean )/)
        .map((line) => plainText(line))
        .join('\n')}\n`,
    ),
};

const hushed = (text: string) => withoutPasswords(text, process.argv);
const onLines = (lines: readonly string[]) => hushed(lines.map((line) => `${plainText(line)}\n`).join(''));
