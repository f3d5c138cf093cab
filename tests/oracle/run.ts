/** Many random figures, the oracle beside the program: prints every disagreement with its figure. See bench/oracle.mjs. */
import { stringify } from 'yaml';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { Scorer } from '../../src/score/scorer.js';
import { compare, type Poses } from './compare.js';
import { randomFigure } from './grammar.js';
import { withTwins } from './rigid.js';

/** What the program says of a figure, as `check --poses` writes it. */
export function asked(text: string): Poses | CannotBuild {
  const figure = compileFigure(parseFigure(text, 'oracle.yaml'));
  try {
    return JSON.parse(JSON.stringify(new Scorer(figure).poses(figure.start)));
  } catch (error) {
    if (error instanceof CannotBuild) return error;
    throw error;
  }
}

const passed = (why: string) => ({
  disagreements: [],
  passedOver: `can't be built: ${why}`,
  crosses: false,
  locks: false,
});

export interface Tally {
  compared: number;
  catching: number;
  locking: number;
  disagreeing: number;
}

/**
 * @param step page angles that are looked at, so many degrees apart
 * @param print gets every disagreement with its figure, and how many of what were compared
 */
export function run(count: number, seed: number, step: number, print: (line: string) => void): Tally {
  const told: Tally = { compared: 0, catching: 0, locking: 0, disagreeing: 0 };
  const kinds = new Map<string, number>();
  const more = (what: string) => kinds.set(what, (kinds.get(what) ?? 0) + 1);
  for (let i = 0; i < count; i++) {
    const figure = randomFigure(seed * 100_000 + i);
    const text = stringify(figure, { aliasDuplicateObjects: false });
    const answer = asked(text);
    const { disagreements, passedOver, crosses, locks } =
      answer instanceof CannotBuild ? passed(answer.message) : compare(withTwins(figure), answer, step);
    if (passedOver !== null) {
      more(`passed over: ${passedOver.replace(/'[^']*'|[\d.]+/g, '…')}`);
      continue;
    }
    for (const { kind, shape } of withTwins(figure).parts) more(`${kind}${shape ? ` (${shape})` : ''}`);
    told.compared++;
    if (crosses) told.catching++;
    if (locks) told.locking++;
    if (disagreements.length === 0) continue;
    told.disagreeing++;
    print(`--- seed ${seed * 100_000 + i}\n${disagreements.join('\n')}\n${text}`);
  }
  for (const [what, times] of [...kinds].sort()) print(`${String(times).padStart(6)}  ${what}`);
  print(
    `${told.compared} figures, of which ${told.catching} catch and ${told.locking} lock: ${told.disagreeing} disagree`,
  );
  return told;
}
