import type { Finding, Unknown } from '../../limits/finding.js';
import type { GlueFault } from '../../limits/measured.js';
import type { Meeting } from '../../motion/misfit.js';
import { GLUE_MARGIN } from '../../score/glue.js';

/** How names stand in a sentence: in quotes where it is exact, plain where like sentences are to be counted. */
export type Named = (name: string) => string;
export const quoted: Named = (name) => `'${name}'`;
export const plain: Named = (name) => (isPage(name) ? `the ${name}` : name);

const isPage = (panel: string): boolean => panel === 'left page' || panel === 'right page';

/** What does not meet at a joint. @example "'shelf' and its support 'post left'" */
export function meetingInWords({ joint, part, panels }: Meeting, named: Named = quoted): string {
  const [, other = ''] = panels;
  switch (joint) {
    case 'ridge':
      return 'the two sides of its ridge';
    case 'support':
      return `${named(part)} and its support ${named(other)}`;
    case 'top':
      return `the top of ${named(part)} and ${named(other)}`;
    case 'joints':
    case 'hubs':
    case 'glued end':
      return `the ${joint} of the chain of ${named(part)}`;
    case 'neck':
      return `the neck of ${named(part)} in its slit`;
    case 'limb':
      return `the chain of ${named(part)}`;
  }
}

/** What was found, in a sentence with names and page angle. */
const findingInWords = (finding: Finding): string =>
  sentence(finding, quoted, ` at a page angle of ${finding.pageAngle?.toFixed(1)}°`);

/** The same without measures and quotes, so that like findings read alike and can be counted. */
export function findingInShort(finding: Finding): string {
  const { kind, panels, part, pageAngle } = finding;
  if (kind === 'locks')
    return `${part} ${pageAngle === 180 ? 'keeps the page from opening flat' : 'locks before the page is shut'}`;
  // A page comes last: it is the card that catches on it.
  const ordered =
    kind === 'catches' && isPage(panels[0]) ? { ...finding, panels: panels.toReversed() } : finding;
  return sentence(ordered, plain, '');
}

function sentence({ kind, panels, part, pageAngle, place }: Finding, named: Named, at: string): string {
  const [first = '', second = ''] = panels;
  const meeting = () =>
    place !== null && 'joint' in place
      ? meetingInWords({ joint: place.joint, part: part ?? '', panels }, named)
      : named(first);
  switch (kind) {
    case 'locks':
      return `${named(part ?? '')} locks${at}: ${meeting()} do not meet beyond it`;
    case 'catches':
      return `${named(first)} catches on ${named(second)}${at}`;
    case 'does not meet':
      return `${meeting()} do not meet${at}`;
    case 'leaves the pages':
      return `${named(first)} leaves the pages${at}`;
    case 'stands off':
      return `${named(first)} stands off the ${pageAngle === 0 ? 'page when shut' : 'open pages'}`;
    case 'sticks out':
      return place !== null && 'edge' in place
        ? `${named(first)} sticks out past the ${place.edge}${at}`
        : `${named(first)} sticks out when shut`;
    case 'piles up':
      return 'the pile of card is too thick when shut';
    case 'is glued badly':
      return place !== null && 'glue' in place
        ? gluedInWords({ glued: first, receiver: second, kind: place.glue, other: place.other }, named)
        : `${named(first)} is glued badly`;
    case 'enters a space':
      return `${named(first)} enters ${place !== null && 'space' in place ? named(place.space) : 'a space'}${at}`;
    case 'is hard to shut':
      return part === null ? `the creases are hard to shut${at}` : `${named(part)} is hard to shut${at}`;
    case 'is hard to open':
      return part === null ? `the creases are hard to open${at}` : `${named(part)} is hard to open${at}`;
    case 'is strained':
      return `the card of ${named(part ?? '')} is strained${at}`;
    case 'tilts':
      return place !== null && 'joint' in place && place.joint === 'neck'
        ? `${meeting()} is twisted${at}`
        : `${meeting()} tilt${at}`;
    case 'jumps':
      return `${meeting()} jumps${at}: a dead point`;
    case 'does not stand':
      return 'nothing stands up from the open pages';
    case 'does not pass':
      return `${named(first)} does not pass through its slot in ${named(second)}${at}`;
    case 'runs past a slot':
      return `${named(first)} runs past the edge of its slot in ${named(second)}${at}`;
    case 'crowds a slot':
      return `${named(first)} has too little room in its slot in ${named(second)}${at}`;
    case 'hinges on air':
      return `the crease between ${named(first)} and ${named(second)} has no card under it on ${named(first)}`;
    case 'hangs by little':
      return `${named(first)} and ${named(second)} hang together by too short a fold`;
    case 'marks no card':
      return `the marked point lies beside the card of ${named(first)}, where nothing moves`;
    case 'holds too little':
      return `the glue between ${named(first)} and ${named(second)} is too small to hold`;
    case 'is too narrow':
      return second === ''
        ? `the card of ${named(first)} is too narrow to hold`
        : `${named(first)} and ${named(second)} hang on too short a crease`;
  }
}

/** What is wrong with glue, in words. */
export const glueFaultInWords = (fault: GlueFault): string => gluedInWords(fault, quoted);

function gluedInWords({ glued, receiver, kind, other }: Omit<GlueFault, 'area'>, named: Named): string {
  const between = `between ${named(glued)} and ${named(receiver)}, where they are glued together`;
  switch (kind) {
    case 'off card':
      return `${named(glued)} lies off the card of ${named(receiver)}`;
    case 'card between':
      return `${named(other)} lies ${between}`;
    case 'hub between':
      return `the hub ${named(other)} lies ${between}`;
    case 'over a slot':
      return `${named(glued)} is glued over the slot for ${named(other)}`;
    case 'at a crease':
      return `${named(glued)} is glued on a crease at which ${named(other)} moves, or less than ${GLUE_MARGIN} mm from it`;
    case 'at a slit':
      return `${named(glued)} is glued where ${named(other)} slides in its slit, or less than ${GLUE_MARGIN} mm from it`;
  }
}

/** Why something is not known. */
export function unknownInWords(unknown: Unknown): string {
  switch (unknown.because) {
    case 'it cannot be built':
      return unknown.reason;
    case 'there is none':
      return 'there is none to judge';
    case 'it fails before':
      return 'not looked at further, since it fails already by how it moves and lies shut';
    case 'it is seen end on':
      return 'the marked line is seen end on there, so that it has no heading';
    case 'its point lies off the card':
      return 'the marked point lies off the card, where nothing moves';
    case 'it locks before':
      return `${lockedAt(unknown.pageAngle)}, before ${unknown.before}°`;
    default:
      return `${unknown.because}: ${lockedAt(unknown.pageAngle)}`;
  }
}

const lockedAt = (pageAngle: number): string => `it locks at ${pageAngle.toFixed(1)}°`;

/** What is beyond a limit, or why a want or a limit is not known; empty where there is nothing to say. */
export function reasonOf({ finding, unknown }: { finding?: Finding; unknown?: Unknown }): string {
  if (unknown !== undefined) return unknownInWords(unknown);
  return finding === undefined ? '' : findingInWords(finding);
}
