import { randomBytes, timingSafeEqual } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server } from 'node:http';
import { extname, join, relative, resolve, sep } from 'node:path';
import { getRequestListener } from '@hono/node-server';
import { Hono } from 'hono';
import { type WebSocket, WebSocketServer } from 'ws';
import { makeFolder, writeWhole } from '../disk/files.js';
import { builtFile } from '../disk/root.js';
import { LIVE_STYLE } from '../report/pages/live-style.js';
import { STYLE } from '../report/pages/style.js';
import { Asking } from './asking.js';
import type { Desk, Tell } from './desk.js';
import { deskPage } from './html.js';
import { request, type Told } from './messages.js';
import { DESK_STYLE } from './page-style.js';

/** A desk that pages can reach. */
export interface Served {
  /** With the secret in it. */
  readonly address: string;
  /** Settled when the last page has been closed, and none has come back for a while. */
  readonly left: Promise<void>;
  /** Lets pages hand in what they have in hand, then ends. */
  close(): Promise<void>;
}

/** How often it is looked whether another program has changed the file, ms. */
const LOOK_EVERY = 300;
/** A page that is loaded again is away for a moment, ms. */
const AWAY = 3000;
/** How long pages have to hand in an edit at the end, ms. */
const LAST_WORDS = 400;
/** Largest message of a page, bytes: a figure file, in JSON. */
const MOST_MESSAGE = 4_000_000;

const KINDS: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.pdf': 'application/pdf',
  '.svg': 'image/svg+xml',
  '.dxf': 'image/vnd.dxf',
};

/**
 * Serves a desk on this machine only, at a free port, to whoever knows the secret in the address. It gives away its own
 * page and what lies in the folder of the figure's results, and nothing else.
 * @param results the folder of the figure's results, which need not be there
 */
export async function serveDesk(desk: Desk, results: string): Promise<Served> {
  const secret = randomBytes(24).toString('base64url');
  const pages = new OpenPages();
  const asking = new Asking();
  const server = createServer(getRequestListener(pagesOf(desk, results, secret).fetch));
  await new Promise<void>((listening, failed) => {
    server.once('error', failed);
    server.listen(0, '127.0.0.1', listening);
  });
  const { port } = server.address() as { port: number };
  const hosts = [`127.0.0.1:${port}`, `localhost:${port}`];
  guard(server, hosts);
  const socketServer = new WebSocketServer({ noServer: true, maxPayload: MOST_MESSAGE });
  server.on('upgrade', (incoming, socket, head) => {
    if (!mayConnect(incoming, hosts, secret)) {
      socket.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\n\r\n');
      return;
    }
    socketServer.handleUpgrade(incoming, socket, head, (opened) => {
      const tell = pages.add(opened);
      tell.one(desk.now());
      if (desk.conflict !== null) tell.one(desk.conflict);
      opened.on('message', (data) => hear(String(data), desk, asking, results, tell));
    });
  });
  const looking = setInterval(() => desk.look(pages), LOOK_EVERY);
  return {
    address: `http://127.0.0.1:${port}/${secret}/`,
    left: pages.left,
    async close() {
      clearInterval(looking);
      await pages.lastWords();
      await asking.over();
      const closed = new Promise((resolve) => server.close(resolve));
      server.closeAllConnections();
      pages.end();
      await closed;
    },
  };
}

/** The pages that are open now. */
class OpenPages {
  readonly #sockets = new Set<WebSocket>();
  #away: NodeJS.Timeout | undefined;
  #leave = () => {};
  /** Settled when the last one has been closed, and none has come back for a while. */
  readonly left = new Promise<void>((resolve) => {
    this.#leave = resolve;
  });

  /** @returns what tells that page, or all */
  add(socket: WebSocket): Tell {
    clearTimeout(this.#away);
    this.#sockets.add(socket);
    socket.on('close', () => {
      this.#sockets.delete(socket);
      // Unref'd: a desk that is ended otherwise need not wait for it.
      if (this.#sockets.size === 0) this.#away = setTimeout(this.#leave, AWAY).unref();
    });
    socket.on('error', () => socket.terminate());
    return { all: (told) => this.all(told), one: (told) => socket.send(JSON.stringify(told)) };
  }

  all(told: Told): void {
    const text = JSON.stringify(told);
    for (const socket of this.#sockets) socket.send(text);
  }

  /** Lets them hand in what they have in hand. */
  async lastWords(): Promise<void> {
    if (this.#sockets.size === 0) return;
    this.all({ tell: 'ending' });
    await new Promise((resolve) => setTimeout(resolve, LAST_WORDS));
  }

  end(): void {
    for (const socket of this.#sockets) {
      socket.close();
      socket.terminate();
    }
  }
}

/** Does what a page asks. What cannot be understood is refused; what goes wrong is told, and ends nothing. */
function hear(data: string, desk: Desk, asking: Asking, results: string, tell: Tell): void {
  const read = request.safeParse(asJson(data));
  if (!read.success) {
    tell.one({ tell: 'refused', why: 'The desk does not understand what this page asks: load it again.' });
    return;
  }
  const asked = read.data;
  try {
    if (asked.do === 'stop') asking.stop();
    else if (asked.do !== 'ask') desk.answer(asked, tell);
    else if (asking.isBusy)
      tell.one({ tell: 'refused', why: 'Something is running already: stop it first.' });
    else if (desk.text === null) tell.one({ tell: 'refused', why: 'There is no figure file yet.' });
    else {
      const places = { file: desk.file.path, results, kept: keptFile(desk, results) };
      asking.ask(asked, places, desk.text, tell.all);
    }
  } catch (error) {
    tell.one({ tell: 'refused', why: error instanceof Error ? error.message : String(error) });
  }
}

function asJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Puts the state to compare with among the results, as comparing reads files. */
function keptFile({ kept }: Desk, results: string): string | null {
  if (kept === null) return null;
  const folder = join(results, 'compare');
  makeFolder(resolve(folder));
  const file = join(folder, 'kept.yaml');
  writeWhole(file, kept);
  return file;
}

/** What pages may fetch. */
function pagesOf(desk: Desk, results: string, secret: string): Hono {
  const app = new Hono();
  const nonce = randomBytes(18).toString('base64url');
  app.use(async (context, next) => {
    if (!isSecret(context.req.path.split('/')[1] ?? '', secret)) return context.notFound();
    await next();
    const { headers } = context.res;
    headers.set('Cache-Control', 'no-store');
    headers.set('X-Content-Type-Options', 'nosniff');
    headers.set('X-Frame-Options', 'DENY');
    headers.set('Referrer-Policy', 'no-referrer');
    headers.set('Cross-Origin-Resource-Policy', 'same-origin');
    if (!headers.has('Content-Security-Policy'))
      headers.set(
        'Content-Security-Policy',
        `default-src 'none'; script-src 'self'; style-src 'self' 'nonce-${nonce}'; style-src-attr 'unsafe-inline'; worker-src 'self'; connect-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
      );
  });
  const script = (name: string) => readFileSync(builtFile(name), 'utf8');
  const js = { 'Content-Type': 'text/javascript; charset=utf-8' };
  app.get('/:secret/', (context) => context.html(deskPage(desk.file.path, nonce)));
  app.get('/:secret/desk.js', (context) => context.body(script('desk.js'), 200, js));
  app.get('/:secret/desk-worker.js', (context) => context.body(script('desk-worker.js'), 200, js));
  app.get('/:secret/desk.css', (context) =>
    context.body(STYLE + LIVE_STYLE + DESK_STYLE, 200, { 'Content-Type': 'text/css; charset=utf-8' }),
  );
  app.get('/:secret/results/*', (context) => {
    const path = context.req.path.split('/').slice(3).map(decoded);
    const file = fileIn(results, path);
    if (file === null) return context.notFound();
    return context.body(new Uint8Array(readFileSync(file)), 200, {
      'Content-Type': KINDS[extname(file)] ?? 'application/octet-stream',
      // A page of results runs by itself, and reaches nothing of the desk.
      'Content-Security-Policy': 'sandbox allow-scripts allow-popups allow-downloads',
    });
  });
  return app;
}

function decoded(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    return '';
  }
}

/** A file in a folder or below it, links followed; null for what is not there, or elsewhere. */
function fileIn(folder: string, path: readonly string[]): string | null {
  if (path.some((step) => step === '' || step === '..' || step === '.' || /[/\\\0]/.test(step))) return null;
  try {
    const root = realpathSync(folder);
    const file = realpathSync(join(root, ...path));
    const way = relative(root, file);
    const inside = way !== '' && way !== '..' && !way.startsWith(`..${sep}`);
    return inside && Object.hasOwn(KINDS, extname(file)) && statSync(file).isFile() ? file : null;
  } catch {
    return null;
  }
}

/** Refuses whoever was led here under another name, or by a page from elsewhere. */
function guard(server: Server, hosts: readonly string[]): void {
  const [serve] = server.listeners('request') as ((...args: unknown[]) => void)[];
  server.removeAllListeners('request');
  server.on('request', (incoming, outgoing) => {
    if (isFromHere(incoming, hosts)) serve(incoming, outgoing);
    else outgoing.writeHead(403, { Connection: 'close' }).end();
  });
}

function isFromHere({ headers: { host, origin } }: IncomingMessage, hosts: readonly string[]): boolean {
  // A page of results has no origin of its own.
  return (
    hosts.includes(host ?? '') && (origin === undefined || hosts.some((each) => origin === `http://${each}`))
  );
}

function mayConnect(incoming: IncomingMessage, hosts: readonly string[], secret: string): boolean {
  const [, given, socket, ...more] = (incoming.url ?? '').split('/');
  return (
    isFromHere(incoming, hosts) &&
    incoming.headers.origin !== undefined &&
    isSecret(given ?? '', secret) &&
    socket === 'socket' &&
    more.length === 0
  );
}

function isSecret(given: string, secret: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(secret)];
  return a.length === b.length && timingSafeEqual(a, b);
}
