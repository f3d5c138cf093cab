import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { StudyError } from '../disk/error.js';
import { readStart } from '../disk/read-file.js';
import { quoted } from '../figure/text/input-error.js';

/** Longer than any lock of ours, bytes. */
const LONGEST = 4096;

interface Holder {
  pid: number;
  host: string;
  /** When the process started, as its system tells it, or null: a number of a dead process may be given out again. */
  born: string | null;
}

/**
 * Lets one run at a time write to a folder. The lock is a file that names the process that holds it; one whose process
 * is gone is taken over.
 * @param path of the lock file, in a folder that exists
 * @returns what gives the lock back
 * @throws StudyError when another run holds it
 */
export function takeLock(path: string): () => void {
  const mine = JSON.stringify({ pid: process.pid, host: hostname(), born: birthOf('self') } satisfies Holder);
  const own = `${path}.${process.pid}`;
  // A link appears whole or not at all, and fails where there is one already.
  rmSync(own, { force: true });
  writeFileSync(own, mine, { flag: 'wx' });
  try {
    for (let attempt = 0; attempt < 3; attempt++) {
      if (linked(own, path)) {
        return () => {
          if (contentOf(path) === mine) rmSync(path);
        };
      }
      const theirs = contentOf(path);
      if (theirs === null) continue;
      const holder = holderOf(theirs);
      if (holder !== null && mayLive(holder)) throw inUse(path, holder);
      setAside(path, theirs);
    }
    throw new StudyError(`Other runs keep taking the folder of ${path}. Try again when they have ended.`);
  } finally {
    rmSync(own, { force: true });
  }
}

function linked(own: string, path: string): boolean {
  try {
    linkSync(own, path);
    return true;
  } catch (error) {
    if (isCode(error, 'EEXIST')) return false;
    // Some disks know no links; there, the second of two runs that start in the same instant may slip through.
    if (!isCode(error, 'EPERM', 'ENOTSUP', 'ENOSYS')) throw error;
    if (contentOf(path) !== null) return false;
    renameSync(own, path);
    return true;
  }
}

/** Removes a dead lock, but puts it back if another run has just taken it over. */
function setAside(path: string, dead: string): void {
  const aside = `${path}.${process.pid}.dead`;
  try {
    renameSync(path, aside);
    if (contentOf(aside) !== dead) linkSync(aside, path);
    rmSync(aside, { force: true });
  } catch (error) {
    if (!isCode(error, 'ENOENT', 'EEXIST')) throw error;
  }
}

function inUse(path: string, holder: Holder): StudyError {
  const where = holder.host === hostname() ? '' : ` on ${quoted(holder.host)}`;
  const elsewhere = where === '' ? '' : ` If that run is over, delete ${path}.`;
  return new StudyError(
    `Another run (process ${holder.pid}${where}) is writing to this folder. Wait for it, or choose another with --out.${elsewhere}`,
  );
}

/** Whether the holder may still run. A process of another machine can't be looked up, and counts as running. */
function mayLive(holder: Holder): boolean {
  if (holder.host !== hostname()) return true;
  if (holder.born !== null) return birthOf(holder.pid) === holder.born;
  if (holder.pid === process.pid) return false;
  try {
    process.kill(holder.pid, 0);
    return true;
  } catch (error) {
    return isCode(error, 'EPERM');
  }
}

/** When a process started, in clock ticks since boot, and which boot (Linux, proc(5)); null if dead or not told. */
function birthOf(pid: number | 'self'): string | null {
  try {
    // The name, in brackets, may hold spaces. After it come the state (Z: dead, not yet buried) and, 20th, the start.
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\)\s/s, '')
      .split(' ');
    if (fields[0] === 'Z') return null;
    return `${readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()} ${fields[19]}`;
  } catch {
    return null;
  }
}

function contentOf(path: string): string | null {
  try {
    return readStart(path, LONGEST).toString('utf8');
  } catch (error) {
    if (isCode(error, 'ENOENT')) return null;
    throw error;
  }
}

function holderOf(text: string): Holder | null {
  try {
    const { pid, host, born } = JSON.parse(text);
    const valid =
      Number.isInteger(pid) && typeof host === 'string' && (born === null || typeof born === 'string');
    return valid ? { pid, host, born } : null;
  } catch {
    return null;
  }
}

function isCode(error: unknown, ...codes: string[]): boolean {
  return error instanceof Error && 'code' in error && codes.includes(String(error.code));
}
