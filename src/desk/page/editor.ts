import { autocompletion, type CompletionContext, type CompletionResult } from '@codemirror/autocomplete';
import { defaultKeymap, indentWithTab } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import { type Diagnostic, lintGutter, setDiagnostics } from '@codemirror/lint';
import { Annotation, EditorState } from '@codemirror/state';
import { EditorView, hoverTooltip, keymap, lineNumbers } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import * as z from 'zod';
import { partKinds } from '../../parts/index.js';
import { byId, el } from '../../report/live/dom.js';
import type { Model } from './model.js';

/** How long after the last key the text is taken, ms. */
const PAUSE = 350;

/** Marks what the page has put into the text, not the maker. */
const fromPage = Annotation.define<boolean>();

/** The file itself: errors underlined with the command's words, names and fields completed, help on hover. */
export function editorView(model: Model): HTMLElement {
  let timer = 0;
  let typed = false;
  const handIn = () => {
    clearTimeout(timer);
    if (!typed) return;
    typed = false;
    model.said.value = '';
    model.keep(view.state.doc.toString());
  };
  const step = (which: 'undo' | 'redo') => {
    handIn();
    model.ask({ do: which });
    return true;
  };
  const view = new EditorView({
    state: EditorState.create({
      doc: model.text.value ?? '',
      extensions: [
        EditorView.cspNonce.of(byId('desk').dataset.nonce ?? ''),
        lineNumbers(),
        lintGutter(),
        yaml(),
        syntaxHighlighting(COLOURS),
        EditorView.lineWrapping,
        EditorView.contentAttributes.of({ 'aria-label': 'The figure file' }),
        autocompletion({ override: [(context) => completed(context, model)] }),
        hoverTooltip((editor, at) => {
          const word = editor.state.wordAt(at);
          const text = word === null ? '' : editor.state.sliceDoc(word.from, word.to);
          const help = HELP.get(text);
          return word === null || help === undefined
            ? null
            : {
                pos: word.from,
                end: word.to,
                above: true,
                create: () => ({ dom: el('div', { class: 'word-help' }, help) }),
              };
        }),
        keymap.of([
          { key: 'Mod-z', run: () => step('undo') },
          { key: 'Mod-y', run: () => step('redo') },
          { key: 'Shift-Mod-z', run: () => step('redo') },
          ...defaultKeymap,
          // Tab leaves the text, as it leaves every other field.
          ...(indentWithTab.run === undefined ? [] : [{ key: 'Mod-]', run: indentWithTab.run }]),
        ]),
        EditorView.updateListener.of((update) => {
          if (update.docChanged && !update.transactions.some((each) => each.annotation(fromPage))) {
            typed = true;
            clearTimeout(timer);
            timer = window.setTimeout(handIn, PAUSE);
          }
          if (update.selectionSet && view.hasFocus)
            bringOut(update.state.doc.lineAt(update.state.selection.main.head).number);
        }),
      ],
    }),
  });
  view.contentDOM.addEventListener('blur', handIn);
  model.ending.watch(handIn);
  const bringOut = (line: number) => {
    const part = partAtLine(model, line);
    if (part !== null && part !== model.part.value) model.part.value = part;
  };
  model.text.watch((text) => {
    const now = view.state.doc.toString();
    if (text === null || text === now || typed) return;
    // Only what differs is put in, so that the cursor stays.
    let from = 0;
    while (from < Math.min(now.length, text.length) && now[from] === text[from]) from++;
    let end = 0;
    while (end < Math.min(now.length, text.length) - from && now.at(-1 - end) === text.at(-1 - end)) end++;
    view.dispatch({
      changes: { from, to: now.length - end, insert: text.slice(from, text.length - end) },
      annotations: fromPage.of(true),
    });
  });
  model.fault.watch((fault) => {
    const diagnostics: Diagnostic[] = [];
    if (fault !== null) {
      const line = view.state.doc.line(Math.min(view.state.doc.lines, Math.max(1, fault.line)));
      const from = Math.min(line.to, line.from + Math.max(0, fault.column - 1));
      const word = view.state.wordAt(from);
      diagnostics.push({
        from,
        to: Math.max(word?.to ?? 0, Math.min(line.to, from + 1)),
        severity: 'error',
        message: fault.message,
      });
    }
    view.dispatch(setDiagnostics(view.state, diagnostics));
  });
  model.part.watch((part) => {
    if (part === null || view.hasFocus) return;
    try {
      const source = model.source();
      const at = (source.data as { parts: { name: string }[] }).parts.findIndex(({ name }) => name === part);
      const line = source.marks[`parts.${at}`]?.[0];
      if (line !== undefined)
        view.dispatch({
          effects: EditorView.scrollIntoView(view.state.doc.line(Math.min(line, view.state.doc.lines)).from, {
            y: 'start',
            yMargin: 20,
          }),
        });
    } catch {
      // A text with a fault has no parts to go to.
    }
  });
  return el('section', { class: 'write', 'aria-label': 'Write' }, view.dom);
}

const COLOURS = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], color: 'var(--accent)' },
  { tag: tags.comment, color: 'var(--quiet)', fontStyle: 'italic' },
]);

function partAtLine(model: Model, line: number): string | null {
  try {
    const { data, marks } = model.source();
    const parts = (data as { parts: { name: string }[] }).parts;
    let found: string | null = null;
    for (const [i, { name }] of parts.entries())
      if ((marks[`parts.${i}`]?.[0] ?? Infinity) <= line) found = name;
    const after = ['wants', 'limits', 'keepClear', 'trims'].some((field) => {
      const [at] = marks[field] ?? [Infinity];
      return at <= line && at > (marks.parts?.[0] ?? 0);
    });
    return after ? null : found;
  } catch {
    return null;
  }
}

const FIELDS = [
  'figure',
  'page',
  'card',
  'opening',
  'dims',
  'parts',
  'wants',
  'limits',
  'keepClear',
  'trims',
];
const FUNCTIONS = ['min', 'max', 'sqrt', 'abs', 'sin', 'cos', 'tan', 'asin', 'acos', 'atan'];
const NAMING = /(?:^|[\s{,])(on|panel|reference|to|between|panels):\s*\[?[^:]*$/;

/** Completes by what stands before the cursor: names of panels and creases, kinds, fields of the part, dims. */
function completed(context: CompletionContext, model: Model): CompletionResult | null {
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
    return of(
      isWant
        ? ['turn', 'swing', 'travel', 'rise', 'follow', 'against', 'level', 'through']
        : Object.keys(partKinds),
      'type',
      start(before, line.from),
    );
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
    const dims = Object.keys((safely(() => model.source().data) as { dims?: object } | null)?.dims ?? {});
    return one === null && !context.explicit
      ? null
      : of([...dims, ...FUNCTIONS], 'constant', one?.from ?? context.pos);
  }
  if (/^\p{L}*$/u.test(before)) return of(FIELDS, 'property', line.from);
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
  const fields = Object.hasOwn(partKinds, kind) ? partKinds[kind].fields : undefined;
  return fields instanceof z.ZodObject ? Object.keys(fields.shape) : [];
}

function safely<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    return null;
  }
}

/** What words of the file mean: as docs/figure-file.md says. */
const HELP = new Map<string, string>(
  Object.entries({
    figure: 'What the figure is called.',
    places: 'Points and lines with names, of which parts, wants and arithmetic may speak.',
    name: 'What it is called; its panels are named after it.',
    kind: 'What kind of part it is, or of want.',
    supports: 'The hinges that carry it.',
    dims: 'The dimensions: numbers, ranges, choices, and arithmetic over other dims.',
    parts: 'The parts, each after what it stands on.',
    wants: 'What the figure should do.',
    limits: 'What it must keep to.',
    trims: 'Cuts that were accepted.',
    page: 'One leaf of the base: width from gutter to outer edge, height along the gutter.',
    card: 'The card that it is made of.',
    at: 'Where it stands along its crease from the crease’s start; of a flat piece, a point on its panel.',
    on: 'The crease it stands over, or the panel it lies on; the gutter if left out.',
    glue: 'Angles of the two glue lines from the crease; of a tent or box, distances of its feet.',
    panels: 'Angles at the apex between glue line and ridge.',
    widths: 'Widths of the two panels.',
    feet: 'Card along each glue line, from the apex.',
    ridge: 'Card along the ridge, from the apex.',
    length: 'How long it is along its crease.',
    points: 'Into the fold’s angle, in, or out of it.',
    toward: 'Which way along the crease angles are measured: end or start.',
    diagonal: 'Angle between the crease and each diagonal.',
    side: 'Length along each diagonal.',
    turn: 'How far it is turned from the panel’s foot, towards up.',
    outline: 'Its outline: a polygon with holes, or a path of a drawing.',
    tab: 'The flap that carries the glue: width, side and mitre.',
    piece: 'The piece that the part is cut with; its own name if left out.',
    choose: 'A choice between words, or between numbers; it begins with the first.',
    from: 'Where a range begins; the end of a link where x is 0.',
    to: 'Where a range ends.',
    start: 'Where a range begins to be tried; the middle if left out.',
    step: 'Values to try are from + k · step.',
    least: 'At least so much is wanted.',
    most: 'At most so much.',
    weight: 'How much this want counts beside the others.',
  }),
);
