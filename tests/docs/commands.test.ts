import { cpSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { endAll, folderWith, runHere } from '../cli/support.js';
import { blocks, codeIn, commandsIn, pages, ROOT, rowsOf, textOf } from './documents.js';

vi.setConfig({ testTimeout: 600_000, hookTimeout: 600_000 });

const NAMES = ['desk', 'explore', 'show', 'check', 'tune', 'compare', 'new', 'card', 'sheets'];

/**
 * The one thing that is done otherwise than the docs say: little is scored, in one thread; what asks for no count is
 * done to the smallest figure; nothing is opened in a browser; and the desk, which waits for its page, is only asked how.
 */
function inShort(command: string): string[] {
  const [npx, program, name, ...args] = command.split(' ');
  expect([npx, program], command).toEqual(['npx', 'dummyrun']);
  if (name === 'desk') return [name, '--help'];
  const kept = args.filter(
    (arg, i) => arg !== '--open' && arg !== '--samples' && args[i - 1] !== '--samples',
  );
  if (args.includes('--tolerance')) kept[0] = 'mine.yaml';
  const few: Record<string, string[]> = {
    explore: ['--samples', '6', '--workers', '1'],
    compare: ['--samples', '10', '--workers', '1'],
    tune: ['--trials', '5', '--workers', '1'],
  };
  return [name, ...kept, ...(few[name] ?? [])];
}

const helps = new Map<string, string>();
beforeAll(async () => {
  const folder = folderWith({});
  for (const name of NAMES) helps.set(name, (await runHere(folder, name, '--help')).out);
});
afterAll(endAll);

/** Every block of shell that starts the program, and the examples of every --help. */
const shell = blocks.filter(({ language, text }) => language === 'sh' && text.includes('npx dummyrun'));

/** A folder as the reader has it: with the examples and a figure of their own. */
async function folderOf(commands: readonly string[]): Promise<string> {
  const folder = folderWith({});
  cpSync(join(ROOT, 'examples'), join(folder, 'examples'), { recursive: true });
  const all = commands.join('\n');
  if (!/ new \S+ mine\.yaml/.test(all)) await runHere(folder, 'new', 'standing-v', 'mine.yaml');
  return folder;
}

const done = new Set<string>();

/** Runs commands one after another; each must say that it works or that it does not, and no more than that. */
async function follow(commands: readonly string[]): Promise<string> {
  const folder = await folderOf(commands);
  for (const command of commands) {
    // What is written for others to read, and nothing else, need not be done again because another page says so, too.
    if (/ (compare|check) /.test(command) && done.has(command)) continue;
    done.add(command);
    // To weigh options takes five studies of each: that there are some is enough.
    const [, weighed, dim] = / compare (\S+) --each (\S+)/.exec(command) ?? [];
    if (weighed !== undefined) {
      const { free } = compileFigure(parseFigure(readFileSync(join(folder, weighed), 'utf8'), weighed));
      expect(free.find(({ name }) => name === dim)?.kind, command).toBe('choice');
      continue;
    }
    const { code, err } = await runHere(folder, ...inShort(command));
    expect(code, `${command}\n${err}`).toBeLessThanOrEqual(1);
    if (/ (new|show|sheets) /.test(command)) expect(code, `${command}\n${err}`).toBe(0);
    // The demo, of which later commands speak, is as good as any other study of its figure.
    const [, out] = / explore examples\/ferryman\.yaml .*--out (\S+)/.exec(command) ?? [];
    if (out !== undefined) cpSync(join(folder, out), join(folder, 'results/ferryman'), { recursive: true });
  }
  return folder;
}

/** Checks that a study has written what it is said to write. */
function expectAllFiles(results: string): void {
  const told = rowsOf(textOf('results/README.md'))
    .slice(1)
    .flatMap(([cell]) => codeIn(cell));
  expect(told.length).toBeGreaterThan(5);
  for (const name of told) {
    expect(existsSync(join(results, name)), name).toBe(true);
    expect(helps.get('explore'), name).toContain(name);
  }
  expect(JSON.parse(readFileSync(join(results, 'study.json'), 'utf8')).finished).toBe(true);
}

describe('what the docs say to type', () => {
  it('is there to be followed', () => {
    expect(shell.map(({ page }) => page)).toEqual(expect.arrayContaining(['README.md', 'docs/tuning.md']));
  });

  it.each(shell.map(({ page, text }) => [page, text] as const))('can be followed: %s', async (_, text) => {
    const folder = await follow(commandsIn(text));
    const explored = [...text.matchAll(/ explore (?:\S*\/)?(\w+)\.yaml/g)].map(([, name]) => name);
    for (const name of explored.slice(-1)) expectAllFiles(join(folder, 'results', name));
  });

  it('can be followed in every --help', async () => {
    const examples = NAMES.map((name) => {
      const [, text = ''] = (helps.get(name) ?? '').split(/^Examples?:$/m);
      const commands = commandsIn(text);
      expect(commands.length, `${name} has an example`).toBeGreaterThan(0);
      for (const command of commands) expect(command).toContain(`npx dummyrun ${name} `);
      return commands;
    });
    const told = new Set(shell.flatMap(({ text }) => commandsIn(text)));
    // What a page of the docs says too has been followed there.
    await follow(examples.flat().filter((command) => !told.has(command)));
  });

  it('takes only options that the commands have', () => {
    const options = new Set([...helps.values()].flatMap((help) => help.match(/--[a-z][a-z-]*/g) ?? []));
    for (const page of pages)
      for (const code of codeIn(textOf(page)))
        for (const option of /^(npm|npx (?!dummyrun))/.test(code)
          ? []
          : (code.match(/--[a-z][a-z-]*/g) ?? []))
          expect(options, `${option} in ${page}`).toContain(option);
  });

  it('names scripts, tests and files that are there', () => {
    const { scripts } = JSON.parse(textOf('package.json'));
    const commands = blocks
      .filter(({ language }) => language === 'sh')
      .flatMap(({ text }) => commandsIn(text));
    const others = commands.filter((command) => !command.startsWith('npx dummyrun '));
    expect(others.length).toBeGreaterThan(5);
    for (const command of others) {
      const [first, second, ...rest] = command.split(' ');
      if (first === 'npm') expect(scripts, command).toHaveProperty(second === 'run' ? rest[0] : second);
      else if (first === 'npx')
        expect(existsSync(join(ROOT, 'node_modules/.bin', second)), command).toBe(true);
      else expect(first, command).toBe('node');
      for (const path of [second, ...rest].filter((word) => word.includes('/')))
        expect(existsSync(join(ROOT, path)), `${path} in ${command}`).toBe(true);
    }
  });
});

it('links of the docs lead to pages, pictures and headings that are there', () => {
  for (const page of pages)
    for (const [, path, heading] of textOf(page).matchAll(/\]\((?!https?:)([^)#]*)(?:#([^)]*))?\)/g)) {
      const target = path === '' ? page : join(page, '..', path);
      expect(existsSync(join(ROOT, target)), `${path} in ${page}`).toBe(true);
      if (heading === undefined) continue;
      const headings = [...textOf(target).matchAll(/^#+ (.*)$/gm)].map(([, text]) =>
        text
          .toLowerCase()
          .replaceAll(/[^\p{L}\d -]/gu, '')
          .replaceAll(' ', '-'),
      );
      expect(headings, `#${heading} in ${page}`).toContain(heading);
    }
});

it('figures shown outside the page of the figure file can be built', () => {
  const shown = blocks.filter(({ page, language }) => language === 'yaml' && page !== 'docs/figure-file.md');
  expect(shown.length).toBeGreaterThan(0);
  for (const { page, text } of shown) {
    const figure = compileFigure(parseFigure(text, page));
    expect(figure.build(figure.start).panels.length).toBeGreaterThan(2);
  }
});
