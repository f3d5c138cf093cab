import { counted } from '../text/phrases.js';
import type { Likeness } from './likeness.js';
import { whyUnlike } from './likeness.js';
import type { LenderMessage } from './messages.js';

/** Who lends to a study, and what each has done for it. */
export class Lenders {
  readonly #own: Likeness;
  /** Those that are there, unlike ones left out. */
  #there = new Map<string, LenderMessage>();
  readonly #refused = new Map<string, string>();
  readonly #scored = new Map<string, number>();

  constructor(own: Likeness) {
    this.#own = own;
  }

  /** Takes note of who is there. @returns what there is to tell, a line each */
  see(lenders: ReadonlyMap<string, LenderMessage>): string[] {
    const refused: string[] = [];
    const there = new Map<string, LenderMessage>();
    for (const [id, lender] of lenders) {
      const why = whyUnlike(lender.likeness, this.#own);
      if (why === null) {
        if (!this.#refused.has(id)) there.set(id, lender);
      } else if (this.refuse(id, why)) refused.push(`${id} is refused: ${why}.`);
    }
    const lines = first(refused, 'are refused');
    const before = this.#inWords(this.#there);
    this.#there = there;
    const now = this.#inWords(there);
    if (now !== before) lines.push(there.size === 0 ? 'Nobody lends any more: waiting.' : now);
    return lines;
  }

  /** Takes nothing more from a lender. @returns false where that was so already */
  refuse(id: string, why: string): boolean {
    if (this.#refused.has(id)) return false;
    // So many are no lenders, but names that someone makes up.
    if (this.#refused.size >= MOST_REFUSED) return false;
    this.#refused.set(id, why);
    this.#there.delete(id);
    return true;
  }

  isRefused(id: string): boolean {
    return this.#refused.has(id);
  }

  /** Whether anything was taken from it before. */
  isKnown(id: string): boolean {
    return this.#scored.has(id);
  }

  count(id: string, candidates: number): void {
    this.#scored.set(id, (this.#scored.get(id) ?? 0) + candidates);
  }

  /** How many workers are lent now. */
  get workers(): number {
    return [...this.#there.values()].reduce((sum, { workers }) => sum + workers, 0);
  }

  /** Who has scored how many. */
  get account(): string {
    const each = [...this.#scored].map(([id, count]) => `${id} ${count.toLocaleString('en')}`);
    return each.length === 0 ? '' : `Scored by ${listed(each)}.`;
  }

  #inWords(there: ReadonlyMap<string, LenderMessage>): string {
    if (there.size === 0) return '';
    const sum = [...there.values()].reduce((total, { workers }) => total + workers, 0);
    const each = [...there.values()].map(({ id, workers }) => `${id} ${workers}`);
    return `Lent: ${counted(sum, 'worker')} (${listed(each)}).`;
  }
}

/** More names than this tell a reader nothing. */
const MOST_NAMES = 20;
const MOST_REFUSED = 1000;

/** The first of some lines, and how many more there are. */
export function first(lines: readonly string[], what: string): string[] {
  const more = lines.length - MOST_NAMES;
  return more > 0
    ? [...lines.slice(0, MOST_NAMES), `And ${more.toLocaleString('en')} more ${what}.`]
    : [...lines];
}

function listed(names: readonly string[]): string {
  const more = names.length - MOST_NAMES;
  return names.slice(0, MOST_NAMES).join(', ') + (more > 0 ? ` and ${more} more` : '');
}
