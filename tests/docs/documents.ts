import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const ROOT = join(import.meta.dirname, '../..');

/** A fenced block of a page of the docs. */
export interface Block {
  readonly page: string;
  readonly language: string;
  readonly text: string;
}

/** Every page that a reader may follow. */
export const pages: readonly string[] = [
  'README.md',
  'DEVELOPERS.md',
  'results/README.md',
  ...readdirSync(join(ROOT, 'docs'))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];

export const textOf = (page: string): string => readFileSync(join(ROOT, page), 'utf8');

export const blocks: readonly Block[] = pages.flatMap((page) =>
  [...textOf(page).matchAll(/^```(\w*)\n(.*?)^```$/gms)].map(([, language, text]) => ({
    page,
    language,
    text,
  })),
);

/** The commands of a block of shell, without their remarks. */
export function commandsIn(text: string): string[] {
  return text
    .split('\n')
    .map((line) => line.replace(/\s#.*$/, '').trim())
    .filter((line) => line !== '');
}

/** A section of a page, by its heading, up to the next heading of its rank or a higher one. */
export function section(page: string, heading: string): string {
  const [rank] = /^#+/.exec(heading) ?? [''];
  const after = `\n${textOf(page)}`.split(`\n${heading}\n`)[1];
  if (after === undefined) throw new Error(`${page} has no heading '${heading}'`);
  return after.split(new RegExp(`^#{1,${rank.length}} `, 'm'))[0];
}

/** The words set as code in a text. @example codeIn('`a`, `b` *') // ['a', 'b'] */
export function codeIn(text: string): string[] {
  return [...text.matchAll(/`([^`]+)`/g)].map(([, word]) => word);
}

/** The rows of the tables in a text, each a list of cells, without their heads. */
export function rowsOf(text: string): string[][] {
  return text
    .split('\n')
    .filter((line) => /^\| .*\|$/.test(line))
    .map((line) =>
      line
        .slice(1, -1)
        .split(' | ')
        .map((cell) => cell.trim()),
    )
    .filter(([first]) => !/^-+$/.test(first));
}
