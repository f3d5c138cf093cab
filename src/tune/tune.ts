import { compileFigure, type Figure } from '../figure/figure.js';
import { InputError, quoted } from '../figure/text/input-error.js';
import { knownNames } from '../figure/text/near.js';
import { type FigureSource, parseFigure } from '../figure/text/source.js';
import type { Want } from '../figure/wants.js';
import { holds } from '../geometry/polygon.js';
import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { findCatches, type NamedCatch } from '../score/catches.js';
import type { Scorecard } from '../score/scorecard.js';
import { Scorer } from '../score/scorer.js';
import { pointsOf } from '../score/trims/referred.js';
import type { TrimOffer } from '../score/trims/trims.js';
import { Layout } from '../study/row.js';
import type { ScoreRows } from '../study/score-log.js';
import { apply, type Cost, cheaper, type Done } from './change.js';
import { diagnose, type Trouble } from './diagnosis.js';
import { madeWithoutGlue } from './finished-dummy.js';
import {
  type ByHand,
  cutHere,
  cutRemedyByHand,
  fartherChanges,
  isSettled,
  worthGoingTo,
} from './hand-room.js';
import { type CardLoss, cardLosses, type WantLoss, wantLosses } from './losses.js';
import { movesOf, oddness } from './moves.js';
import { allTies, type NamedTie, namedTie } from './named-ties.js';
import { nearestBuilt } from './near-built.js';
import { type OpenedFigure, openFigure, settingValue } from './opened.js';
import { dependents, partOf } from './part-names.js';
import { relating } from './relating.js';
import { concernsOf } from './relevance.js';
import { findRemedies } from './search.js';
import type { Setting } from './settings.js';
import { type Stiffener, stiffenRemedies } from './stiffeners.js';
import type { Attempt } from './track.js';
import type { Trials } from './trials.js';
import { trimRemedies } from './trim-remedies.js';
import { withValues } from './with-values.js';

export interface TuneOptions {
  /** Names of settings, of parts, or of fields of parts, that must stay as they are. */
  readonly hold: readonly string[];
  /** What it costs to change them; 1 where nothing is said. */
  readonly prices: ReadonlyMap<string, number>;
  /** Only what can be done to a finished dummy. */
  readonly keepGlued: boolean;
  /** How much of a panel a remedy may take, per cent, unless there is no other; `MOST_CUT` if not given. */
  readonly mostCut?: number;
}

/** A setting with its value before and after. */
export interface Change {
  readonly setting: Setting;
  readonly from: number | string;
  readonly to: number | string;
}

/** A way to free the figure, proved by a full score. */
export interface Remedy {
  readonly changes: readonly Change[];
  /** Card cut away. */
  readonly cuts: readonly TrimOffer[];
  /** Card glued on; null where none is. */
  readonly stiffener: Stiffener | null;
  /** Wants that come out worse, and panels that get much smaller. */
  readonly wantLosses: readonly WantLoss[];
  readonly cardLosses: readonly CardLoss[];
  /** Which of the changes were made together, and why. */
  readonly ties: readonly NamedTie[];
  readonly cost: Cost;
  readonly card: Scorecard;
  /** The figure file with the changes made. */
  readonly text: string;
  /** The moves of which the changes come. */
  readonly done: readonly Done[];
  /** What comes of it cut by hand; null where that was not tried. */
  readonly byHand: ByHand | null;
  /** The least of it that works as drawn, where it goes farther than that for the hand; null where it does not. */
  readonly least: { readonly changes: readonly Change[]; readonly byHand: ByHand } | null;
}

export interface Tuned {
  readonly card: Scorecard;
  readonly troubles: readonly Trouble[];
  /** Best first; none for a figure that works. */
  readonly remedies: readonly Remedy[];
  /** Where there is no remedy: the changes that came nearest, and how they score. */
  readonly nearest: {
    readonly changes: readonly Change[];
    readonly card: Scorecard;
    /** All that still catches, as the page closes. */
    readonly catches: readonly NamedCatch[];
  };
  /** How many points of outlines and the like were not looked at, being too many. */
  readonly leftOut: number;
  /** All that was taken as tied. */
  readonly ties: readonly NamedTie[];
  readonly tried: number;
  /** False when the budget ran out before everything was tried, or the maker stopped it. */
  readonly finished: boolean;
}

export type OnNearer = (changes: readonly Change[], gone: number) => void;

/** So many remedies are cut by hand: a maker begins with the first. */
const MOST_CUT = 4;
const NOT_CUT = { done: [], byHand: null, least: null } as const;

/** A figure made ready to be tuned. */
export class Tuning {
  readonly #source: FigureSource;
  readonly #figure: Figure;
  readonly #options: TuneOptions;
  readonly opened: OpenedFigure;
  readonly layout: Layout;
  readonly card: Scorecard;
  readonly troubles: readonly Trouble[];
  readonly #scorer: Scorer;
  /** The figure, or where it cannot be built what is nearest to it and can. */
  readonly #near: Float64Array;
  readonly #isAllowed: (vector: Float64Array) => boolean;

  /** @throws InputError for a name that is held or priced and that nothing bears */
  constructor(source: FigureSource, figure: Figure, options: TuneOptions) {
    this.#source = source;
    this.#figure = figure;
    this.#options = options;
    this.opened = openFigure(source, figure);
    this.#scorer = new Scorer(this.opened.figure);
    this.card = this.#scorer.score(this.opened.now);
    this.layout = new Layout(this.card);
    const parts = this.opened.fieldsOf(this.opened.now);
    this.#near = nearestBuilt(this.opened, (setting) => this.#isHeld(setting));
    this.#isAllowed = this.#allowed();
    this.troubles = diagnose(this.opened.figure.wants, this.card, parts);
    for (const name of options.hold) this.#mustBeKnown(name, '--hold');
    for (const name of options.prices.keys()) this.#mustBeKnown(name, '--price');
  }

  /**
   * Finds remedies. Throws OutOfBudget when not even the figure itself could be scored.
   * @param onNearer told of changes that come nearer than any before, and what share of what was wrong they take away
   */
  async run(trials: Trials, onNearer?: OnNearer): Promise<Tuned> {
    const { opened, layout, card, troubles } = this;
    const { settings } = opened;
    const relations = relating(opened, this.#near);
    const { touches } = relations;
    const panels = this.#panelsOfWants();
    const follow = dependents(opened.fieldsOf(this.#near));
    const reached = touches.map(
      (touched) => new Set([...touched].flatMap((part) => [...(follow.get(part) ?? [part])])),
    );
    const moves = movesOf(opened, (setting) => this.#isHeld(setting), relations);
    const found = await findRemedies(
      {
        opened,
        layout,
        goals: this.#figure.wants,
        moves,
        tariff: {
          priceOf: (setting) => this.#priceOf(settings[setting].name),
          oddIn: oddness(settings),
          partsOf: (setting) => reached[setting],
        },
        allowed: this.#isAllowed,
        losesCard: this.#losesCard(),
        touches,
        concerns: (vector) => concernsOf(this.#scorer.score(vector), opened.fieldsOf(vector), panels),
        onNearer: (attempt, gone) => onNearer?.(this.#changes(attempt), gone),
      },
      trials,
    );
    const { nearest, finished } = found;
    return {
      card,
      troubles,
      leftOut: opened.leftOut,
      ties: allTies(this.opened, moves),
      remedies: card.works ? [] : this.#sorted(found.remedies),
      nearest: this.#nearest(nearest),
      tried: trials.tried,
      finished,
    };
  }

  #nearest(attempt: Attempt): Tuned['nearest'] {
    const card = this.#scorer.score(attempt.vector);
    const catches = card.clash.between === null ? [] : findCatches(this.opened.figure, attempt.vector);
    return { changes: this.#changes(attempt), card, catches };
  }

  /** Dims changed, card cut away and card glued on, best first. */
  #sorted(attempts: readonly Attempt[]): Remedy[] {
    const parts = this.opened.fieldsOf(this.opened.now).map(({ name }) => name);
    const partOfPanel = (panel: string) => partOf(panel, parts) ?? panel;
    return [
      ...attempts.map((attempt) => this.#remedy(attempt)),
      ...this.#trimmed(partOfPanel),
      ...this.#stiffened(partOfPanel),
    ].sort((a, b) => cheaper(a.cost, b.cost));
  }

  /** @param partOfPanel the part whose panel it is, by their names */
  #trimmed(partOfPanel: (panel: string) => string): Remedy[] {
    const { mostCut } = this.#options;
    const mayTouch = (panel: string) => this.#mayTouch(partOfPanel(panel));
    return trimRemedies(this.#source, this.#figure, this.card, mayTouch, mostCut).map((trimmed) => {
      const prices = trimmed.cuts.map(({ panel }) => this.#priceOf(partOfPanel(panel)));
      return {
        ...trimmed,
        ...this.#ofCard(trimmed.card),
        stiffener: null,
        cost: {
          price: prices.reduce((sum, price) => sum + price, 0),
          // A cut is as large as the side of a square of that area.
          amount: trimmed.cuts.reduce((sum, { area }, i) => sum + prices[i] * Math.sqrt(area), 0),
          odd: 0,
          reach: new Set(trimmed.cuts.map(({ panel }) => partOfPanel(panel))).size,
        },
      };
    });
  }

  #stiffened(partOfPanel: (panel: string) => string): Remedy[] {
    const mayTouch = (panel: string) => this.#mayTouch(partOfPanel(panel));
    return stiffenRemedies(this.#source, this.#figure, this.card, mayTouch).map((remedy) => {
      const { on, size } = remedy.stiffener;
      const price = this.#priceOf(partOfPanel(on));
      return {
        ...remedy,
        ...this.#ofCard(remedy.card),
        cuts: [],
        // It costs as much as a cut of its area: one piece to be cut and glued.
        cost: { price, amount: price * Math.sqrt(size[0] * size[1]), odd: 0, reach: 1 },
      };
    });
  }

  /** What is alike in remedies that change no dim. What cuts take of the card is told with them. */
  #ofCard(card: Scorecard) {
    return {
      ...NOT_CUT,
      changes: [],
      wantLosses: wantLosses(this.#figure.wants, this.card, card),
      cardLosses: [],
      ties: [],
    };
  }

  #mayTouch(part: string): boolean {
    return !this.#options.hold.some((held) => isUnder(part, held));
  }

  /**
   * The first remedies as they come out cut by hand: taken farther where more of their dummies are then worth more, as far as that
   * costs no more than they do, and stays among what may be tried.
   * @param score scores dummies of the opened figure: the dims of each, then its errors
   */
  async withRoomForHand(tuned: Tuned, score: ScoreRows, stop: AbortSignal): Promise<Tuned> {
    const remedies: Remedy[] = [];
    for (const remedy of tuned.remedies)
      remedies.push(remedies.length < MOST_CUT ? await this.#roomier(remedy, score, stop) : remedy);
    return { ...tuned, remedies };
  }

  async #roomier(remedy: Remedy, score: ScoreRows, stop: AbortSignal): Promise<Remedy> {
    const { figure, settings } = this.opened;
    if (remedy.done.length === 0) {
      const changed = compileFigure(parseFigure(remedy.text, this.#source.file));
      const { start } = changed;
      const layout = new Layout(remedy.card);
      return {
        ...remedy,
        byHand: await cutRemedyByHand(changed, start, layout, cutHere(changed, layout, stop)),
      };
    }
    const cut = (done: readonly Done[]) => {
      const vector = apply(this.opened, done);
      return vector && cutRemedyByHand(figure, vector, this.layout, score);
    };
    const least = await cut(remedy.done);
    if (least === null) return remedy;
    const forms = [{ ...remedy, byHand: least }];
    for (const done of fartherChanges(settings, remedy.done)) {
      if (isSettled(forms.map(({ byHand }) => byHand))) break;
      const farther = this.#farther(remedy, done);
      const byHand = farther && (await cut(done));
      if (farther === null || byHand === null) break;
      forms.push({ ...farther, byHand });
    }
    const place = worthGoingTo(forms.map(({ byHand }) => byHand));
    return place === 0 ? forms[0] : { ...forms[place], least: { changes: remedy.changes, byHand: least } };
  }

  /** A remedy whose changes go farther; null where it works no more, may not be tried, or costs what it did not. */
  #farther(remedy: Remedy, done: readonly Done[]): Remedy | null {
    const vector = apply(this.opened, done);
    if (vector === null || !this.#isAllowed(vector)) return null;
    const farther = this.#remedy({ vector, done, cost: remedy.cost });
    const costs = ({ wantLosses, cardLosses }: Remedy) => wantLosses.length + cardLosses.length;
    return farther.card.works && costs(farther) <= costs(remedy) ? farther : null;
  }

  #remedy(attempt: Pick<Attempt, 'vector' | 'done' | 'cost'>): Remedy {
    const changes = this.#changes(attempt);
    const card = this.#scorer.score(attempt.vector);
    const [before, after] = [this.#near, attempt.vector].map((vector) => this.#built(vector));
    return {
      ...NOT_CUT,
      done: attempt.done,
      changes,
      cuts: [],
      stiffener: null,
      wantLosses: wantLosses(this.#figure.wants, this.card, card),
      cardLosses: before === null || after === null ? [] : cardLosses(before, after),
      ties: attempt.done.flatMap(({ move }) => move.ties.map((tie) => namedTie(this.opened, tie))),
      cost: attempt.cost,
      card,
      text: withValues(
        this.#source,
        changes.map(({ setting, to }) => ({ setting, value: to })),
      ),
    };
  }

  #changes({ vector, done }: { vector: Float64Array; done: readonly Done[] }): Change[] {
    const changed = new Set(done.flatMap(({ move }) => move.steps.map(({ setting }) => setting)));
    return [...changed].map((i) => {
      const setting = this.opened.settings[i];
      return { setting, from: setting.now, to: settingValue(setting, vector[i]) };
    });
  }

  #isHeld(setting: number): boolean {
    const { name } = this.opened.settings[setting];
    return this.#options.hold.some((held) => isUnder(name, held));
  }

  /** Of several prices that apply, the one of the longest name: a field's before its part's. */
  #priceOf(name: string): number {
    const given = [...this.#options.prices.keys()].filter((priced) => isUnder(name, priced));
    const nearest = given.sort((a, b) => b.length - a.length)[0];
    return this.#options.prices.get(nearest) ?? 1;
  }

  #mustBeKnown(name: string, option: string): void {
    const names = this.opened.settings.map((setting) => setting.name);
    if (names.some((known) => isUnder(known, name))) return;
    throw new InputError({ file: option, found: quoted(name), remedy: knownNames(name, names, 'dim') });
  }

  /**
   * Which candidates may be tried: those that keep the card at which the points of wants were measured, and if asked only
   * those that a finished dummy can be made into.
   */
  #allowed(): (vector: Float64Array) => boolean {
    const before = this.#built(this.#near);
    if (before === null) return () => true;
    // What can't be built was never glued.
    const keepGlued = this.#options.keepGlued && this.#near === this.opened.now;
    const onCard = this.#wantsOnCard(before, this.#near);
    if (!keepGlued && onCard.size === 0) return () => true;
    return (vector) => {
      const after = this.#built(vector);
      // What can't be built works as little as it did; the search goes on from there.
      if (after === null) return !keepGlued;
      if (keepGlued && !madeWithoutGlue(before, after)) return false;
      if (onCard.size === 0) return true;
      const still = this.#wantsOnCard(after, vector);
      return [...onCard].every((want) => still.has(want));
    };
  }

  /** Whether a candidate has less card in some panel than the figure, by more than may be taken. */
  #losesCard(): (vector: Float64Array) => boolean {
    const before = this.#built(this.#near);
    return (vector) => {
      const after = this.#built(vector);
      return before !== null && after !== null && cardLosses(before, after, this.#options.mostCut).length > 0;
    };
  }

  /** The figure as a candidate has it; null where it can't be built. */
  #built(vector: Float64Array): Assembly | null {
    try {
      return this.opened.figure.build(vector);
    } catch (error) {
      if (error instanceof CannotBuild) return null;
      throw error;
    }
  }

  /** Wants whose point lies on card. */
  #wantsOnCard({ panels }: Assembly, vector: Float64Array): Set<string> {
    let wants: readonly Want[];
    try {
      wants = this.opened.figure.wantsOf(vector);
    } catch (error) {
      // A point that has no place lies on no card.
      if (error instanceof CannotBuild) return new Set();
      throw error;
    }
    return new Set(
      panels.flatMap((panel) =>
        pointsOf(wants, panel).flatMap(({ want, at: [x, y] }) => (holds(panel, x, y) ? [want] : [])),
      ),
    );
  }

  #panelsOfWants(): Map<string, string[]> {
    try {
      return new Map(
        this.opened.figure.wantsOf(this.#near).map((want) => {
          const looked = 'panels' in want ? want.panels : 'panel' in want ? [want.panel] : [];
          const reference = 'reference' in want ? want.reference : undefined;
          return [want.name, reference === undefined ? [...looked] : [...looked, reference]];
        }),
      );
    } catch (error) {
      if (error instanceof CannotBuild) return new Map();
      throw error;
    }
  }
}

/** Whether a setting is the one named, or belongs to it: 'man.glue.0' to 'man.glue', and to 'man'. */
const isUnder = (name: string, given: string): boolean => name === given || name.startsWith(`${given}.`);
