import { compileFigure } from '../../figure/figure.js';
import { patterns } from '../../figure/patterns/index.js';
import { parseFigure } from '../../figure/text/source.js';
import { el } from '../../report/live/dom.js';
import { drawing } from '../../report/live/drawing.js';
import { Motion } from '../../view/motion.js';
import type { Model } from './model.js';

/** The page angle of the pictures, degrees. */
const PICTURED = 110;

/** What to begin with, where there is no figure file yet: the patterns, each with a picture. */
export function startView(model: Model): HTMLElement {
  const wasHere = model.file.value?.canUndo === true;
  return el(
    'main',
    { class: 'start' },
    el('h1', {}, wasHere ? 'The file is gone' : 'A new figure'),
    ...(wasHere
      ? [
          el(
            'p',
            {},
            el(
              'button',
              { type: 'button', click: () => model.ask({ do: 'undo' }) },
              'Bring back the figure that was here',
            ),
          ),
        ]
      : []),
    el(
      'p',
      {},
      `${wasHere ? 'Or begin anew.' : `There is nothing in ${model.file.value?.file ?? 'the file'} yet.`} Each of these works at once; begin with the one that is nearest to what you have in mind.`,
    ),
    el(
      'div',
      { class: 'patterns' },
      ...patterns.map(({ name, about, text }) => {
        const figure = compileFigure(parseFigure(text, name));
        const motion = new Motion(figure, figure.start);
        return el(
          'button',
          { type: 'button', class: 'pattern', click: () => model.ask({ do: 'begin', pattern: name }) },
          drawing(motion.assembly, motion.at(PICTURED), `${name}: ${about}`, 'close'),
          el('strong', {}, name.replaceAll('-', ' ')),
          el('span', {}, about),
        );
      }),
    ),
  );
}
