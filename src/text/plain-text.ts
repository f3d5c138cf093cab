/**
 * Texts that are not ours (names in a figure file, names of files, what a folder of results says) go through here before
 * anyone sees them: nothing in them may steer a terminal, hide, or pass for a line of ours.
 */

/** What no text shows: controls, line ends, marks that turn the direction of reading or join nothing, half characters. */
const UNSEEN = String.raw`(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]`;
const ANY_UNSEEN = new RegExp(UNSEEN, 'gu');
const ANY_UNSEEN_IN_LINES = new RegExp(`(?![\\t\\n\\r])${UNSEEN}`, 'gu');

/** One line of plain text. (Two format characters stay: Persian and other scripts are spelt with them.) */
export function plainText(text: string, instead = '\ufffd'): string {
  return text.replace(ANY_UNSEEN, instead);
}

/** Lines of plain text; tabs and line ends stay as they are. */
export function plainLines(text: string): string {
  return text.replace(ANY_UNSEEN_IN_LINES, '\ufffd');
}

/** Whether a text is one line of plain text as it is. */
export const isPlain = (text: string): boolean => plainText(text) === text;

/** A value as indented JSON, in which all that no text shows is written as an escape: it reads back the same. */
export function plainJson(value: unknown): string {
  // Outside of strings, JSON has nothing of the kind but its own line ends.
  return JSON.stringify(value, null, 2).replace(ANY_UNSEEN_IN_LINES, (found) =>
    Array.from({ length: found.length }, (_, i) => escaped(found.charCodeAt(i))).join(''),
  );
}

const escaped = (unit: number): string => `\\u${unit.toString(16).padStart(4, '0')}`;
