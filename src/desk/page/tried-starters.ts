import { addPart, freeName, type NewPart } from '../../edit/add-part.js';
import { EditFault } from '../../edit/edit-fault.js';
import { compileFigure, type Figure } from '../../figure/figure.js';
import { InputError } from '../../figure/text/input-error.js';
import type { FigureSource } from '../../figure/text/source.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import type { Scorecard } from '../../score/scorecard.js';
import { Scorer } from '../../score/scorer.js';
import { Motion } from '../../view/motion.js';
import { pictureOf } from '../../view/picture.js';
import type { Place } from './place.js';
import { placesToTry, type Starter, type Trial, trialsOn } from './starters.js';

/** Shares of the room that is there, at which a part is tried: the first that does no harm is taken. */
const SHARES = [1, 0.7, 0.45];

/**
 * The parts that can stand somewhere, each where it is pointed to and as large as it fits and works, with a picture.
 * @param read makes a figure of a text
 */
export function startersOn(
  place: Place,
  source: FigureSource,
  figure: Figure,
  read: (text: string) => FigureSource,
): Starter[] {
  const before = new Scorer(figure).score(figure.start);
  const assembly = figure.build(figure.start);
  const kinds = trialsOn(place, assembly, 1).map(({ title }) => title);
  return kinds.flatMap((title) => {
    let best: Starter | null = null;
    for (const share of SHARES)
      for (const where of placesToTry(place, assembly)) {
        const trial = trialsOn(where, assembly, share).find((each) => each.title === title);
        const starter = trial === undefined ? null : started(source, read, trial, before);
        if (starter?.trouble === '') return [starter];
        best ??= starter;
      }
    return best === null ? [] : [best];
  });
}

/** The page angle of the little pictures, degrees. */
const PICTURED = 110;

/** A part as it would stand there; null where no figure comes of it. */
function started(
  source: FigureSource,
  read: (text: string) => FigureSource,
  { kind, title, fields }: Trial,
  before: Scorecard,
): Starter | null {
  const part: NewPart = { name: freeName(source, title.toLowerCase()), kind, ...fields };
  try {
    const figure = compileFigure(read(addPart(source, part)));
    const card = new Scorer(figure).score(figure.start);
    const motion = new Motion(figure, figure.start);
    const { assembly } = motion;
    const pieces = [...new Set(assembly.panels.map(({ piece }) => piece))];
    const picture = pictureOf(assembly, motion.at(PICTURED));
    return {
      kind,
      title,
      part,
      trouble: troubleOf(card, before),
      picture: {
        box: picture.roomOf((panel) => assembly.panels[panel].part === part.name),
        paths: picture.panels.map(({ panel, d }) => ({
          d,
          tone:
            assembly.panels[panel].part === part.name
              ? 'new'
              : Math.min(4, pieces.indexOf(assembly.panels[panel].piece)),
        })),
      },
    };
  } catch (error) {
    if (error instanceof CannotBuild || error instanceof InputError || error instanceof EditFault)
      return null;
    throw error;
  }
}

/** What of a figure that was sound does not hold any more; empty for nothing. */
function troubleOf(card: Scorecard, before: Scorecard): string {
  if (card.locks !== null && before.locks === null) return 'does not shut here';
  if ((card.clash.deepest ?? 0) > (before.clash.deepest ?? 0) + 0.01) return 'catches here';
  const held = new Set(before.limits.filter(({ met }) => met).map(({ name }) => name));
  // A limit that is new with the part, as of glue where there was none, held before.
  const known = new Set(before.limits.map(({ name }) => name));
  const broken = card.limits.find(
    ({ name, met, value }) => !met && value !== null && (held.has(name) || !known.has(name)),
  );
  return broken === undefined ? '' : `breaks a limit: ${broken.name}`;
}
