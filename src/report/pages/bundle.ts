import { readFileSync } from 'node:fs';
import { builtFile } from '../../disk/root.js';

/**
 * The script of the live page, kernel and all, as `scripts/bundle.mjs` has built it. Safe inside a script element.
 * @throws NotBuilt when it is not there
 */
export function liveScript(): string {
  const file = builtFile('live.js');
  const script = readFileSync(file, 'utf8');
  // Either would end the element early, or make the browser read on past its end.
  if (/<\/script|<!--/i.test(script)) throw new Error(`${file} cannot stand inside a page`);
  return script;
}
