import { ACCENT, INK, LINE, PAPER, QUIET, TINT } from '../charts/style.js';

/** The colours of the charts in the dark: the page sets them over the ones that the charts carry. */
const DARK: Record<string, string> = {
  [PAPER]: '#211f1c',
  [INK]: '#ece7dc',
  [QUIET]: '#a8a198',
  [ACCENT]: '#e0805e',
  [LINE]: '#47423b',
  [TINT]: '#8c4a31',
};

const NAMES: Record<string, string> = {
  paper: PAPER,
  ink: INK,
  quiet: QUIET,
  accent: ACCENT,
  line: LINE,
};

const variables = (shade: (colour: string) => string) =>
  Object.entries(NAMES)
    .map(([name, colour]) => `--${name}:${shade(colour)}`)
    .join(';');

// A rule beats the attribute of a mark, so that charts drawn for light paper follow the page.
const recoloured = Object.entries(DARK)
  .map(
    ([light, dark]) =>
      `svg [fill="${light}"]{fill:${dark}}svg [stroke="${light}"]{stroke:${dark}}svg[color="${light}"]{color:${dark}}`,
  )
  .join('');

/** The style sheet of the report: paper, ink and one accent; light or dark as the reader's system is set; print. */
export const STYLE = `
:root{color-scheme:light dark;${variables((colour) => colour)}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 Georgia,'Times New Roman',serif}
main{max-width:60rem;margin:0 auto;padding:2.5rem 1.25rem 4rem}
h1{font-size:2rem;line-height:1.2;margin:0 0 .75rem}
h2{font-size:1.3rem;margin:3rem 0 .75rem;padding-top:.75rem;border-top:2px solid var(--ink)}
p{max-width:44rem;margin:.5rem 0}
.verdict{font-size:1.15rem}
.quiet,figcaption,caption{color:var(--quiet)}
a{color:inherit}
.scroll{overflow-x:auto}
table{border-collapse:collapse;font:13px/1.35 system-ui,sans-serif;font-variant-numeric:tabular-nums;min-width:100%}
caption{text-align:left;padding:.25rem 0 .5rem}
th,td{padding:.3rem .5rem;text-align:right;border-bottom:1px solid var(--line);white-space:nowrap}
th{vertical-align:bottom;font-weight:600;white-space:normal;min-width:3.2rem}
td.word,th.word{text-align:left}
td.missed{color:var(--accent);font-weight:600}
tbody tr:first-child{background:color-mix(in srgb,var(--accent) 12%,transparent)}
details tbody tr:first-child{background:none}
figure{margin:1.25rem 0}
svg{max-width:100%;height:auto;display:block}
details{margin:.75rem 0;border-left:3px solid var(--line);padding-left:1rem}
summary{cursor:pointer;font-weight:600}
summary:hover{color:var(--accent)}
:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.2rem 1.5rem;font:14px/1.4 system-ui,sans-serif}
dt{color:var(--quiet)}
dd{margin:0;overflow-wrap:anywhere}
ul{padding-left:1.25rem}
@media screen and (max-width:75rem){
.wide{overflow-x:auto}
.wide svg{max-width:none}
}
@media screen and (prefers-color-scheme:dark){
:root{${variables((colour) => DARK[colour])}}
${recoloured}
}
@media print{
body{font-size:11pt;background:none}
main{max-width:none;padding:0}
h2{break-after:avoid}
figure,tr{break-inside:avoid}
table{font-size:8pt}
svg>rect[fill="${PAPER}"]{fill:none}
.scroll{overflow:visible}
}
`;
