import type { Asked, Sent } from './sent.js';

type Question = Asked extends infer One ? (One extends Asked ? Omit<One, 'id'> : never) : never;

/**
 * A worker of the page. Of questions of one sort that wait for it, only the latest is asked: a drag asks faster than it
 * can answer. Of edits none is left out, and they are made in their order; but one that wants the same numbers elsewhere
 * takes the place of the one that waits.
 */
export class Helper {
  readonly #worker = new Worker('desk-worker.js');
  readonly #hear: (sent: Sent) => void;
  #id = 0;
  #busy: (Question & { readonly id: number }) | null = null;
  #waiting: Question[] = [];

  constructor(hear: (sent: Sent) => void) {
    this.#hear = hear;
    this.#worker.addEventListener('message', ({ data }: MessageEvent<Sent>) => {
      if (data.tell !== 'ready') this.#hear(data);
      else if (data.id === this.#busy?.id) this.#next();
    });
  }

  /** Whether all is answered that was asked. */
  get isIdle(): boolean {
    return this.#busy === null;
  }

  /** Whether an edit is still to be made. */
  get hasEdit(): boolean {
    return this.#busy?.ask === 'place' || this.#waiting.some(({ ask }) => ask === 'place');
  }

  ask(question: Question): void {
    const { ask } = question;
    // A new text makes all that was asked of the one before idle, but for an edit: that is made of the new one.
    const isNew = ask === 'text' || ask === 'read';
    this.#waiting = this.#waiting.filter((each) =>
      each.ask === 'place' ? !isSame(each, question) : !isNew && each.ask !== ask,
    );
    // A new text goes before all, then what is in the hand, in its order.
    if (isNew) this.#waiting.unshift(question);
    else if (ask === 'place' || ask === 'drag') {
      const urgent = ({ ask: each }: Question) => ['text', 'read', 'place'].includes(each);
      const at = this.#waiting.findIndex((each) => !urgent(each));
      this.#waiting.splice(at < 0 ? this.#waiting.length : at, 0, question);
    } else this.#waiting.push(question);
    if (this.#busy === null) this.#next();
  }

  /** Asks for an edit again, unless a later one of the same numbers waits. */
  again(question: Extract<Question, { ask: 'place' }>): void {
    if (!this.#waiting.some((each) => isSame(each, question))) this.ask(question);
  }

  #next(): void {
    const question = this.#waiting.shift();
    this.#busy = null;
    if (question === undefined) return;
    this.#id++;
    this.#busy = { ...question, id: this.#id };
    this.#worker.postMessage(this.#busy);
  }
}

const isSame = (one: Question, other: Question): boolean =>
  one.ask === 'place' && other.ask === 'place' && JSON.stringify(one.paths) === JSON.stringify(other.paths);
