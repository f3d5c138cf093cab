import type { Asked, Sent } from './sent.js';

type Question = Asked extends infer One ? (One extends Asked ? Omit<One, 'id'> : never) : never;

/**
 * A worker of the page. Of questions of one sort that wait for it, only the latest is asked: a drag asks faster than it
 * can answer.
 */
export class Helper {
  readonly #worker = new Worker('desk-worker.js');
  readonly #hear: (sent: Sent) => void;
  #id = 0;
  #busy = 0;
  #waiting: Question[] = [];

  constructor(hear: (sent: Sent) => void) {
    this.#hear = hear;
    this.#worker.addEventListener('message', ({ data }: MessageEvent<Sent>) => {
      this.#hear(data);
      // A motion is followed by its score.
      if (data.id === this.#busy && data.tell !== 'motion') this.#next();
    });
  }

  /** Whether all is answered that was asked. */
  get isIdle(): boolean {
    return this.#busy === 0;
  }

  ask(question: Question): void {
    // A new text makes all that was asked of the one before idle, but for an edit: that is made of the new one.
    const isNew = question.ask === 'text' || question.ask === 'read';
    this.#waiting = this.#waiting.filter((each) => isEdit(each) || (!isNew && each.ask !== question.ask));
    // What is in the hand goes first; a new text before all.
    if (isNew) this.#waiting.unshift(question);
    else if (question.ask === 'move') {
      const at = this.#waiting.findIndex(({ ask }) => ask !== 'read' && ask !== 'text');
      this.#waiting.splice(at < 0 ? this.#waiting.length : at, 0, question);
    } else this.#waiting.push(question);
    if (this.#busy === 0) this.#next();
  }

  #next(): void {
    const question = this.#waiting.shift();
    this.#busy = 0;
    if (question === undefined) return;
    this.#id++;
    this.#worker.postMessage({ ...question, id: this.#id });
    // What is only read is not answered, unless it cannot be.
    if (question.ask === 'read') this.#next();
    else this.#busy = this.#id;
  }
}

const isEdit = (question: Question): boolean => question.ask === 'move' && question.keep;
