import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { createInterface } from 'node:readline';
import { builtFile } from '../disk/root.js';
import type { Offer, Question, Told } from './messages.js';
import { bestSoFar, offersIn } from './offers.js';
import type { Places } from './places.js';
import { SoFar } from './so-far.js';

/** Lines of what a command has said that are kept to show. */
const MOST_LINES = 200;
/** Dummies that are explored if nobody says how many, and those of each variant that are compared. */
const MANY = 400;
const MANY_EACH = 200;

/** Lines of a command that say how far it is. */
const UNDER_WAY = /^(?:[\d,]+ of [\d,]+ dummies| {2}nearest so far:|… with [\d,]+ dummies more so far)/;

/** Runs the program's own commands on the figure file, one at a time, into the folders that they would write to anyway. */
export class Asking {
  #running: ChildProcess | null = null;

  get isBusy(): boolean {
    return this.#running !== null;
  }

  /**
   * Starts a command; tells how far it is, and at last what came of it.
   * @param text of the figure file as it is now
   */
  ask(question: Question, places: Places, text: string, tell: (told: Told) => void): void {
    const { what } = question;
    // With Node's own options as the desk was given them: its bounds of memory hold for what it starts.
    const command = [...process.execArgv, builtFile('cli.js'), ...commandLine(question, places)];
    const child = spawn(process.execPath, command, {
      // The last is by what a command learns that the desk is gone.
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
      env: { ...process.env, NO_COLOR: '1' },
    });
    this.#running = child;
    const lines: string[] = [];
    const soFar = what === 'explore' ? new ExploredSoFar(question, places, text) : null;
    const running = () =>
      tell({
        tell: 'running',
        what,
        // The command itself says how far it is every few seconds only.
        lines: soFar === null ? [...lines] : [...lines, soFar.counted],
        offers: soFar?.offers ?? [],
      });
    for (const said of [child.stdout, child.stderr])
      if (said !== null)
        createInterface({ input: said }).on('line', (line) => {
          if (line.trim() === '') return;
          lines.push(line);
          lines.splice(0, lines.length - MOST_LINES);
          running();
        });
    // A run that says nothing for a while is heard of all the same, with the best so far.
    const ticking = setInterval(() => {
      soFar?.look();
      running();
    }, 700);
    running();
    const end = (found: Pick<Told & { tell: 'done' }, 'files' | 'offers'>) => {
      clearInterval(ticking);
      if (this.#running !== child) return;
      this.#running = null;
      // How far it was is of no use any more.
      tell({ tell: 'done', what, lines: lines.filter((line) => !UNDER_WAY.test(line)), ...found });
    };
    child.on('error', (error) => {
      lines.push(String(error));
      end({ files: [], offers: [] });
    });
    child.on('close', () => end(foundBy(what, places)));
  }

  /** Stops as Ctrl-C would: what there is by then is kept. */
  stop(): void {
    this.#running?.kill('SIGINT');
  }

  /** Waits for a command that was told to stop, a few seconds at most. */
  async over(): Promise<void> {
    const child = this.#running;
    if (child === null) return;
    this.stop();
    const gone = new Promise((resolve) => child.once('close', resolve));
    const late = setTimeout(() => child.kill('SIGKILL'), 5000);
    await gone;
    clearTimeout(late);
  }
}

/** What a study that runs has found by now. */
class ExploredSoFar {
  readonly #log: SoFar;
  readonly #places: Places;
  readonly #samples: number;
  #shown = -1;
  offers: readonly Offer[] = [];

  constructor({ samples }: Question, places: Places, text: string) {
    this.#log = new SoFar(join(places.results, 'unfinished', 'scored.jsonl'), text);
    this.#places = places;
    this.#samples = samples ?? MANY;
  }

  get counted(): string {
    return `${this.#log.scored} of ${this.#samples} dummies`;
  }

  look(): void {
    this.#log.look();
    const best = this.#log.best?.number ?? -1;
    // Made anew only where another is the best: to read the figure takes a while.
    if (best !== this.#shown) this.offers = bestSoFar(this.#log, this.#places);
    this.#shown = best;
  }
}

/** What a command has left to look at and to try on; nothing where that cannot be read. */
function foundBy(what: Question['what'], places: Places): Pick<Told & { tell: 'done' }, 'files' | 'offers'> {
  const tried = <T>(read: () => T[]): T[] => {
    try {
      return read();
    } catch {
      return [];
    }
  };
  return { files: tried(() => filesIn(what, places)), offers: tried(() => offersIn(what, places)) };
}

function commandLine({ what, samples }: Question, { file, results, kept }: Places): string[] {
  const named = ['--', file];
  if (what === 'explore')
    return ['explore', '--samples', String(samples ?? MANY), '--out', results, ...named];
  if (what === 'tune') return ['tune', '--out', join(results, 'remedies'), ...named];
  if (what === 'tolerance') return ['check', '--tolerance', ...named];
  if (what === 'sheets') return ['sheets', '--out', join(results, 'sheets'), ...named];
  return [
    'compare',
    '--samples',
    String(samples ?? MANY_EACH),
    '--out',
    join(results, 'compare'),
    ...named,
    kept ?? file,
  ];
}

/** What those files are, in words: first what is printed or read first. */
const IN_WORDS: readonly (readonly [ends: RegExp, words: string])[] = [
  [/^report\.html$/, 'The report: charts, and every dummy to look at'],
  [/^remedies\.html$/, 'The remedies, with pictures'],
  [/^compare\.html$/, 'The comparison, with charts'],
  [/-sheets\.pdf$/, 'Sheets to print'],
  [/-assembly\.pdf$/, 'Guide to gluing'],
];

/** What of the results a maker opens, and where the desk serves it. */
const LOOKED_AT: Readonly<Record<Question['what'], readonly [folder: string, ends: RegExp]>> = {
  explore: ['', /^report\.html$/],
  tune: ['remedies', /^remedies\.html$/],
  compare: ['compare', /^compare\.html$/],
  tolerance: ['', /^$/],
  sheets: ['sheets', /\.(pdf|svg|dxf)$/],
};

function filesIn(what: Question['what'], { results }: Places) {
  const [below, ends] = LOOKED_AT[what];
  const folder = join(results, below);
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ends.test(entry.name))
    .map((entry) => {
      const path = relative(results, join(entry.parentPath, entry.name)).split(sep);
      const place = IN_WORDS.findIndex(([end]) => end.test(entry.name));
      return {
        name: place < 0 ? entry.name : `${IN_WORDS[place][1]} (${entry.name})`,
        address: ['results', ...path.map(encodeURIComponent)].join('/'),
        order: place < 0 ? IN_WORDS.length : place,
      };
    })
    .sort((a, b) => a.order - b.order || a.name.localeCompare(b.name))
    .slice(0, 60)
    .map(({ name, address }) => ({ name, address }));
}
