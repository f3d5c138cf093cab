import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The same file whether the sources of the program run (in tests) or what was compiled of them. */
const FILE = fileURLToPath(
  new URL(import.meta.url.endsWith('.ts') ? '../../dist/live.js' : '../../live.js', import.meta.url),
);

/**
 * The script of the live page, kernel and all, as `scripts/bundle.mjs` has built it. Safe inside a script element.
 * @throws Error when it is not built
 */
export function liveScript(): string {
  let script: string;
  try {
    script = readFileSync(FILE, 'utf8');
  } catch {
    throw new Error(`${FILE} is missing: run 'npm run build' first`);
  }
  // Either would end the element early, or make the browser read on past its end.
  if (/<\/script|<!--/i.test(script)) throw new Error(`${FILE} cannot stand inside a page`);
  return script;
}
