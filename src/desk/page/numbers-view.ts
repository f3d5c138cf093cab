import { dimNames, mentionsIn, writtenParts } from '../../edit/mentions.js';
import { valueAt } from '../../figure/text/check.js';
import type { FigureSource } from '../../figure/text/source.js';
import { el, printable } from '../../report/live/dom.js';
import type { Setting } from '../../tune/settings.js';
import type { Model } from './model.js';
import { type Row, rowOf } from './number-rows.js';
import { partButtons } from './part-buttons.js';
import { settingLabel } from './setting-label.js';

/** Every dim and every number and word of a part, in one list by part. */
export function numbersView(model: Model): HTMLElement {
  const list = el('div', { class: 'numbers' });
  /** The groups that are unfolded; that of the dims is called ''. */
  const open = new Set<string>(['']);
  let shape = '';
  let rows = new Map<string, Row>();
  const refresh = () => {
    for (const setting of model.rest.value?.settings ?? []) rows.get(setting.name)?.refresh(setting);
  };
  const rebuild = (settings: readonly Setting[]) => {
    const focused = document.activeElement?.getAttribute('data-key') ?? null;
    rows = new Map();
    const source = model.source();
    const parts = ['', ...writtenParts(source).map(({ name }) => name)];
    list.replaceChildren(
      ...parts.map((part) => {
        const own = settings.filter((setting) => isOf(setting, part, source));
        const lines = own.map((setting) => {
          const row = rowOf(setting, part, model, source);
          rows.set(setting.name, row);
          return row.row;
        });
        return groupOf(part, lines, open, model, source);
      }),
    );
    if (focused !== null) list.querySelector<HTMLElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
  };
  model.rest.watch((rest) => {
    if (rest === null) return;
    const now = shapeOf(rest.settings);
    if (now === shape) refresh();
    else {
      shape = now;
      rebuild(rest.settings);
    }
  });
  model.refused.watch(refresh);
  model.part.watch((part) => {
    if (part === null) return;
    open.add(part);
    bringOut(part, list);
  });
  return el('section', { class: 'pane', 'aria-label': 'Numbers' }, el('h2', {}, 'Numbers'), list);
}

/** All of it but what the numbers come to: only where this is another are rows made anew. */
const shapeOf = (settings: readonly Setting[]): string =>
  JSON.stringify(
    settings.map(({ name, kind, bounds, isWritten, options }) => [name, kind, bounds, isWritten, options]),
  );

const isOf = ({ place }: Setting, part: string, source: FigureSource): boolean =>
  part === ''
    ? place[0] === 'dims'
    : place[0] === 'parts' && valueAt(source, ['parts', place[1], 'name']) === part;

/** The rows of a part, or of the dims of the figure, with what follows from others, to be folded away. */
function groupOf(
  part: string,
  lines: readonly HTMLElement[],
  open: Set<string>,
  model: Model,
  source: FigureSource,
): HTMLElement {
  const told = part === '' ? arithmetic(source) : following(part, source, model);
  if (part === '' && lines.length + told.length === 0)
    told.push(
      el('p', { class: 'follows quiet' }, 'None yet: make a range of any number, and explore can try it.'),
    );
  const details = el(
    'details',
    { class: 'group', 'data-part': part },
    el('summary', {}, part === '' ? 'Dims of the figure' : printable(part)),
    ...(part === '' ? [] : [partButtons(part, model)]),
    ...lines,
    ...told,
  );
  details.open = open.has(part);
  details.addEventListener('toggle', () => {
    if (details.open) open.add(part);
    else open.delete(part);
    if (details.open && part !== '') model.part.value = part;
  });
  return details;
}

/** Marks the group of the part that is looked at, and unfolds it. */
function bringOut(part: string, list: HTMLElement): void {
  for (const details of list.querySelectorAll<HTMLDetailsElement>('details.group')) {
    details.classList.toggle('chosen', details.dataset.part === part);
    if (details.dataset.part !== part) continue;
    details.open = true;
    // Where all is one column, that would take the figure out of sight.
    const pane = details.closest('.pane');
    if (pane !== null && pane.scrollHeight > pane.clientHeight) details.scrollIntoView({ block: 'nearest' });
  }
}

/** Dims that follow from others, to be read only. */
function arithmetic(source: FigureSource): HTMLElement[] {
  const dims = (valueAt(source, ['dims']) ?? {}) as { [name: string]: unknown };
  return Object.entries(dims).flatMap(([name, value]) =>
    typeof value === 'string' ? [el('p', { class: 'follows quiet' }, `${name} = ${value}`)] : [],
  );
}

/** Fields of a part that follow dims: what they say, and the way to the dim. */
function following(part: string, source: FigureSource, model: Model): HTMLElement[] {
  const own = writtenParts(source).find(({ name }) => name === part);
  if (own === undefined) return [];
  const dims = new Set(dimNames(source));
  return mentionsIn(source)
    .filter(({ kind, path }) => kind === 'number' && path[0] === 'parts' && path[1] === own.path[1])
    .map(({ path, text }) => {
      const label = settingLabel([part, ...path.slice(2)].join('.'), part);
      if (!dims.has(text)) return el('p', { class: 'follows quiet' }, `${label} = ${text}`);
      const go = el('button', { type: 'button', class: 'to-dim', title: `Go to the dim ${text}` }, text);
      go.addEventListener('click', () => {
        model.part.value = null;
        const row = document.querySelector<HTMLElement>(`.numbers [data-key="${CSS.escape(text)}"]`);
        row?.closest('details')?.setAttribute('open', '');
        row?.focus();
      });
      return el('p', { class: 'follows quiet' }, `${label} = `, go);
    });
}
