import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { request as ask } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { Desk } from '../../src/desk/desk.js';
import type { Request, Told } from '../../src/desk/messages.js';
import { type Served, serveDesk } from '../../src/desk/server.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { STALL } from '../edit/support.js';

const closing: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

interface Opened {
  readonly served: Served;
  readonly folder: string;
  readonly file: string;
}

async function opened(text: string | null = STALL): Promise<Opened> {
  const folder = mkdtempSync(join(tmpdir(), 'desk-'));
  const file = join(folder, 'stall.yaml');
  if (text !== null) writeFileSync(file, text);
  const served = await serveDesk(new Desk(file), join(folder, 'results', 'stall'));
  closing.push(() => served.close());
  return { served, folder, file };
}

/** A page that has connected: what it is told is waited for. */
class Page {
  readonly told: Told[] = [];
  private constructor(readonly socket: WebSocket) {
    socket.on('message', (data) => this.told.push(JSON.parse(String(data))));
  }

  static async at(address: string): Promise<Page> {
    const { origin } = new URL(address);
    const socket = new WebSocket(`${address.replace('http', 'ws')}socket`, { origin });
    const page = new Page(socket);
    closing.push(() => socket.terminate());
    await new Promise((open, fail) => {
      socket.once('open', open);
      socket.once('error', fail);
    });
    return page;
  }

  do(asked: Request): void {
    this.socket.send(JSON.stringify(asked));
  }

  async until<K extends Told['tell']>(
    tell: K,
    is: (told: Extract<Told, { tell: K }>) => boolean = () => true,
  ) {
    for (let i = 0; i < 400; i++) {
      const found = this.told.find(
        (told): told is Extract<Told, { tell: K }> => told.tell === tell && is(told as never),
      );
      if (found !== undefined) return found;
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    throw new Error(`was not told ${tell}: ${JSON.stringify(this.told).slice(0, 500)}`);
  }
}

/** The status of a request, with any path and headers as they are given. */
function status(address: string, path: string, headers: Record<string, string> = {}): Promise<number> {
  const { hostname, port } = new URL(address);
  return new Promise((resolve, reject) => {
    ask({ hostname, port, path, headers }, (answer) => {
      answer.resume();
      resolve(answer.statusCode ?? 0);
    })
      .on('error', reject)
      .end();
  });
}

/** An address with another last letter of its secret. */
const notQuite = (address: string) => `${address.slice(0, -2)}${address.at(-2) === 'x' ? 'y' : 'x'}`;

const changed = STALL.replace('length: 120', 'length: 110');

describe('the file', () => {
  it('is written as a page says, and undo gives the same bytes', async () => {
    const { served, file } = await opened();
    const page = await Page.at(served.address);
    const { revision, canUndo } = await page.until('file');
    expect(canUndo).toBe(false);
    page.do({ do: 'write', text: changed, from: revision });
    await page.until('file', ({ text }) => text === changed);
    expect(readFileSync(file, 'utf8')).toBe(changed);
    page.do({ do: 'undo' });
    await page.until('file', ({ text, canRedo }) => text === STALL && canRedo);
    expect(readFileSync(file, 'utf8')).toBe(STALL);
  });

  it('leaves nothing beside it of a desk that was killed while it wrote', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'desk-'));
    const file = join(folder, 'stall.yaml');
    const old = new Date(Date.now() - 120_000);
    const beside = [
      '.stall.yaml.0123456789ab.part',
      '.other.yaml.0123456789ab.part',
      '.stall.yaml.notes.part',
    ];
    for (const name of ['stall.yaml', ...beside]) {
      writeFileSync(join(folder, name), STALL);
      utimesSync(join(folder, name), old, old);
    }
    // Another desk may be writing this one.
    writeFileSync(join(folder, '.stall.yaml.ba9876543210.part'), STALL);
    new Desk(file);
    expect(readdirSync(folder).sort()).toEqual(
      [...beside.slice(1), '.stall.yaml.ba9876543210.part', 'stall.yaml'].sort(),
    );
  });

  it('keeps undo over a page that is loaded again', async () => {
    const { served, file } = await opened();
    const page = await Page.at(served.address);
    page.do({ do: 'write', text: changed, from: (await page.until('file')).revision });
    await page.until('file', ({ text }) => text === changed);
    page.socket.terminate();
    const again = await Page.at(served.address);
    expect((await again.until('file')).canUndo).toBe(true);
    again.do({ do: 'undo' });
    await again.until('file', ({ text }) => text === STALL);
    expect(readFileSync(file, 'utf8')).toBe(STALL);
  });

  it('that another program saves is shown, and its edit can be undone', async () => {
    const { served, file } = await opened();
    const page = await Page.at(served.address);
    await page.until('file');
    writeFileSync(file, changed);
    const { canUndo } = await page.until('file', ({ text }) => text === changed);
    expect(canUndo).toBe(true);
  });

  it('that was changed meanwhile is not written over without asking; both stay within reach', async () => {
    for (const take of ['ours', 'theirs'] as const) {
      const { file } = await opened();
      const desk = new Desk(file);
      const told: Told[] = [];
      const tell = { all: (each: Told) => told.push(each), one: (each: Told) => told.push(each) };
      const theirs = STALL.replace('at: 40', 'at: 41');
      writeFileSync(file, theirs);
      desk.answer({ do: 'write', text: changed, from: desk.now().revision }, tell);
      expect(told).toEqual([{ tell: 'conflict', theirs }]);
      expect(readFileSync(file, 'utf8')).toBe(theirs);
      desk.answer({ do: 'settle', take }, tell);
      expect(readFileSync(file, 'utf8')).toBe(take === 'ours' ? changed : theirs);
      desk.answer({ do: 'undo' }, tell);
      expect(readFileSync(file, 'utf8')).toBe(take === 'ours' ? theirs : changed);
      desk.answer({ do: 'undo' }, tell);
      expect(readFileSync(file, 'utf8')).toBe(STALL);
    }
  });

  it('is kept from a page that has not seen the last edit', async () => {
    const { served, file } = await opened();
    const [one, other] = [await Page.at(served.address), await Page.at(served.address)];
    const { revision } = await one.until('file');
    await other.until('file');
    one.do({ do: 'write', text: changed, from: revision });
    await other.until('file', ({ text }) => text === changed);
    other.do({ do: 'write', text: STALL.replace('120', '90'), from: revision });
    await other.until('refused', ({ why }) => why.includes('Another page'));
    expect(readFileSync(file, 'utf8')).toBe(changed);
  });

  it('that is gone, and one that is put in its place, are both told', async () => {
    const { served, file, folder } = await opened();
    const page = await Page.at(served.address);
    await page.until('file');
    rmSync(file);
    await page.until('file', ({ text }) => text === null);
    writeFileSync(join(folder, 'other.yaml'), changed);
    renameSync(join(folder, 'other.yaml'), file);
    await page.until('file', ({ text }) => text === changed);
  });

  it('is begun from a pattern where there is none or nothing in it, and never over one that has appeared', async () => {
    for (const before of [null, '\n']) {
      const { served, file } = await opened(before);
      const page = await Page.at(served.address);
      expect((await page.until('file')).text).toBe(null);
      page.do({ do: 'begin', pattern: patterns[0].name });
      await page.until('file', ({ text }) => text === patterns[0].text);
      expect(readFileSync(file, 'utf8')).toBe(patterns[0].text);
      page.do({ do: 'begin', pattern: patterns[1].name });
      await page.until('refused', ({ why }) => why.includes('begun already'));
    }
  });

  it('of two desks is shown by both', async () => {
    const { served, file, folder } = await opened();
    const second = await serveDesk(new Desk(file), join(folder, 'results', 'stall'));
    closing.push(() => second.close());
    const [one, other] = [await Page.at(served.address), await Page.at(second.address)];
    one.do({ do: 'write', text: changed, from: (await one.until('file')).revision });
    await other.until('file', ({ text }) => text === changed);
    other.do({ do: 'undo' });
    await one.until('file', ({ text, revision }) => text === STALL && revision > 1);
  });

  it('may be written afterwards by whoever might before', async () => {
    const { file } = await opened();
    chmodSync(file, 0o666);
    new Desk(file).answer({ do: 'write', text: changed, from: 1 }, { all: () => {}, one: () => {} });
    expect(statSync(file).mode & 0o777).toBe(0o666);
  });

  it('that is a link is written where it leads', async () => {
    const { folder, file } = await opened();
    const link = join(folder, 'link.yaml');
    symlinkSync(file, link);
    const desk = new Desk(link);
    desk.answer({ do: 'write', text: changed, from: 1 }, { all: () => {}, one: () => {} });
    expect(readFileSync(file, 'utf8')).toBe(changed);
  });
});

describe('who may come in', () => {
  it('has the secret, the right host, and no origin from elsewhere', async () => {
    const { served } = await opened();
    const { pathname, host, origin } = new URL(served.address);
    const good = { host };
    expect(await status(served.address, pathname, good)).toBe(200);
    expect(await status(served.address, pathname, { host, origin })).toBe(200);
    expect(await status(served.address, '/', good)).toBe(404);
    expect(await status(served.address, `${notQuite(pathname)}/`, good)).toBe(404);
    expect(await status(served.address, '/desk.js', good)).toBe(404);
    expect(await status(served.address, pathname, { host: 'example.org' })).toBe(403);
    expect(await status(served.address, pathname, { host: 'example.org:80' })).toBe(403);
    expect(await status(served.address, pathname, { host, origin: 'http://example.org' })).toBe(403);
    expect(await status(served.address, pathname, { host, origin: 'null' })).toBe(403);
  });

  it('likewise by socket', async () => {
    const { served } = await opened();
    const socket = served.address.replace('http', 'ws');
    const refused = (address: string, options: object) =>
      new Promise((resolve) => {
        const tried = new WebSocket(address, options);
        tried.on('open', () => resolve(false));
        tried.on('error', () => resolve(true));
      });
    const { origin } = new URL(served.address);
    expect(await refused(`${socket}socket`, { origin: 'http://example.org' })).toBe(true);
    expect(await refused(`${socket}socket`, {})).toBe(true);
    expect(await refused(`${socket}socket/..`, { origin, headers: { host: 'example.org' } })).toBe(true);
    expect(await refused(`${notQuite(socket)}/socket`, { origin })).toBe(true);
  });

  it('gets what lies in the folder of results, and nothing else, by any path', async () => {
    const { served, folder } = await opened();
    const results = join(folder, 'results', 'stall');
    mkdirSync(join(results, 'sheets'), { recursive: true });
    writeFileSync(join(results, 'report.html'), '<p>');
    writeFileSync(join(results, 'sheets', 'sheets 1.pdf'), '%PDF');
    writeFileSync(join(results, 'notes.txt'), 'mine');
    writeFileSync(join(folder, 'secret.html'), 'mine');
    symlinkSync(join(folder, 'secret.html'), join(results, 'link.html'));
    const { pathname, host } = new URL(served.address);
    const at = (path: string) => status(served.address, `${pathname}results/${path}`, { host });
    expect(await at('report.html')).toBe(200);
    expect(await at('sheets/sheets%201.pdf')).toBe(200);
    for (const path of [
      ...[
        '../stall.yaml',
        '../../secret.html',
        '..%2f..%2fsecret.html',
        '%2e%2e/%2e%2e/secret.html',
        '..%5c..%5csecret.html',
      ],
      ...[
        'link.html',
        'notes.txt',
        '',
        '.',
        'sheets',
        'report.html/',
        '%00',
        '%ff',
        'report.html%00.html',
        '//etc/passwd',
        '/etc/passwd',
      ],
    ])
      expect(await at(path), path).toBe(404);
  });

  it('is told no when it asks what no page asks, and the desk goes on', async () => {
    const { served } = await opened();
    const page = await Page.at(served.address);
    await page.until('file');
    for (const text of [
      '',
      '{',
      '[]',
      '{"do":"write"}',
      '{"do":"write","text":"x","from":"1"}',
      '{"do":"begin","pattern":"../x"}',
      '{"do":"ask","what":"rm"}',
    ]) {
      page.told.length = 0;
      page.socket.send(text);
      await page.until('refused');
    }
    page.do({ do: 'keep' });
    await page.until('file', ({ kept }) => kept);
  });

  it('does not see a figure full of markup as markup', async () => {
    const { served, folder } = await opened();
    const file = join(folder, '<img src=x onerror=alert(1)>.yaml');
    writeFileSync(file, STALL);
    const other = await serveDesk(new Desk(file), join(folder, 'results', 'x'));
    closing.push(() => other.close());
    expect(await (await fetch(other.address)).text()).not.toContain('<img');
    expect((await fetch(served.address)).headers.get('content-security-policy')).toContain(
      "default-src 'none'",
    );
  });
});

describe('the end', () => {
  it('comes when the last page has been closed for a while, not while one is loaded again', async () => {
    const { served } = await opened();
    const page = await Page.at(served.address);
    page.socket.close();
    const again = await Page.at(served.address);
    let left = false;
    void served.left.then(() => {
      left = true;
    });
    await again.until('file');
    expect(left).toBe(false);
    again.socket.close();
    await served.left;
  });

  it('lets pages hand in what they have in hand', async () => {
    const { served, file } = await opened();
    const page = await Page.at(served.address);
    const { revision } = await page.until('file');
    const closed = served.close();
    await page.until('ending');
    page.do({ do: 'write', text: changed, from: revision });
    await closed;
    expect(readFileSync(file, 'utf8')).toBe(changed);
    expect(existsSync(`${file}.part`)).toBe(false);
  });
});
