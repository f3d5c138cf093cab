/** The texts that a figure file has had, in order, and which of them it has now. */
export interface History {
  readonly texts: readonly string[];
  readonly at: number;
}

/** Characters of all texts that are kept: the oldest go first. Hundreds of thousands of edits of most figures. */
const MOST_KEPT = 200_000_000;

export const begun = (text: string): History => ({ texts: [text], at: 0 });

export const textNow = ({ texts, at }: History): string => texts[at];

/** A text after the present one; what had been undone is gone. The same text once more is no edit. */
export function edited(history: History, text: string): History {
  if (text === textNow(history)) return history;
  let texts = [...history.texts.slice(0, history.at + 1), text];
  let kept = texts.reduce((sum, each) => sum + each.length, 0);
  while (kept > MOST_KEPT && texts.length > 2) {
    kept -= texts[0].length;
    texts = texts.slice(1);
  }
  return { texts, at: texts.length - 1 };
}

export const undone = ({ texts, at }: History): History => ({ texts, at: Math.max(0, at - 1) });

export const redone = ({ texts, at }: History): History => ({
  texts,
  at: Math.min(texts.length - 1, at + 1),
});
