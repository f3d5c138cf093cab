import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The rooms of src, in the order in which they may import: each only from those before it. */
const ROOMS = [
  ...['text', 'disk', 'geometry', 'card', 'motion', 'parts', 'limits', 'figure', 'score', 'search'],
  ...['study', 'queue', 'insight', 'tune', 'edit', 'compare'],
  ...['view', 'sheets', 'report', 'desk', 'cli'],
];

/** Rooms whose code also runs in a page: nothing of Node. Of `figure` only what reads files may. */
const KERNEL = ['text', 'geometry', 'card', 'motion', 'parts', 'limits', 'figure', 'score', 'search', 'view'];
const READS_FILES = ['src/figure/read.ts', 'src/figure/text/read-text.ts'];

const files = readdirSync('src', { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
  .map((entry) => join(entry.parentPath, entry.name));

/** What each file imports, by path, and by name what is no file of ours. */
const imports = new Map(
  files.map((file) => [
    file,
    Array.from(readFileSync(file, 'utf8').matchAll(/\b(?:from|import)\s*\(?\s*'([^']+)'/g), ([, name]) =>
      name.startsWith('.') ? normalize(join(dirname(file), name)).replace(/\.js$/, '.ts') : name,
    ),
  ]),
);

/** The room of a file; files in src itself are the program's front doors, which see everything. */
const roomOf = (file: string): number => {
  const [, room, inside] = file.split(/[/\\]/);
  return inside === undefined ? ROOMS.length : ROOMS.indexOf(room);
};

describe('the house', () => {
  it('has a place for every room', () => {
    expect(files.filter((file) => roomOf(file) < 0)).toEqual([]);
  });

  it('a room imports only from rooms before it', () => {
    const wrong = [...imports].flatMap(([file, names]) =>
      names
        .filter((name) => name.startsWith('src') && roomOf(name) > roomOf(file))
        .map((name) => `${file} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it('the search knows nothing of the rest', () => {
    const wrong = [...imports].flatMap(([file, names]) =>
      file.startsWith(join('src', 'search'))
        ? names.filter((name) => name.startsWith('src') && !name.startsWith(join('src', 'search')))
        : [],
    );
    expect(wrong).toEqual([]);
  });

  it('the kernel imports nothing of Node', () => {
    const wrong = [...imports].filter(
      ([file, names]) =>
        KERNEL.includes(ROOMS[roomOf(file)]) &&
        !READS_FILES.includes(file.replaceAll('\\', '/')) &&
        names.some((name) => name.startsWith('node:') || name.startsWith(join('src', 'disk'))),
    );
    expect(wrong).toEqual([]);
  });

  it('no files import each other in a circle', () => {
    const done = new Set<string>();
    const visit = (file: string, path: readonly string[]): string[] => {
      const at = path.indexOf(file);
      if (at >= 0) return [[...path.slice(at), file].join(' → ')];
      if (done.has(file)) return [];
      const circles = (imports.get(file) ?? []).flatMap((name) => visit(name, [...path, file]));
      done.add(file);
      return circles;
    };
    expect(files.flatMap((file) => visit(file, []))).toEqual([]);
  });

  it('a bench asks for nothing that is not there', () => {
    const wrong = readdirSync('bench')
      .filter((name) => name.endsWith('.mjs'))
      .flatMap((name) =>
        Array.from(
          readFileSync(join('bench', name), 'utf8').matchAll(
            /import \{([^}]+)\} from '\.\.\/dist\/(src\/[^']+)\.js'/g,
          ),
          ([, asked, file]) => {
            const text = imports.has(`${file}.ts`) ? readFileSync(`${file}.ts`, 'utf8') : '';
            const missing = asked.split(',').filter((each) => !isExported(text, each.trim()));
            return missing.map((each) => `${name} asks ${file} for ${each.trim()}`);
          },
        ).flat(),
      );
    expect(wrong).toEqual([]);
  });
});

const isExported = (text: string, name: string): boolean =>
  new RegExp(`^export (async )?(function\\*?|const|class|\\{[^}]*) ?${name}\\b`, 'm').test(text);
