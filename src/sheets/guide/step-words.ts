import type { Piece } from '../layout/piece.js';
import type { Bond, Spot } from '../nets/bonds.js';
import type { Step } from './steps.js';

/** A step as a maker reads it. */
export interface StepInWords {
  readonly title: string;
  readonly lines: readonly string[];
}

/**
 * What a step says, with the letters of its glue: first where it is done.
 * @param panelName the name of a panel of the figure
 */
export function stepInWords(
  step: Step,
  letterOf: ReadonlyMap<Bond, string>,
  pieces: readonly Piece[],
  panelName: (panel: number) => string,
): StepInWords {
  const { title, lines } = withoutPlace(step, letterOf, pieces, panelName);
  return { title, lines: [step.where === 'mat' ? 'On the mat.' : 'In the book.', ...lines] };
}

function withoutPlace(
  step: Step,
  letterOf: ReadonlyMap<Bond, string>,
  pieces: readonly Piece[],
  panelName: (panel: number) => string,
): StepInWords {
  const named = (net: Step['nets'][number]) => {
    const piece = pieces.find((p) => p.net === net);
    return piece === undefined ? net.name : `${net.name} (${piece.number})`;
  };
  const [first, second] = step.nets;
  const glue = step.bonds.map((bond) => glueInWords(bond, letterOf.get(bond) ?? '', named));
  switch (step.kind) {
    case 'join':
      return { title: `Join ${named(first)} to ${named(second)}`, lines: glue };
    case 'close':
      return { title: `Close ${named(first)}`, lines: ['Fold it up and glue it to itself.', ...glue] };
    case 'thread':
      return {
        title: `Pass ${named(first)} through ${named(second)}`,
        lines: [`Put it through the slot in '${panelName(step.through)}' now, while it is loose at one end.`],
      };
    case 'tongue':
      return {
        title: `Put the tongue of ${named(first)} into the slit of ${named(second)}`,
        lines: [
          'Put it through from the front, lengthways or softly folded, open it out flat behind the card, and see that its neck slides and turns. No glue.',
        ],
      };
    case 'hub': {
      const hub = pieces.find(({ net }) => net === step.hub?.net);
      return {
        title: `Set the hub ${hub?.number ?? ''} of ${named(first)} and ${named(second)}`,
        lines: [
          `${holeOnHole(step.face, named(first), named(second))} Fold the two arrowheads of the hub softly along both edges, pass them through from behind, open them out and press them flat to either side.`,
          'It must turn freely. No glue.',
        ],
      };
    }
    case 'attach': {
      const onto = [
        ...new Set(step.bonds.map((bond) => (bond.giver.net === first ? bond.receiver.net : bond.giver.net))),
      ];
      const lines = [...glue];
      if (step.bonds.some(({ line, slit }) => line !== null && slit === null))
        lines.push('The crease, not the edge of the card, sits on the glue line.');
      lines.push(...howGlued(step, letterOf));
      const what = step.isOtherEnd ? 'the other end of ' : '';
      return { title: `Glue ${what}${named(first)} to ${onto.map(named).join(' and ')}`, lines };
    }
  }
}

/** How the glue of a step is pressed. */
function howGlued({ closedOn, bonds, where }: Step, letterOf: ReadonlyMap<Bond, string>): string[] {
  if (closedOn === null)
    return [
      where === 'book'
        ? 'Press it, and before the glue takes shut the page gently and open it: nothing may stick that should move.'
        : 'Press it flat.',
    ];
  const last = letterOf.get(closedOn) ?? '';
  const first = bonds.length > 1 ? 'Glue the others first and press them. ' : '';
  const shut =
    where === 'book'
      ? 'fold the part flat, shut the page on it'
      : 'fold the part flat, fold what is below it over it';
  return [
    `${first}${last} comes last: put the glue on, ${shut} and press. So it finds its own place. Open it before the glue takes hold elsewhere.`,
  ];
}

function glueInWords(bond: Bond, letter: string, named: (net: Spot['net']) => string): string {
  const { giver, receiver } = bond;
  const from = giver.net.areas[giver.area];
  const to = receiver.net.areas[receiver.area];
  const what =
    from.kind === 'panel' ? `'${from.name}'` : from.kind === 'tab' ? `tab '${from.name}'` : 'the join tab';
  const through = bond.slit !== null ? 'Pass it through its slit; ' : '';
  return `${letter}: ${through}glue on the ${faceWord(giver)} of ${what}, onto the ${faceWord(receiver)} of ${to.name === receiver.net.name ? named(receiver.net) : `'${to.name}' on ${named(receiver.net)}`}.`;
}

/** The two faces as a maker tells them apart. */
export const faceWord = ({ face }: Pick<Spot, 'face'>): string => (face === 1 ? 'printed face' : 'back');

function holeOnHole(face: Step['face'], under: string, over: string): string {
  if (face === 0) return 'Lay hole on hole.';
  return `Lay hole on hole: ${over} on the ${face === 1 ? 'printed face' : 'back'} of ${under}.`;
}
