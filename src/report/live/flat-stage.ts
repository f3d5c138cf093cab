import { el, oncePerFrame } from './dom.js';
import { drawing } from './drawing.js';
import type { OnShow, Viewer } from './viewer.js';

/** The moving figure as a flat drawing from one side: where the browser can't draw in space. */
export class FlatStage implements Viewer {
  readonly element = el('div', { class: 'stage flat' });
  #onShow: readonly OnShow[] = [];
  #pageAngle = 180;
  readonly #redraw = oncePerFrame(() => this.#draw());

  show(figures: readonly OnShow[]): void {
    this.#onShow = figures;
    this.#redraw();
  }

  judge(figures: readonly OnShow[]): void {
    this.#onShow = figures;
  }

  turnTo(pageAngle: number): void {
    this.#pageAngle = pageAngle;
    this.#redraw();
  }

  look(): void {}

  resetView(): void {}

  nearer(): void {}

  #draw(): void {
    const drawings = this.#onShow.map(({ dummy: { motion }, name }) =>
      motion === null
        ? el('p', {}, `${name} cannot be built`)
        : drawing(
            motion.assembly,
            motion.at(this.#pageAngle),
            `${name} at a page angle of ${this.#pageAngle}°`,
            'whole',
          ),
    );
    const why = el(
      'p',
      { class: 'quiet' },
      "This browser can't draw in space (WebGL 2): the figure is drawn flat.",
    );
    this.element.replaceChildren(...drawings, why);
  }
}
