import { compileFigure, type Figure } from '../../figure/figure.js';
import { OUTCOMES } from '../../study/row.js';
import { type Column, columnsOf } from './columns.js';
import type { Candidates, Embedded, PageArt } from './data.js';
import { type Filters, NO_FILTERS, passing } from './filters.js';
import { unpacked } from './packed.js';
import { Signal } from './signal.js';

/** The study as the page holds it, and what its reader has picked: all parts of the page read and watch this. */
export class Study {
  readonly figure: Figure;
  readonly candidates: Candidates;
  readonly columns: readonly Column[];
  readonly limits: Embedded['limits'];
  readonly stages: readonly string[];
  readonly scored: number;
  readonly art: PageArt;
  /** Its place among the candidates of the page. */
  readonly chosen = new Signal(0);
  readonly beside = new Signal<number | null>(null);
  readonly filters: Signal<Filters>;
  /** The candidates that pass the filters, best first. */
  readonly shown: Signal<readonly number[]>;
  /** The dims of the chosen candidate, as they may have been changed. */
  readonly vector: Signal<Float64Array>;
  readonly pageAngle = new Signal(120);

  constructor(embedded: Embedded) {
    this.figure = compileFigure(embedded.figure);
    this.candidates = unpacked(embedded.candidates);
    this.columns = columnsOf(this.figure, embedded, this.candidates);
    this.limits = embedded.limits;
    this.stages = embedded.stages;
    this.scored = embedded.scored;
    this.art = embedded.art;
    // Where there is a choice of dummies that work, the others only stand in the way.
    const working = this.candidates.outcome.reduce(
      (sum, outcome) => sum + Number(OUTCOMES[outcome] === 'works'),
      0,
    );
    this.filters = new Signal<Filters>({ ...NO_FILTERS, worksOnly: working > 1 });
    this.shown = new Signal<readonly number[]>([]);
    this.vector = new Signal(this.vectorOf(0));
    this.filters.watch((filters) => {
      this.shown.value = passing(this.candidates, this.columns, filters);
    });
    this.chosen.watch((place) => {
      this.vector.value = this.vectorOf(place);
    });
  }

  /** The dims of a candidate, a copy. */
  vectorOf(place: number): Float64Array {
    const width = this.figure.free.length;
    return this.candidates.vectors.slice(place * width, (place + 1) * width);
  }

  /** Whether the chosen candidate's dims have been changed. */
  get changed(): boolean {
    const original = this.vectorOf(this.chosen.value);
    return this.vector.value.some((value, dim) => value !== original[dim]);
  }

  /** What a candidate is called. */
  nameOf(place: number): string {
    return `dummy ${this.candidates.number[place]}`;
  }

  /** What a candidate does not meet, by name; empty when it works or was not built. */
  missedBy(place: number): string[] {
    const names = [...this.figure.wants, ...this.limits].map(({ name }) => name);
    return names.filter((_, i) => this.candidates.met[place * names.length + i] === 0);
  }
}
