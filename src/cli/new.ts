import { existsSync, writeFileSync } from 'node:fs';
import { docsFile } from '../disk/root.js';
import { patterns } from '../figure/patterns/index.js';
import { InputError, quoted } from '../figure/text/input-error.js';
import { knownNames } from '../figure/text/near.js';
import { COMMAND } from '../report/words/command.js';
import { FINE } from './exit-codes.js';
import { say } from './print.js';
import { shellWord } from './shell-word.js';

/**
 * Writes a figure file to begin with.
 * @returns the exit code
 * @throws InputError for a pattern that there is not, and for a file that is there already or cannot be written
 */
export function startFigure(name: string, path: string): number {
  const pattern = patterns.find((each) => each.name === name);
  if (pattern === undefined) {
    const names = patterns.map((each) => each.name);
    throw new InputError({ file: 'new', found: quoted(name), remedy: knownNames(name, names, 'pattern') });
  }
  if (existsSync(path))
    throw new InputError({ file: path, found: 'a file of that name', remedy: 'choose another name' });
  try {
    // Fails if the file has appeared meanwhile: nobody's work is overwritten.
    writeFileSync(path, pattern.text, { flag: 'wx' });
  } catch (error) {
    throw new InputError({
      file: path,
      found: `a place where nothing can be written (${error instanceof Error && 'code' in error ? error.code : error})`,
      remedy: 'choose a folder that is there and is yours',
    });
  }
  const word = shellWord(path);
  say(
    `${path} works as it is. Its remarks say what each dim is. Next:`,
    `  ${COMMAND} check ${word}`,
    `  ${COMMAND} explore ${word}`,
  );
  return FINE;
}

/** Lists the patterns. @returns the exit code */
export function listPatterns(): number {
  say('Patterns:', ...patternLines().split('\n'), '', `Their pictures: ${docsFile('patterns.md')}`);
  return FINE;
}

/** The patterns, a line each, for the help. */
export function patternLines(): string {
  const width = Math.max(...patterns.map(({ name }) => name.length));
  return patterns.map(({ name, about }) => `  ${name.padEnd(width)}  ${about}`).join('\n');
}
