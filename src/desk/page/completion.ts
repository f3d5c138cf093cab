import type { CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import type { EditorState } from '@codemirror/state';
import * as z from 'zod';
import { SECTIONS } from '../../figure/figure.js';
import { FUNCTIONS, MEASURES } from '../../figure/text/arithmetic-words.js';
import { wantFields } from '../../figure/wants.js';
import { partKinds } from '../../parts/index.js';
import type { Model } from './model.js';

/** Fields whose values are names of panels and creases. */
const NAMING = /(?:^|[\s{,])(on|panel|reference|to|between|panels):\s*\[?[^:]*$/;

/** Completes by what stands before the cursor: names of panels and creases, kinds, fields of the part, dims. */
export function completed(context: CompletionContext, model: Model): CompletionResult | null {
  const line = context.state.doc.lineAt(context.pos);
  const before = line.text.slice(0, context.pos - line.from);
  const word = context.matchBefore(/[\p{L}_][\p{L}\p{Nd}_ -]*/u);
  const from = word?.from ?? context.pos;
  if (word === null && !context.explicit) return null;
  const of = (labels: readonly string[], type: string, start = from): CompletionResult => ({
    from: start,
    options: labels.map((label) => ({ label, type })),
    validFor: /^[\p{L}\p{Nd}_ -]*$/u,
  });
  if (/(?:^|[\s{,])kind:\s*[\w-]*$/.test(before)) {
    const isWant = /^wants:/m.test(context.state.sliceDoc(0, context.pos));
    return of(Object.keys(isWant ? wantFields : partKinds), 'type', start(before, line.from));
  }
  if (NAMING.test(before)) {
    const motion = model.motion.value;
    return of(
      [...(motion?.creases ?? []), ...(motion?.panels ?? [])].map(({ name }) => name),
      'variable',
      start(before, line.from),
    );
  }
  // After a name and a colon stands a value: dims, and functions.
  if (/:\s*(?:\[[^\]]*)?[^:{,]*$/.test(before)) {
    const one = context.matchBefore(/[\p{L}_][\p{L}\p{Nd}_]*/u);
    if (one === null && !context.explicit) return null;
    const words = [...dimsOf(model), ...Object.keys(FUNCTIONS), ...Object.keys(MEASURES)];
    return of(words, 'constant', one?.from ?? context.pos);
  }
  if (/^\p{L}*$/u.test(before)) return of(SECTIONS, 'property', line.from);
  const kind = kindAround(context.state, context.pos);
  const one = context.matchBefore(/\p{L}*/u);
  return of(['name', 'kind', ...fieldsOf(kind)], 'property', one?.from ?? context.pos);
}

const start = (before: string, lineFrom: number): number =>
  lineFrom + before.length - (/[^\s:[,{][^:[,{]*$/.exec(before)?.[0].length ?? 0);

/** The kind of the part whose fields stand around a place. */
function kindAround(state: EditorState, pos: number): string {
  for (let n = state.doc.lineAt(pos).number; n > 0; n--) {
    const { text } = state.doc.line(n);
    const found = /(?:^|[\s{,])kind:\s*([\w-]+)/.exec(text);
    if (found !== null) return found[1];
    if (/^\s*- /.test(text)) {
      const below = /(?:^|[\s{,])kind:\s*([\w-]+)/.exec(state.sliceDoc(pos, pos + 300));
      return below?.[1] ?? '';
    }
  }
  return '';
}

function fieldsOf(kind: string): string[] {
  const part = Object.hasOwn(partKinds, kind) ? partKinds[kind].fields : undefined;
  const want = Object.entries(wantFields).find(([name]) => name === kind)?.[1];
  const fields = part ?? want;
  return fields instanceof z.ZodObject ? Object.keys(fields.shape) : [];
}

/** The dims of the file; none while it has a fault. */
function dimsOf(model: Model): string[] {
  try {
    return Object.keys((model.source().data as { dims?: object }).dims ?? {});
  } catch {
    return [];
  }
}
