type Attributes = Record<string, string | number | boolean | ((event: Event) => void)>;
type Child = Node | string;

/**
 * Makes an element. Texts become text nodes, so that no name of a figure file can become markup; a function is a
 * listener of the event that its key names; true stands for an attribute without value, false for none.
 */
export function el<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: Child[]
): HTMLElementTagNameMap[Tag] {
  return filled(document.createElement(tag), attributes, children);
}

/** Makes an element of SVG, as `el` does. */
export function svg<Tag extends keyof SVGElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: Child[]
): SVGElementTagNameMap[Tag] {
  return filled(document.createElementNS('http://www.w3.org/2000/svg', tag), attributes, children);
}

function filled<E extends Element>(element: E, attributes: Attributes, children: Child[]): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === 'function') element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, '');
    else if (value !== false) element.setAttribute(name, String(value));
  }
  element.append(...children.map((child) => (typeof child === 'string' ? printable(child) : child)));
  return element;
}

/** Controls, and marks that turn the direction of reading: a name can't hide or reorder what stands beside it. */
const UNPRINTABLE = /[^\t\n\r\P{Cc}]|[\u202a-\u202e\u2066-\u2069]/gu;

export const printable = (text: string): string => text.replace(UNPRINTABLE, '\ufffd');

/** The element of that id, which the page is written with. */
export function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`the page has no #${id}`);
  return element;
}

/** Calls back at most once a frame, however often it is asked to. */
export function oncePerFrame(work: () => void): () => void {
  let asked = false;
  return () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      work();
    });
  };
}

/** A colour of the page's style sheet as it is now, light or dark. */
export function colour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
}

/** Calls back whenever the page changes between light and dark. */
export function onColoursChanged(listener: () => void): void {
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', listener);
}

/** Whether the reader has asked for as little motion as can be. */
export function reducedMotion(): boolean {
  return matchMedia('(prefers-reduced-motion: reduce)').matches;
}
