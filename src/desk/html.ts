import { basename } from 'node:path';
import { html } from '../report/pages/html.js';

/**
 * The page of the desk, which its script fills. Nothing in it comes from elsewhere.
 * @param nonce what style sheets carry that the editor makes
 */
export function deskPage(file: string, nonce: string): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${basename(file)}: the desk</title>
<link rel="stylesheet" href="desk.css">
</head>
<body>
<div id="desk" data-nonce="${nonce}"><noscript><p>The desk is a script of this program's own, which does not run here.</p></noscript></div>
<script src="desk.js"></script>
</body>
</html>
`.text;
}
