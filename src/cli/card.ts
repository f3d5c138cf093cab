import { creaseFromStrip, stiffnessFromResistance, stiffnessFromSag } from '../card/measured.js';
import { stiffnessOf } from '../card/stock.js';
import { decimal } from '../report/words/numbers.js';

import { FINE } from './exit-codes.js';
import { say } from './print.js';

export interface CardOptions {
  grammage: number;
  thickness: number;
  overhang?: number;
  drop?: number;
  free?: number;
  rest?: number;
  laid?: number;
  force?: number;
}

/** Says how stiff card is: as is typical, and as a strip of it shows. @returns the exit code */
export function cardInWords({
  grammage,
  thickness,
  overhang,
  drop,
  free,
  rest,
  laid,
  force,
}: CardOptions): number {
  const { along, across } = stiffnessOf(thickness, grammage);
  say(
    `Card of ${grammage} g/m² and ${thickness} mm is typically ${decimal(along.bend, 1)} N mm stiff along its grain and ${decimal(across.bend, 1)} across it.`,
  );
  if (overhang !== undefined && drop !== undefined) {
    say(
      `A strip that sinks by ${drop} mm over ${overhang} mm: ${decimal(stiffnessFromSag(grammage, overhang, drop), 2)} N mm. Two strips, along and across: card: { bending: [along, across] }.`,
    );
    if (drop > overhang / 3) say('It sinks by more than a third of its length: take a shorter one.');
  }
  if (force !== undefined)
    say(
      `A bending resistance of ${force} mN (15°, 50 mm, 38 mm wide): ${decimal(stiffnessFromResistance(force / 1000, 15, 50, 38), 2)} N mm.`,
    );
  if (free !== undefined && rest !== undefined && laid !== undefined) {
    const crease = creaseFromStrip(grammage, free, rest, laid);
    say(
      crease === null
        ? 'Its weight hardly moves the crease: take a longer half.'
        : `A crease that stays at ${rest}° on its side and at ${laid}° under ${free} mm of card: card: { crease: ${decimal(crease, 3)}, creaseRest: ${rest} }.`,
    );
  }
  return FINE;
}
