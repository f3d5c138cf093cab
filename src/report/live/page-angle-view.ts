import { withUnit } from '../words/numbers.js';

import { el, reducedMotion } from './dom.js';
import type { Dummy } from './dummy.js';
import type { Signal } from './signal.js';
import type { Study } from './study.js';

/** Degrees a second when played. */
const SPEED = 50;
/** For those who want little motion: a still every so often. */
const STILL_STEP = 15;
const STILL_EVERY = 900;

/** Opens and shuts the page: a slider with its catches marked on it, and a play button. */
export function pageAngleView(
  study: Pick<Study, 'pageAngle'>,
  dummy: Pick<Dummy, 'card'>,
  scored: Signal<number>,
): HTMLElement {
  const slider = el('input', {
    type: 'range',
    min: 0,
    max: 180,
    step: 0.5,
    'aria-label': 'Page angle, degrees',
    input: () => {
      player.stop();
      study.pageAngle.value = Number(slider.value);
    },
  });
  const output = el('output', { class: 'angle' });
  const marks = el('div', { class: 'marks', 'aria-hidden': 'true' });
  const jumps = el('div', { class: 'buttons' });
  const play = el('button', { type: 'button', class: 'play', 'aria-pressed': 'false' }, 'Play');
  const player = new Player(study, (playing) => {
    play.textContent = playing ? 'Stop' : 'Play';
    play.setAttribute('aria-pressed', String(playing));
  });
  play.addEventListener('click', () => player.toggle());

  study.pageAngle.watch((pageAngle) => {
    slider.value = String(pageAngle);
    output.textContent = withUnit(pageAngle, 'degrees');
    slider.setAttribute(
      'aria-valuetext',
      `${withUnit(pageAngle, 'degrees')}${pageAngle === 0 ? ', shut' : ''}`,
    );
  });
  scored.watch(() => {
    const found = placesToLook(dummy);
    marks.replaceChildren(
      ...found.map(({ pageAngle, kind }) => {
        const mark = el('span', { class: kind });
        mark.style.left = `${(100 * pageAngle) / 180}%`;
        return mark;
      }),
    );
    jumps.replaceChildren(
      ...found.map(({ pageAngle, words }) =>
        el(
          'button',
          {
            type: 'button',
            click: () => {
              player.stop();
              study.pageAngle.value = pageAngle;
            },
          },
          `${words} (${withUnit(pageAngle, 'degrees')})`,
        ),
      ),
    );
  });
  return el(
    'div',
    { class: 'page-angle' },
    play,
    el('div', { class: 'track' }, slider, marks),
    output,
    jumps,
  );
}

interface PlaceToLook {
  readonly pageAngle: number;
  readonly kind: 'first' | 'deepest' | 'lock';
  readonly words: string;
}

function placesToLook({ card: { clash, locks } }: Pick<Dummy, 'card'>): PlaceToLook[] {
  const places: PlaceToLook[] = [];
  if (clash.firstPageAngle !== null)
    places.push({ pageAngle: clash.firstPageAngle, kind: 'first', words: 'Go to the first catch' });
  if (clash.pageAngle !== null && clash.firstPageAngle !== null)
    places.push({ pageAngle: clash.pageAngle, kind: 'deepest', words: 'To the deepest' });
  if (locks !== null) places.push({ pageAngle: locks.pageAngle, kind: 'lock', words: 'To where it locks' });
  return places;
}

/** Moves the page to and fro. */
class Player {
  readonly #study: Pick<Study, 'pageAngle'>;
  readonly #told: (playing: boolean) => void;
  #way = -1;
  #last = 0;
  #handle = 0;

  constructor(study: Pick<Study, 'pageAngle'>, told: (playing: boolean) => void) {
    this.#study = study;
    this.#told = told;
  }

  toggle(): void {
    if (this.#handle !== 0) this.stop();
    else {
      this.#told(true);
      this.#last = performance.now();
      this.#handle = requestAnimationFrame((now) => this.#frame(now));
    }
  }

  stop(): void {
    cancelAnimationFrame(this.#handle);
    this.#handle = 0;
    this.#told(false);
  }

  #frame(now: number): void {
    const passed = Math.max(0, now - this.#last);
    const still = reducedMotion();
    if (!still || passed >= STILL_EVERY) {
      this.#last = now;
      const moved = still ? STILL_STEP : (SPEED * Math.min(passed, 100)) / 1000;
      const next = this.#study.pageAngle.value + this.#way * moved;
      if (next <= 0 || next >= 180) this.#way = next <= 0 ? 1 : -1;
      this.#study.pageAngle.value = Math.min(180, Math.max(0, next));
    }
    this.#handle = requestAnimationFrame((then) => this.#frame(then));
  }
}
