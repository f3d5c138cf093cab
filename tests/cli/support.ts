import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { vi } from 'vitest';
import { runCommand } from '../../src/cli/run-command.js';
import { COMPILE_LATE } from '../support/compile-late.js';
import { onOneCore } from '../support/one-core.js';

const CLI = join(import.meta.dirname, '../../dist/cli.js');

export interface Ended {
  code: number | null;
  out: string;
  err: string;
}

const children = new Set<ChildProcess>();

/** Ends whatever a test that failed has left running. */
export function endAll(): void {
  for (const child of children) child.kill('SIGKILL');
}

/** Starts the compiled program, as a person would, in a folder. */
export function started(
  folder: string,
  args: string[],
  { program = CLI, env = {} }: { program?: string; env?: Record<string, string> } = {},
): { child: ChildProcess; ended: Promise<Ended> } {
  const child = spawn(process.execPath, [COMPILE_LATE, program, ...args], {
    cwd: folder,
    env: { ...process.env, ...env },
  });
  children.add(child);
  child.on('exit', () => children.delete(child));
  let out = '';
  let err = '';
  child.stdout.on('data', (data) => {
    out += data;
  });
  child.stderr.on('data', (data) => {
    err += data;
  });
  const ended = once(child, 'close').then(([code]) => ({ code, out, err }));
  return { child, ended };
}

/** Runs the compiled program to its end. */
export function run(folder: string, ...args: string[]): Promise<Ended> {
  return started(folder, args).ended;
}

/**
 * Runs a command line to its end in this process, which costs no start-up, as on a machine of one core; one at a time. What a
 * process of its own adds is not tested by it: the exit of that process, signals, what goes to a pipe.
 */
export async function runHere(folder: string, ...args: string[]): Promise<Ended> {
  const [before, waiting, argv] = [process.cwd(), process.listeners('SIGINT'), process.argv];
  let [out, err] = ['', ''];
  const streams = [
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      out += text;
      return true;
    }),
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      err += text;
      return true;
    }),
  ];
  process.chdir(folder);
  process.argv = [process.execPath, CLI, ...args];
  try {
    const code = await onOneCore(() => runCommand(args));
    return { code, out, err };
  } finally {
    process.chdir(before);
    process.argv = argv;
    for (const stream of streams) stream.mockRestore();
    for (const handler of process.listeners('SIGINT'))
      if (!waiting.includes(handler)) process.off('SIGINT', handler);
  }
}

/**
 * A tent over the gutter, whose every answer has a formula: feet `foot` from the gutter, sides `side` wide. At page angle
 * φ its ridge stands on the bisector at d = foot cos(φ/2) + √(side² − foot² sin²(φ/2)) from the gutter.
 */
export const TENT = `
page: A5 portrait
card: { grammage: 240, bulk: 1.25 }
dims:
  foot: { from: 10, to: 60 }
  side: { from: 20, to: 140 }
  long: { choose: [40, 60, 90] }
parts:
  - { name: tent, kind: parallel-fold, shape: tent, at: 30, length: long, glue: [foot, foot], widths: [side, side] }
wants:
  - { name: stands, kind: rise, panel: tent left, least: 40 }
`;

/** A new folder with figure files in it. */
export function folderWith(files: Record<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), 'dummyrun-cli-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}
