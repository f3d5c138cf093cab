import { normalize } from 'node:path';
import { InvalidArgumentError } from 'commander';
import { MOST_SECONDS } from '../study/defaults.js';

// What is given to options: each turns text into its value, or says what would do.

/** A whole number within bounds. */
export function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (/^\d+$/.test(text) && number >= least && number <= most) return number;
    throw new InvalidArgumentError(`Give a whole number from ${least} to ${most}.`);
  };
}

/** Seconds of a time such as 90s, 2m or 1h. */
export function secondsOf(text: string): number {
  const [, count, unit] = /^(\d+(?:\.\d+)?)(s|m|h)$/.exec(text) ?? [];
  const seconds = Number(count) * { s: 1, m: 60, h: 3600 }[(unit ?? 's') as 's' | 'm' | 'h'];
  if (seconds > 0 && seconds <= MOST_SECONDS) return seconds;
  throw new InvalidArgumentError('Give a time such as 90s, 2m or 1h, a week at most.');
}

/** A length in mm, 0 or more. */
export function millimetres(text: string): number {
  if (/^\d+(?:\.\d+)?$/.test(text)) return Number(text);
  throw new InvalidArgumentError('Give a length in mm.');
}

/** A number from 0 to the most that makes sense. */
export function amount(most: number): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (/^\d+(\.\d+)?$/.test(text) && number <= most) return number;
    throw new InvalidArgumentError(`Give a number from 0 to ${most}.`);
  };
}

/** One more of an option that may be given several times. */
export function collected(text: string, before: string[]): string[] {
  return [...before, text];
}

/** A folder to write to, without detours: empty, as a variable of a shell may be, it would be the one that one is in. */
export function folderName(text: string): string {
  if (text !== '') return normalize(text);
  throw new InvalidArgumentError("Give the name of a folder: '.' is the one that you are in.");
}
