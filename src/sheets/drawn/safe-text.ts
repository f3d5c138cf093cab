import { plainText as plain } from '../../text/plain-text.js';

/** Names come from strangers' files: nothing in them may break out of a text, whatever the format. */

/** One line of plain text, where a sign for what is not shown would be in the way. */
export function plainText(text: string): string {
  return plain(text, ' ').replace(/ +/g, ' ').trim();
}

/** Text for XML, in an element or in a quoted attribute. */
export function xmlText(text: string): string {
  return plainText(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')
    .replace(/[\uFFFE\uFFFF]/g, '');
}

/** Text for a DXF group: % starts a control code there, and other than ASCII is written as \U+XXXX. */
export function dxfText(text: string): string {
  return plainText(text)
    .replaceAll('\\', '/')
    .replace(/%(?=%)/g, '% ')
    .replace(
      /[^\x20-\x7e]/g,
      (unit) => `\\U+${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`,
    );
}

/** A name for files: lower-case letters, digits and hyphens only, so that it can leave no folder. */
export function fileName(text: string): string {
  const plain = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  return plain === '' ? 'figure' : plain;
}
