import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const SERVER = 'redis-server';

/** Whether to leave out the tests with a real Redis: where there is none, but never in CI. */
export const SKIPPED = spawnSync(SERVER, ['--version']).status !== 0 && process.env.CI === undefined;
if (SKIPPED)
  console.warn(
    `Skipped: the tests of studies on a queue, as there is no ${SERVER}. Debian has it: apt-get install redis-server.`,
  );

const servers = new Set<ChildProcess>();

/** A Redis of our own, on a port of this machine that nobody else can reach. It keeps nothing when it ends. */
export class OwnRedis {
  readonly port: number;
  readonly #settings: readonly string[];
  #child: ChildProcess | null = null;

  private constructor(port: number, settings: readonly string[]) {
    this.port = port;
    this.#settings = settings;
  }

  /** @param tls with a certificate and its key, in files */
  static async started(settings: readonly string[] = [], tls = false): Promise<OwnRedis> {
    const port = await freePort();
    const ports = tls ? ['--port', '0', '--tls-port', `${port}`] : ['--port', `${port}`];
    const redis = new OwnRedis(port, [...ports, ...settings]);
    await redis.start();
    return redis;
  }

  get address(): string {
    return `redis://127.0.0.1:${this.port}`;
  }

  async start(): Promise<void> {
    const dir = mkdtempSync(join(tmpdir(), 'dummyrun-redis-'));
    const always = ['--bind', '127.0.0.1', '--save', '', '--appendonly', 'no', '--dir', dir];
    const child = spawn(SERVER, [...this.#settings, ...always], { stdio: 'ignore' });
    servers.add(child);
    child.on('exit', () => servers.delete(child));
    this.#child = child;
    while (!(await listens(this.port))) await later(20);
  }

  /** Ends it as a power cut would: all that was in it is gone. */
  async stop(): Promise<void> {
    const child = this.#child;
    if (child === null || child.exitCode !== null) return;
    const ended = once(child, 'exit');
    child.kill('SIGKILL');
    await ended;
  }
}

/** Ends whatever a test that failed has left running. */
export function stopAll(): void {
  for (const child of servers) child.kill('SIGKILL');
}

export const later = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  await new Promise((closed) => server.close(closed));
  if (typeof address !== 'object' || address === null) throw new Error('no port');
  return address.port;
}

async function listens(port: number): Promise<boolean> {
  const socket = connect(port, '127.0.0.1');
  try {
    await once(socket, 'connect');
    return true;
  } catch {
    return false;
  } finally {
    socket.destroy();
  }
}
