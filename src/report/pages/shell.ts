import { createHash } from 'node:crypto';
import { type Html, html, trusted } from './html.js';

/** What runs in a page, if anything does. */
export interface PageScript {
  /** What the script reads, as JSON in which no letter can end the element that holds it. */
  readonly data: Html;
  readonly code: string;
}

/**
 * A whole page that needs no network. Its content-security policy lets nothing run or load but its own style sheet and
 * script, by their hashes.
 */
export function wholePage(title: string, style: string, main: Html, script?: PageScript): string {
  const mayRun = script === undefined ? '' : ` script-src ${hashOf(script.code)};`;
  const policy = `default-src 'none';${mayRun} style-src ${hashOf(style)}; base-uri 'none'; form-action 'none'`;
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${trusted(style)}</style>
</head>
<body>
<main>
${main}
</main>
${
  script === undefined
    ? ''
    : html`<script type="application/json" id="data">${script.data}</script>
<script>${trusted(script.code)}</script>
`
}</body>
</html>
`;
  return page.text;
}

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
