import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Desk } from '../../../src/desk/desk.js';
import { request, type Told } from '../../../src/desk/messages.js';
import { Answerer } from '../../../src/desk/page/answerer.js';
import { steppedBy } from '../../../src/desk/page/drag.js';
import { Model } from '../../../src/desk/page/model.js';
import type { Asked } from '../../../src/desk/page/sent.js';

const MAST = `figure: mast
page: A5 portrait
dims: { slack: 12 }   # how much higher
parts:
  - { name: sail, kind: v-fold, at: 20, glue: 60, panels: 68, feet: 25, ridge: slack + 18 }
`;

const later = () => new Promise((resolve) => setImmediate(resolve));

/** The page's worker, in this thread; what is asked is answered after it. */
class WorkerHere {
  readonly #hear: ((event: { data: unknown }) => void)[] = [];
  readonly #answerer = new Answerer((sent) => {
    for (const hear of this.#hear) hear({ data: structuredClone(sent) });
  });

  addEventListener(_: string, hear: (event: { data: unknown }) => void): void {
    this.#hear.push(hear);
  }

  postMessage(asked: Asked): void {
    const copy = structuredClone(asked);
    setImmediate(() => this.#answerer.answer(copy));
  }
}

/** The way to a desk, in this thread. */
class SocketHere {
  static readonly OPEN = 1;
  static desk: Desk;
  readonly readyState = 1;
  #hear: (event: { data: string }) => void = () => {};

  addEventListener(kind: string, hear: (event: { data: string }) => void): void {
    if (kind === 'message') this.#hear = hear;
    if (kind !== 'open') return;
    setImmediate(() => {
      hear({ data: '' });
      this.#tell(SocketHere.desk.now());
    });
  }

  send(text: string): void {
    void later().then(() => {
      const asked = request.parse(JSON.parse(text));
      const tell = (told: Told) => this.#tell(told);
      if (asked.do !== 'ask' && asked.do !== 'stop') SocketHere.desk.answer(asked, { all: tell, one: tell });
    });
  }

  look(): void {
    SocketHere.desk.look({ all: (told) => this.#tell(told) });
  }

  #tell(told: Told): void {
    this.#hear({ data: JSON.stringify(told) });
  }
}

let file: string;
let sockets: SocketHere[];

beforeEach(() => {
  file = join(mkdtempSync(join(tmpdir(), 'desk-model-')), 'mast.yaml');
  writeFileSync(file, MAST);
  SocketHere.desk = new Desk(file);
  sockets = [];
  vi.stubGlobal('Worker', WorkerHere);
  vi.stubGlobal(
    'WebSocket',
    class extends SocketHere {
      constructor() {
        super();
        sockets.push(this);
      }
    },
  );
  vi.stubGlobal('addEventListener', () => {});
  vi.stubGlobal('location', { href: 'http://127.0.0.1:1/secret/' });
  vi.stubGlobal('window', globalThis);
});
afterEach(() => {
  vi.unstubAllGlobals();
});

const text = () => readFileSync(file, 'utf8');
const settled = (model: Model) =>
  expect.poll(() => model.isIdle && model.rest.value !== null, { timeout: 20_000 }).toBe(true);

async function opened(): Promise<Model> {
  const model = new Model();
  await settled(model);
  return model;
}

describe('what the page knows', () => {
  it('takes every step of keys that are pressed faster than the figure is worked out', async () => {
    const model = await opened();
    const apex = model.handles.find(({ what, part }) => what === 'apex' && part === 'sail');
    if (apex === undefined) throw new Error('the sail has no apex');
    const press = () => {
      const to = steppedBy(model.asMoved(apex), { key: 'ArrowRight', shiftKey: false, altKey: false });
      model.place(apex.paths, to?.values ?? []);
    };
    // Some before the first is answered, one while it is, some when all is found out anew.
    press();
    press();
    await later();
    press();
    await later();
    await later();
    press();
    await new Promise((resolve) => setTimeout(resolve, 260));
    press();
    await settled(model);
    expect(model.handles.find(({ what, part }) => what === 'apex' && part === 'sail')?.values).toEqual([
      apex.values[0] + 2.5,
    ]);
    expect(text()).toBe(model.text.value);
  });

  it('makes edits of several numbers in their order, each of what the one before has left', async () => {
    const model = await opened();
    const along = ['parts', 0, 'at'];
    for (const far of [31, 32, 33]) model.place([along], [far]);
    model.place([['dims', 'slack']], [13]);
    model.place([along], [34]);
    await settled(model);
    expect(text()).toBe(MAST.replace('at: 20', 'at: 34').replace('slack: 12', 'slack: 13'));
  });

  it('undoes what was placed just before, also where that is still on its way', async () => {
    const model = await opened();
    model.place([['dims', 'slack']], [13]);
    model.ask({ do: 'undo' });
    await settled(model);
    expect(text()).toBe(MAST);
    expect(SocketHere.desk.now().canRedo).toBe(true);
  });

  it('keeps the handles of what cannot be built, so that it can be dragged back', async () => {
    const model = await opened();
    const apex = model.handles.find(({ what }) => what === 'apex');
    model.place(apex?.paths ?? [], [500]);
    await settled(model);
    expect(model.score.value?.card.cannotBuild).not.toBeNull();
    expect(model.motion.value).toBeNull();
    expect(model.handles.find(({ what }) => what === 'apex')).toEqual({
      ...apex,
      at: [0, 500],
      values: [500],
    });
    model.dragTo(apex?.paths ?? [], [30]);
    await expect.poll(() => model.motion.value?.shown?.pageAngle).toBe(110);
    model.place(apex?.paths ?? [], [30]);
    await settled(model);
    expect(model.card?.cannotBuild).toBeNull();
    expect(text()).toBe(MAST.replace('at: 20', 'at: 30'));
  });

  it('asks whose text it shall be that another program has written, before that is seen or after, or has deleted', async () => {
    const model = await opened();
    const [theirs, ours] = [MAST.replace('slack: 12', 'slack: 11'), MAST.replace('slack: 12', 'slack: 14')];
    for (const [others, isSeen, take] of [
      [theirs, false, 'ours'],
      [theirs, true, 'theirs'],
      [null, false, 'theirs'],
      [null, true, 'ours'],
    ] as const) {
      if (others === null) rmSync(file);
      else writeFileSync(file, others);
      model.keep(ours);
      if (isSeen) sockets[0].look();
      await expect.poll(() => model.conflict.value).toEqual({ theirs: others });
      expect(existsSync(file) ? text() : null).toBe(others);
      model.ask({ do: 'settle', take });
      const wanted = take === 'ours' ? ours : others;
      await expect.poll(() => model.conflict.value ?? model.text.value).toBe(wanted);
      expect(existsSync(file) ? text() : null).toBe(wanted);
      // The other one is within reach.
      model.ask({ do: 'undo' });
      await expect.poll(() => model.text.value).toBe(take === 'theirs' ? ours : (others ?? MAST));
      writeFileSync(file, MAST);
      sockets[0].look();
      await expect.poll(() => model.text.value).toBe(MAST);
    }
  });

  it('asks it also of what was being typed while another program wrote', async () => {
    const model = await opened();
    const { revision } = model;
    const theirs = MAST.replace('slack: 12', 'slack: 11');
    writeFileSync(file, theirs);
    sockets[0].look();
    await expect.poll(() => model.text.value).toBe(theirs);
    model.keep(MAST.replace('slack: 12', 'slack: 14'), revision);
    await expect.poll(() => model.conflict.value).toEqual({ theirs });
    expect(text()).toBe(theirs);
    model.ask({ do: 'settle', take: 'theirs' });
    await expect.poll(() => model.text.value).toBe(theirs);
    // What was typed since is of what is there now.
    model.keep(MAST, model.revision);
    await settled(model);
    expect(text()).toBe(MAST);
  });

  it('says what was done only where something was, and takes it back with the step', async () => {
    const model = await opened();
    expect(model.edit((source) => source.text, 'the sail is removed')).toBe(false);
    expect(model.said.value).toBe('');
    expect(model.edit((source) => source.text.replace('at: 20', 'at: 22'), 'the sail is moved')).toBe(true);
    expect(model.said.value).toBe('the sail is moved');
    await settled(model);
    model.ask({ do: 'undo' });
    await settled(model);
    expect(model.said.value).toMatch(/^One step back/);
    writeFileSync(file, MAST.replace('at: 20', 'at: 24'));
    sockets[0].look();
    await expect.poll(() => model.said.value).toMatch(/changed elsewhere/);
  });

  it('goes back to what the file has where an edit cannot be written, says why, and takes the next one', async () => {
    const model = await opened();
    const desk = SocketHere.desk.file;
    const { write } = desk;
    desk.write = () => {
      throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
    };
    model.keep(MAST.replace('at: 20', 'at: 22'));
    await expect.poll(() => model.said.value).toMatch(/the disk is full.*not kept/);
    await settled(model);
    expect(model.text.value).toBe(MAST);
    desk.write = write;
    model.keep(MAST.replace('at: 20', 'at: 24'));
    await settled(model);
    expect(text()).toBe(MAST.replace('at: 20', 'at: 24'));
  });

  it('swallows no number while the text has a fault: says so, and shows the old one again', async () => {
    const model = await opened();
    model.keep(MAST.replace('slack: 12', 'slack: 12x'));
    await expect.poll(() => model.fault.value).not.toBeNull();
    const before = model.refused.value;
    model.place([['parts', 0, 'at']], [31]);
    expect(model.refused.value).toBe(before + 1);
    expect(model.said.value).toMatch(/fault/);
    await expect.poll(() => model.isIdle).toBe(true);
    expect(text()).toContain('at: 20');
  });
});
