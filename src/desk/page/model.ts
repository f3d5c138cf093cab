import type { Path } from '../../figure/text/input-error.js';
import type { FigureSource } from '../../figure/text/source.js';
import { Signal } from '../../report/live/signal.js';
import type { Drawable, Moving } from '../../report/live/viewer.js';
import { NO_CLASH, type Scorecard } from '../../score/scorecard.js';
import type { PrintedPanel } from '../../sheets/art/printed-panels.js';
import type { FileNow, Told } from '../messages.js';
import { Helper } from './helper.js';
import { type Handle, placeOf } from './hold.js';
import { Link } from './link.js';
import type { Place } from './place.js';
import { readText } from './read-text.js';
import type {
  BesideSent,
  FaultSent,
  FlatSent,
  MotionSent,
  PlacedSent,
  RestSent,
  ScoreSent,
  Sent,
  StartersSent,
} from './sent.js';

/** How long the page waits after a change before it asks for all that takes longer, ms. */
const LATER = 250;

/** All that the page knows; its views watch it and change it. */
export class Model {
  readonly file = new Signal<FileNow | null>(null);
  /** The text as it is here: the desk's, or the one that is on its way there. */
  readonly text = new Signal<string | null>(null);
  readonly fault = new Signal<FaultSent | null>(null);
  readonly motion = new Signal<MotionSent | null>(null);
  readonly score = new Signal<ScoreSent | null>(null);
  readonly rest = new Signal<RestSent | null>(null);
  readonly flat = new Signal<FlatSent | null>(null);
  readonly beside = new Signal<BesideSent | null>(null);
  readonly starters = new Signal<StartersSent | null>(null);
  readonly asking = new Signal<Extract<Told, { tell: 'running' | 'done' }> | null>(null);
  readonly conflict = new Signal<{ readonly theirs: string | null } | null>(null);
  readonly pageAngle = new Signal(110);
  /** The part that is looked at. */
  readonly part = new Signal<string | null>(null);
  /** Where a part may be added. */
  readonly picked = new Signal<Place | null>(null);
  /** What there is to say of the last thing that was done. */
  readonly said = new Signal('');
  readonly stands = new Signal(false);
  /** Whether another text than the figure's is shown. */
  readonly tried = new Signal(false);
  /** How often a number that was given could not be taken: what shows it goes back. */
  readonly refused = new Signal(0);
  /** Told before the page ends, or the desk: whoever has an edit in hand hands it in. */
  readonly ending = new Signal(0);

  readonly #link = new Link(
    (told) => this.#told(told),
    (standing) => {
      this.stands.value = standing;
    },
  );
  readonly #shows = new Helper((sent) => this.#sent(sent));
  readonly #finds = new Helper((sent) => this.#sent(sent));
  #later = 0;
  /** Whether undo or redo is on its way: edits made meanwhile are made of the text that comes. */
  #stepping = false;
  readonly #after: (() => void)[] = [];
  #moving: Moving | null = null;
  /** How many texts there have been. */
  #reading = 0;
  /** Numbers that have been placed since the handles were found out, by where they stand. */
  readonly #moved = new Map<string, readonly number[]>();
  /** Undo and redo that wait for the edits before them. */
  #steps: ('undo' | 'redo')[] = [];
  /** What is on its way to the desk, and what goes after it. */
  #sending: string | null = null;
  #next: string | null = null;

  constructor() {
    this.motion.watch((motion) => {
      this.#moving = motion === null ? null : moving(motion);
    });
    addEventListener('pagehide', () => {
      this.ending.value++;
    });
  }

  /** The figure as the kernel reads it. @throws InputError */
  source(): FigureSource {
    return readText(this.text.value ?? '', this.file.value?.file ?? '', this.file.value?.drawings ?? {});
  }

  /** Asks the desk for what is no edit of the text. */
  ask(asked: Parameters<Link['send']>[0]): void {
    if (asked.do === 'undo' || asked.do === 'redo') {
      this.#steps.push(asked.do);
      this.#step();
    } else this.#link.send(asked);
  }

  /** Goes one step back or forth once every edit before it is made and kept. */
  #step(): void {
    if (this.#stepping || this.#next !== null || this.#finds.hasEdit) return;
    const step = this.#steps.shift();
    if (step === undefined) return;
    this.#stepping = true;
    // What was said is of the step that goes.
    this.said.value = step === 'undo' ? 'One step back; redo goes on again' : 'One step on again';
    this.#link.send({ do: step });
  }

  /** Makes an edit; what stands in its way is said. One that leaves all as it is says nothing. @returns whether it was made */
  edit(make: (source: FigureSource) => string, said = ''): boolean {
    if (this.#stepping) {
      this.#after.push(() => this.edit(make, said));
      return true;
    }
    try {
      const text = make(this.source());
      const isMade = text !== this.text.value;
      this.said.value = isMade ? said : '';
      if (isMade) this.keep(text);
      return isMade;
    } catch (error) {
      this.said.value = error instanceof Error ? error.message : String(error);
      this.refused.value++;
      return false;
    }
  }

  /**
   * Takes a text as the figure's, and hands it to the desk.
   * @param since the revision from which it was written: where another program has made one after that, it is asked whose it shall be
   */
  keep(text: string, since = this.revision): void {
    if (this.#stepping) {
      this.#after.push(() => this.keep(text));
      return;
    }
    if (text === this.text.value && this.#sending === null) return;
    const isOlder = since < (this.file.value?.theirs ?? 0);
    this.#take(text);
    if (this.#sending === null) this.#send(text, isOlder ? since : this.revision);
    else this.#next = text;
  }

  /** The revision of the file that the page knows of. */
  get revision(): number {
    return this.file.value?.revision ?? 0;
  }

  /** Shows the figure with another text, and keeps nothing. */
  tryOn(text: string, said: string): void {
    this.said.value = said;
    this.tried.value = text !== this.text.value;
    this.#shows.ask({
      ask: 'text',
      file: this.file.value?.file ?? '',
      text,
      drawings: this.file.value?.drawings ?? {},
    });
  }

  /** Shows the figure with a field at another value. */
  drag(path: Path, value: number): void {
    this.dragTo([path], [value]);
  }

  /** Shows it, and keeps it. */
  drop(path: Path, value: number): void {
    this.place([path], [value]);
  }

  /** Shows several fields at other values, as of a point that is dragged. */
  dragTo(paths: readonly Path[], values: readonly number[]): void {
    if (this.fault.value !== null) return;
    this.#shows.ask({ ask: 'drag', paths, values, pageAngle: this.pageAngle.value });
  }

  /** Shows them, and keeps them. */
  place(paths: readonly Path[], values: readonly number[]): void {
    if (this.fault.value !== null) {
      this.said.value = 'Nothing is changed: the text has a fault that must be mended first';
      this.refused.value++;
      return;
    }
    this.#moved.set(JSON.stringify(paths), values);
    this.#finds.ask({ ask: 'place', paths, values });
  }

  /** All that can be dragged, where it has been placed since: keys are pressed faster than the figure is worked out. */
  get handles(): readonly Handle[] {
    return (this.rest.value?.handles ?? []).map((handle) => this.asMoved(handle));
  }

  /** A handle where it has been placed since. */
  asMoved(handle: Handle): Handle {
    const values = this.#moved.get(JSON.stringify(handle.paths));
    return values === undefined ? handle : { ...handle, values, at: placeOf(handle.hold, values, handle.at) };
  }

  /** Finds what can stand somewhere. */
  pick(place: Place | null): void {
    this.starters.value = null;
    this.picked.value = place;
    if (place !== null) this.#finds.ask({ ask: 'starters', on: place });
  }

  /** What of the figure is drawn. */
  get drawable(): Drawable {
    const motion = this.motion.value;
    const { card } = this;
    return {
      motion: this.#moving,
      traces: motion?.traces ?? [],
      printed: this.#printed(),
      card: card ?? NO_CARD,
      counts: (a, b, found, pageAngle) => this.#catches(a, b, found.push, pageAngle),
    };
  }

  /** Art on the panels, as far as these are those that it was laid on. */
  #printed(): readonly PrintedPanel[] {
    const panels = this.motion.value?.panels ?? [];
    const { printed = [], on = [] } = this.rest.value ?? {};
    return on.length === panels.length && on.every((name, k) => name === panels[k].name) ? printed : [];
  }

  /** Whether two panels catch here, as far as is known: what rubs and where is worked out in the worker, after the score. */
  #catches(a: number, b: number, push: number, pageAngle: number): boolean {
    const motion = this.motion.value;
    if (motion === null || push <= motion.press) return false;
    const names = [motion.panels[a].name, motion.panels[b].name];
    return (this.rest.value?.catches ?? []).some(
      ({ between, spans }) =>
        spans.some(([low, high]) => low <= pageAngle && pageAngle <= high) &&
        between.every((name) => names.includes(name)),
    );
  }

  /** Whether all that was done here is worked out, and kept by the desk. */
  get isIdle(): boolean {
    const isSent = this.#sending === null && !this.#stepping && this.#steps.length === 0;
    const isScored = this.motion.value === null || this.card !== null || this.fault.value !== null;
    return isSent && isScored && this.#later === 0 && this.#shows.isIdle && this.#finds.isIdle;
  }

  /** The score of the figure that is shown; null while it is worked out. */
  get card(): Scorecard | null {
    const score = this.score.value;
    return score !== null && score.id === this.motion.value?.id ? score.card : null;
  }

  /** Keeps an edit of some numbers; one that was made from a text that is no longer there is made anew. */
  #placed({ paths, values, text, reading }: PlacedSent): void {
    if (this.#stepping) this.#after.push(() => this.place(paths, values));
    else if (reading !== this.#reading) this.#finds.again({ ask: 'place', paths, values });
    else if (text !== this.text.value) this.keep(text);
    // A range, say, goes no farther: what was shown on the way is not so.
    else this.#asItIs();
  }

  /** Shows what the text says, whatever was shown on the way to something else. */
  #asItIs(): void {
    this.#moved.clear();
    if (this.text.value !== null) this.#take(this.text.value);
  }

  #take(text: string): void {
    const file = this.file.value;
    this.text.value = text;
    this.tried.value = false;
    const asked = { file: file?.file ?? '', text, drawings: file?.drawings ?? {} };
    this.#shows.ask({ ask: 'text', ...asked });
    this.#reading++;
    this.#finds.ask({ ask: 'read', reading: this.#reading, ...asked });
    clearTimeout(this.#later);
    this.#later = window.setTimeout(() => {
      this.#later = 0;
      this.#finds.ask({ ask: 'rest' });
      this.#finds.ask({ ask: 'ties' });
      // What can stand somewhere is another thing in another figure.
      if (this.picked.value !== null) this.pick(this.picked.value);
    }, LATER);
  }

  #send(text: string, from = this.revision): void {
    this.#sending = text;
    this.#link.send({ do: 'write', text, from });
  }

  #told(told: Told): void {
    if (told.tell === 'file') this.#now(told);
    else if (told.tell === 'conflict') this.conflict.value = { theirs: told.theirs };
    else if (told.tell === 'refused') this.said.value = told.why;
    else if (told.tell === 'ending') this.ending.value++;
    else this.asking.value = told;
  }

  #now(now: FileNow): void {
    const before = this.file.value;
    const isOurs = this.#stepping || now.text === this.#sending || now.text === this.text.value;
    // What the desk could not keep is the same revision once more, and it has said why.
    const isNew = now.revision !== before?.revision;
    if (before !== null && before.text !== null && now.text !== null && !isOurs && isNew)
      this.said.value =
        'The file has been changed elsewhere: this is what it has now; undo brings back what was';
    else if (before?.kept === false && now.kept)
      this.said.value = 'Kept: compare weighs the figure against it';
    const drawingsChanged = JSON.stringify(now.drawings) !== JSON.stringify(this.file.value?.drawings);
    this.file.value = now;
    this.conflict.value = null;
    const next = now.text === this.#sending ? this.#next : null;
    this.#sending = this.#next = null;
    this.#stepping = false;
    if (next !== null) this.#send(next);
    else if (now.text === null) this.text.value = null;
    else if (now.text !== this.text.value || drawingsChanged) this.#take(now.text);
    for (const go of this.#after.splice(0)) go();
    this.#step();
  }

  /** Whether what was found out is of another text than the one that is there, or will be at once: it will be found again. */
  #isOld({ reading }: { readonly reading: number }): boolean {
    return reading !== this.#reading || this.#finds.hasEdit;
  }

  #sent(sent: Sent): void {
    if (sent.tell === 'motion') {
      this.fault.value = null;
      this.motion.value = sent;
    } else if (sent.tell === 'score') {
      this.fault.value = null;
      if (sent.card.cannotBuild !== null) this.motion.value = null;
      this.score.value = sent;
    } else if (sent.tell === 'fault') this.fault.value = sent;
    else if (sent.tell === 'rest') {
      if (this.#isOld(sent)) return;
      this.#moved.clear();
      this.rest.value = sent;
      this.#finds.ask({ ask: 'flat' });
      this.#finds.ask({ ask: 'beside' });
    } else if (sent.tell === 'ties') {
      if (!this.#isOld(sent)) this.#shows.ask({ ask: 'hold', ties: sent.ties });
    } else if (sent.tell === 'flat') {
      if (!this.#isOld(sent)) this.flat.value = sent;
    } else if (sent.tell === 'beside') this.beside.value = sent;
    else if (sent.tell === 'starters') {
      // Another place may have been picked since.
      const { value: picked } = this.picked;
      if (picked?.kind === sent.on.kind && picked.name === sent.on.name) this.starters.value = sent;
    } else if (sent.tell === 'stuck') {
      // A fault of the file is told already.
      if (this.fault.value === null) this.said.value = sent.why;
      if (this.#moved.size > 0 && !this.#finds.hasEdit) this.#asItIs();
      this.#step();
    } else if (sent.tell !== 'ready') {
      this.said.value = sent.said.join('; ');
      if (sent.tell !== 'placed') return;
      this.#placed(sent);
      this.#step();
    }
  }
}

/** Before the score is there, nothing is known to catch. */
const NO_CARD: Pick<Scorecard, 'clash'> = { clash: NO_CLASH };

function moving({ panels, page, least, frames, every, shown, bends }: MotionSent): Moving {
  const width = 12 * panels.length;
  const last = frames.length / width - 1;
  return {
    assembly: { panels, page },
    least,
    bends,
    at(pageAngle) {
      if (shown?.pageAngle === pageAngle) return shown.poses;
      const frame = Math.min(last, Math.max(0, Math.round((180 - pageAngle) / every)));
      return frames.subarray(frame * width, (frame + 1) * width);
    },
  };
}
