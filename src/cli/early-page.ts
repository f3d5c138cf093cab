import type { StudyInsight } from '../insight/study-insight.js';
import type { Studied } from '../report/report-of.js';
import { writePage } from '../report/write-results.js';
import type { BegunStudy } from '../study/explore.js';
import type { Layout } from '../study/row.js';
import type { StudyTable } from '../study/table.js';

/** When the first page is written, s. */
const FIRST = 5;
/** To write pages takes no more than one part in so many of the time. */
const SHARE = 20;

/**
 * The report while its study goes on: written a few seconds after the start, then each time the study has gone on for as
 * long again, once all is scored, and once it is known how robust the best are. A study that is over before has none.
 * The threads wait meanwhile, so that it is not written more often.
 */
export class EarlyPage {
  readonly #study: BegunStudy;
  readonly #onFirst: () => void;
  readonly #started = performance.now();
  #next: number;
  #written = false;

  /**
   * @param onFirst told when there is a page to look at
   * @param first when that is written, s after now
   */
  constructor(study: BegunStudy, onFirst: () => void, first = FIRST) {
    this.#study = study;
    this.#onFirst = onFirst;
    this.#next = first;
  }

  /** Some are scored. */
  scoring(table: StudyTable, layout: Layout): void {
    if (this.#seconds >= this.#next) this.#write({ table, layout, underWay: 'scoring' });
  }

  /** All are scored; and, after that, the best are cut by hand. */
  measuring(table: StudyTable, layout: Layout, robust: StudyInsight['robust'] = []): void {
    if (this.#written || this.#seconds >= this.#next)
      this.#write({ table, layout, underWay: 'measuring', robust });
  }

  get #seconds(): number {
    return (performance.now() - this.#started) / 1000;
  }

  #write(known: Pick<Studied, 'table' | 'layout' | 'underWay' | 'robust'>): void {
    const { folder, source, figure, settings } = this.#study;
    const began = this.#seconds;
    let written = true;
    try {
      writePage(folder, { source, figure, settings, ...known, timings: null, finished: false });
    } catch (error) {
      // Where there is no room for a page, what is scored may still be kept: only that ends a study.
      if (!(error instanceof Error && 'code' in error)) throw error;
      written = false;
    }
    const now = this.#seconds;
    this.#next = Math.max(2 * now, now + SHARE * (now - began));
    if (written && !this.#written) this.#onFirst();
    this.#written ||= written;
  }
}
