import { middle, moved, type Point, undoing } from '../../geometry/plane.js';
import { widePlace } from '../../geometry/room.js';
import type { Assembly } from '../../motion/assembly.js';
import { counted } from '../../text/phrases.js';
import { DEFAULT_COSTS } from '../costs.js';
import { Pdf } from '../drawn/pdf.js';
import { paperNamed } from '../layout/paper.js';
import type { Net } from '../nets/net.js';
import type { Plan } from '../plan.js';
import type { SheetSettings } from '../settings.js';
import type { Amount } from './amount.js';
import { cautions } from './cautions.js';
import { costInWords, costOf, workRows } from './costs.js';
import { drawFlatStep } from './flat-step.js';
import { isPage, pairOf, Sets } from './groups.js';
import { GuidePages } from './guide-page.js';
import { pieceRows } from './piece-list.js';
import { Scene } from './scene.js';
import { smallParts } from './small-parts.js';
import { drawStep } from './step-drawing.js';
import { faceWord, stepInWords } from './step-words.js';
import type { Step } from './steps.js';

/** Width and height of a step's picture, mm. */
const PICTURE = [78, 58] as const;
/** Room for a heading, a table's head and its first rows, mm: less of a table at the foot of a page is overlooked. */
const TABLE = 38;

const BEFORE = [
  'Print at 100 % (no "fit to page") and measure the ruler on every sheet: 100 mm, 4 inches, or nothing will fit.',
  'Score every crease before you cut anything out: mountain folds away from the printed face, valley folds towards it.',
  'Cut slits and holes first, then outlines. Cut along solid lines only.',
  'Fold each crease sharply both ways once, then the way it is marked.',
  'Glue goes on shaded areas of the printed face. A letter in brackets, such as (A), means the back: there the glue goes behind the letter. Every letter is found twice: the two faces go together.',
  'Try each part dry before gluing it.',
];

const TEMPLATE =
  'The base on these sheets is a template on plain paper: lay it on your own spread, gutter on gutter, and prick both ends of every glue line through. Glue goes on the spread.';

/** How to put the figure together, on paper: what is needed, cautions, pieces, steps with pictures, list of glue. */
export async function guide(
  assembly: Assembly,
  plan: Plan,
  amount: Amount,
  settings: SheetSettings,
): Promise<Uint8Array> {
  const pdf = new Pdf(`${settings.figure}: how to put it together`);
  const paper = paperNamed(/letter|tabloid/i.test(settings.paper.name) ? 'Letter' : 'A4');
  const pages = new GuidePages(pdf, paper);
  pages.title(settings.figure);
  if (settings.candidate !== '') pages.text(settings.candidate);
  pages.text(amountInWords(amount, settings));
  pages.heading('Take care');
  for (const line of cautions(smallParts(plan.pieces), plan.hubs.length)) pages.bullet(line);
  if (plan.warnings.length > 0) {
    pages.heading('Look at this first');
    for (const line of plan.warnings) pages.bullet(line);
  }
  pages.heading('Before gluing');
  for (const line of BEFORE) pages.bullet(line);
  if (plan.template.length > 0) pages.bullet(TEMPLATE);
  pages.heading('Steps', PICTURE[1] + 20);
  addSteps(assembly, plan, pages);
  pages.heading('Pieces', TABLE);
  pages.table(
    ['', 'piece', 'printed face', 'cuts', 'creases', 'glue points'],
    pieceRows(plan.pieces).map((row) => [
      `${row.number}`,
      row.name,
      row.face ?? '',
      `${row.cuts}`,
      `${row.creases}`,
      `${row.gluePoints}`,
    ]),
    [10, 70, 28, 18, 22, 26],
  );
  pages.text('The front of a piece is what a reader at the foot of the open spread sees.');
  pages.heading('Work and cost', TABLE);
  const cost = costOf(plan, settings.copies, settings.costs);
  pages.table(
    ['for one figure', 'count', 'minutes each', 'minutes'],
    workRows(cost, settings.costs),
    [80, 30, 34, 30],
  );
  pages.text(costInWords(cost, settings.costs));
  if (settings.costs === DEFAULT_COSTS)
    pages.text('The minutes are a guess, for somebody who does it often: give your own in a file (--costs).');
  pages.heading('Glue', TABLE);
  pages.table(
    ['', 'what carries the glue', 'goes on'],
    plan.bonds.map(({ bond: { giver, receiver }, letter }) => [
      letter,
      `${giver.net.areas[giver.area].name} (${faceWord(giver)})`,
      `${receiver.net.areas[receiver.area].name} (${faceWord(receiver)})`,
    ]),
    [12, 81, 81],
  );
  return pdf.finish();
}

function addSteps(assembly: Assembly, plan: Plan, pages: GuidePages): void {
  const scene = new Scene(
    assembly,
    plan.frames,
    plan.bonds.map(({ bond }) => bond),
  );
  const letters = new Map(plan.bonds.map(({ bond, letter }) => [bond, letter]));
  const nets = plan.pieces.map(({ net }) => net);
  const leaves = nets.filter(isPage);
  const together = new Sets(nets);
  for (const leaf of leaves) together.join(leaves[0], leaf);
  plan.steps.forEach((step, i) => {
    const { title, lines } = stepInWords(step, letters, plan.pieces, (panel) => assembly.panels[panel].name);
    const touched = [...new Set([...step.nets, ...step.bonds.flatMap(pairOf)])];
    // Nothing stands where it is not fixed yet: only what hangs together with what is touched.
    const [first, ...others] = step.nets;
    const hangsOn = (net: Net) => touched.some((own) => together.of(own) === together.of(net));
    const bearers = new Set(touched.filter((net) => net !== first).map((net) => together.of(net)));
    const added = nets.filter(
      (net) => !isPage(net) && together.of(net) === together.of(first) && !bearers.has(together.of(net)),
    );
    const grey = added.length > 0 ? added : isPage(first) ? others : [first];
    const there = nets.filter((net) => hangsOn(net) && !grey.includes(net));
    const marks = step.bonds.flatMap((bond) => {
      const spot = placeOf(bond);
      return spot === null ? [] : [{ letter: letters.get(bond) ?? '', ...spot }];
    });
    if (step.hub !== null) marks.push({ letter: '●', panel: step.hub.panels[0], at: step.hub.points[0] });
    const picture =
      drawFlatStep(assembly, step, plan.pieces, letters, ...PICTURE) ??
      drawStep(scene, there, grey, touched, marks, ...PICTURE);
    pages.pictured(picture, `${i + 1}. ${title}`, lines);
    if (step.kind !== 'thread') for (const net of touched) together.join(touched[0], net);
  });
}

/** A point in the glue of a bond, on a panel of the figure. */
function placeOf({ giver, receiver, line }: Step['bonds'][number]): { panel: number; at: Point } | null {
  for (const { net, area, shapes } of [receiver, giver]) {
    const { panel, place } = net.areas[area];
    if (panel < 0) continue;
    const there = net === receiver.net && line !== null ? middle(line) : widePlace(shapes[0]).at;
    return { panel, at: moved(undoing(place), there) };
  }
  return null;
}

/** Card needed, in words. */
export function amountInWords(amount: Amount, { paper, copies }: SheetSettings): string {
  const { sheets, sheetArea, pieceArea, sheetGrams, pieceGrams } = amount;
  const weight =
    sheetGrams === null || pieceGrams === null
      ? 'What it weighs is not known: the figure does not give the grammage of its card.'
      : `The sheets weigh ${sheetGrams.toFixed(0)} g, the pieces ${pieceGrams.toFixed(0)} g.`;
  const made = copies === 1 ? '' : ` for ${copies} figures`;
  return `Card needed${made}: ${counted(sheets, 'sheet')} of ${paper.name}, ${sheetArea.toFixed(3)} m², of which the pieces take ${pieceArea.toFixed(3)} m². ${weight}`;
}
