import { autocompletion } from '@codemirror/autocomplete';
import { defaultKeymap, indentWithTab } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import { type Diagnostic, lintGutter, setDiagnostics } from '@codemirror/lint';
import { Annotation, EditorState } from '@codemirror/state';
import { EditorView, hoverTooltip, keymap, lineNumbers, type Tooltip } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import { byId, el } from '../../report/live/dom.js';
import { completed } from './completion.js';
import type { Model } from './model.js';
import type { FaultSent } from './sent.js';
import { HELP } from './word-help.js';

/** How long after the last key the text is taken, ms. */
const PAUSE = 350;

/** Marks what the page has put into the text, not the maker. */
const fromPage = Annotation.define<boolean>();

/** The file itself: errors underlined with the command's words, names and fields completed, help on hover. */
export function editorView(model: Model): HTMLElement {
  let timer = 0;
  let typed = false;
  /** The revision in which typing has begun. */
  let since = 0;
  const handIn = () => {
    clearTimeout(timer);
    if (!typed) return;
    typed = false;
    model.said.value = '';
    model.keep(view.state.doc.toString(), since);
  };
  const step = (which: 'undo' | 'redo') => () => {
    handIn();
    model.ask({ do: which });
    return true;
  };
  const heard = EditorView.updateListener.of(({ docChanged, transactions, selectionSet, state }) => {
    if (docChanged && !transactions.some((each) => each.annotation(fromPage))) {
      if (!typed) since = model.revision;
      typed = true;
      clearTimeout(timer);
      timer = window.setTimeout(handIn, PAUSE);
    }
    if (!selectionSet || !view.hasFocus) return;
    const part = partAtLine(model, state.doc.lineAt(state.selection.main.head).number);
    if (part !== null) model.part.value = part;
  });
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
        hoverTooltip(helpAt),
        keymap.of([
          { key: 'Mod-z', run: step('undo') },
          { key: 'Mod-y', run: step('redo') },
          { key: 'Shift-Mod-z', run: step('redo') },
          ...defaultKeymap,
          // Tab leaves the text, as it leaves every other field.
          ...(indentWithTab.run === undefined ? [] : [{ key: 'Mod-]', run: indentWithTab.run }]),
        ]),
        heard,
      ],
    }),
  });
  view.contentDOM.addEventListener('blur', handIn);
  model.ending.watch(handIn);
  model.text.watch((text) => {
    if (text !== null && !typed) putIn(view, text);
  });
  model.fault.watch((fault) => view.dispatch(setDiagnostics(view.state, diagnosticsOf(fault, view.state))));
  model.part.watch((part) => {
    if (part !== null && !view.hasFocus) goToPart(part, view, model);
  });
  return el('section', { class: 'write', 'aria-label': 'Write' }, view.dom);
}

/** Makes it another text; only what differs is put in, so that the cursor stays. */
function putIn(view: EditorView, text: string): void {
  const now = view.state.doc.toString();
  if (text === now) return;
  const shorter = Math.min(now.length, text.length);
  let from = 0;
  while (from < shorter && now[from] === text[from]) from++;
  let end = 0;
  while (end < shorter - from && now.at(-1 - end) === text.at(-1 - end)) end++;
  view.dispatch({
    changes: { from, to: now.length - end, insert: text.slice(from, text.length - end) },
    annotations: fromPage.of(true),
  });
}

function diagnosticsOf(fault: FaultSent | null, state: EditorState): Diagnostic[] {
  if (fault === null) return [];
  const line = state.doc.line(Math.min(state.doc.lines, Math.max(1, fault.line)));
  const from = Math.min(line.to, line.from + Math.max(0, fault.column - 1));
  const to = Math.max(state.wordAt(from)?.to ?? 0, Math.min(line.to, from + 1));
  return [{ from, to, severity: 'error', message: fault.message }];
}

/** What the word under the pointer means in a figure file. */
function helpAt({ state }: EditorView, at: number): Tooltip | null {
  const word = state.wordAt(at);
  const help = word === null ? undefined : HELP.get(state.sliceDoc(word.from, word.to));
  if (word === null || help === undefined) return null;
  const create = () => ({ dom: el('div', { class: 'word-help' }, help) });
  return { pos: word.from, end: word.to, above: true, create };
}

function goToPart(part: string, view: EditorView, model: Model): void {
  try {
    const { data, marks } = model.source();
    const at = (data as { parts: { name: string }[] }).parts.findIndex(({ name }) => name === part);
    const line = marks[`parts.${at}`]?.[0];
    if (line === undefined) return;
    const { from } = view.state.doc.line(Math.min(line, view.state.doc.lines));
    view.dispatch({ effects: EditorView.scrollIntoView(from, { y: 'start', yMargin: 20 }) });
  } catch {
    // A text with a fault has no parts to go to.
  }
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
