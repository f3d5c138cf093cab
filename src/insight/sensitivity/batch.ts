/**
 * What the measurements of this folder ask for: dimension vectors in, score vectors out, in order.
 * A score that could not be computed comes back as NaN; whoever scores keeps its reason.
 */
export type Batch = (rows: Float64Array[]) => Promise<Float64Array[]>;

/** For each row, null where every limit holds, or the text of what fails first. */
export type Verdicts = (rows: Float64Array[]) => Promise<(string | null)[]>;

/** Writes point number `index` of a sequence that fills the unit cube of `out.length` dims. */
export type PointSource = (index: number, out: Float64Array) => void;

/**
 * Runs a batch and makes sure that every row was answered.
 * @throws Error when the batch answers fewer or more rows than it was asked.
 */
export async function answerAll<Answer>(
  batch: (rows: Float64Array[]) => Promise<Answer[]>,
  rows: Float64Array[],
): Promise<Answer[]> {
  if (rows.length === 0) return [];
  const answers = await batch(rows);
  if (answers.length !== rows.length) {
    throw new Error(`asked for ${rows.length} dummies, got ${answers.length} back`);
  }
  return answers;
}
