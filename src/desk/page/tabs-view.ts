import { el } from '../../report/live/dom.js';

/** Views of which one shows at a time; arrow keys go from one to the next. @returns all of it, and what shows another one */
export function tabsView(views: readonly (readonly [string, HTMLElement])[]): {
  readonly element: HTMLElement;
  choose(view: number): void;
} {
  const choose = (chosen: number) => {
    tabs.forEach((tab, i) => {
      tab.setAttribute('aria-selected', String(i === chosen));
      tab.tabIndex = i === chosen ? 0 : -1;
      panels[i].hidden = i !== chosen;
    });
  };
  const tabs = views.map(([name], i) =>
    el(
      'button',
      { type: 'button', role: 'tab', id: `tab-${i}`, 'aria-controls': `panel-${i}`, click: () => choose(i) },
      name,
    ),
  );
  const panels = views.map(([, view], i) =>
    el('div', { role: 'tabpanel', id: `panel-${i}`, 'aria-labelledby': `tab-${i}` }, view),
  );
  const list = el('div', { role: 'tablist', class: 'tabs', 'aria-label': 'Beside the figure' }, ...tabs);
  list.addEventListener('keydown', ({ key }) => {
    const by = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0;
    if (by === 0) return;
    const at = tabs.findIndex((tab) => tab.matches(':focus'));
    const next = (at + by + tabs.length) % tabs.length;
    choose(next);
    tabs[next].focus();
  });
  choose(0);
  return { element: el('div', { class: 'pane beside' }, list, ...panels), choose };
}
