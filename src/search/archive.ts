import type { Scored } from './evaluator.js';
import { noWorse, violationOf } from './pareto.js';
import { thinned } from './survival.js';

/** A point of the unit cube with its real score. */
export interface Candidate {
  unit: Float64Array;
  scored: Scored;
}

/**
 * The best found so far: candidates that break no limit, have every objective, and that no other equals or beats
 * throughout. Past `most` members it is thinned to half as many, those that stand apart; the study's own record keeps all.
 */
export class Archive {
  #members: Candidate[] = [];
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  get members(): readonly Candidate[] {
    return this.#members;
  }

  add(candidate: Candidate): void {
    const { objectives } = candidate.scored;
    if (violationOf(candidate.scored) > 0 || !objectives.every((o) => Number.isFinite(o))) return;
    if (this.#members.some((m) => noWorse(m.scored.objectives, objectives))) return;
    this.#members = this.#members.filter((m) => !noWorse(objectives, m.scored.objectives));
    this.#members.push(candidate);
    if (this.#members.length <= this.#most) return;
    const scored = this.#members.map((m) => m.scored);
    const all = scored.map((_, i) => i);
    this.#members = thinned(scored, all, this.#most >> 1).map((i) => this.#members[i]);
  }
}
