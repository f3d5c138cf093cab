/** What the live page needs beside the style sheet of every report: stage, controls, charts that answer. */
export const LIVE_STYLE = `
:root{--mark:var(--accent);--card-0:#fffdf8;--card-1:#f8efdf;--card-2:#efe2ca;--card-3:#f5e9d3;--card-4:#e8d9bd;--edge:#3a3733;--field:#fff}
main{max-width:84rem}
h2{margin-top:2rem}
#dummy>h2{margin-top:.6rem;padding-top:.5rem}
.summary{columns:30rem 2;column-gap:2.5rem}
.summary p{max-width:none;margin:0 0 .3rem;break-inside:avoid}
.summary .item{margin:.2rem 0 .2rem 1rem}
h3{font-size:1.4rem;margin:0}
h4{font-size:1rem;margin:0 0 .4rem}
button,select,input{font:14px/1.3 system-ui,sans-serif;color:inherit}
button,select,input[type=number]{background:var(--field);border:1px solid var(--quiet);border-radius:3px;padding:.3rem .6rem;min-height:2rem}
input[type=number]{padding:.3rem;width:5.2rem}
button{cursor:pointer}
button:hover:not(:disabled){border-color:var(--accent);color:var(--accent)}
button:disabled{color:var(--quiet);border-color:var(--line);cursor:default}
button[aria-pressed=true]{border-color:var(--accent);box-shadow:inset 0 -3px var(--accent)}
input[type=range],input[type=checkbox]{accent-color:var(--accent);margin:0}
label{display:inline-flex;align-items:center;gap:.45rem;font:14px/1.3 system-ui,sans-serif}
.buttons,.row,.look{display:flex;flex-wrap:wrap;gap:.5rem .9rem;align-items:center}
.row p,.row span{margin:0;font:14px/1.3 system-ui,sans-serif}
.hidden{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
.chosen-head{display:flex;flex-wrap:wrap;justify-content:space-between;align-items:center;gap:.5rem 1rem;margin-bottom:.75rem}
.chosen-head p{margin:0;font:14px/1.4 system-ui,sans-serif}
.theatre{display:grid;grid-template-columns:minmax(0,1fr) 25rem;gap:1.5rem;align-items:start}
.show{position:sticky;top:.75rem}
.stage{position:relative;height:min(62vh,36rem);border:1px solid var(--line);background:linear-gradient(var(--paper),color-mix(in srgb,var(--line) 55%,var(--paper)));overflow:hidden}
.stage canvas{position:absolute;inset:0;width:100%;height:100%;cursor:grab}
.stage canvas:active{cursor:grabbing}
.stage canvas:focus-visible{outline-offset:-3px}
.stage.flat{display:flex;justify-content:space-evenly;align-items:center}
.stage.flat svg{height:100%;min-width:0}
.stage.flat p{position:absolute;left:.75rem;bottom:0}
.labels{position:absolute;inset:0;z-index:1;pointer-events:none;font:13px/1.3 system-ui,sans-serif;overflow:hidden}
.labels span{position:absolute;left:0;top:0;white-space:nowrap;padding:.1rem .4rem;background:var(--paper);border:1px solid var(--line);border-radius:3px}
.labels .catch{background:var(--accent);color:var(--paper);border-color:var(--accent);font-weight:600}
.labels .corner{font-weight:600}
.page-angle{display:grid;grid-template-columns:auto 1fr 4rem;gap:.4rem .9rem;align-items:center;margin:.75rem 0}
.page-angle .buttons{grid-column:1/-1}
.page-angle .buttons:empty{display:none}
.play{min-width:4.2rem}
.track{position:relative;padding-bottom:.55rem}
.track input{width:100%;display:block}
.marks{position:absolute;left:8px;right:8px;bottom:0;height:.55rem}
.marks span{position:absolute;bottom:0;width:0;height:0;margin-left:-5px;border:5px solid transparent;border-bottom:8px solid var(--accent);border-top:0}
.marks .first{border-bottom-color:var(--ink)}
.marks .lock{border-bottom-color:var(--quiet)}
.angle{font:600 1.1rem/1 system-ui,sans-serif;font-variant-numeric:tabular-nums;text-align:right}
.look{font-size:14px}
.look>[hidden]{display:none}
.look input[type=range]{width:7rem}
.aside>*{border-top:1px solid var(--line);padding:.9rem 0}
.aside>*:first-child{border-top:0;padding-top:0}
.said{margin:.2rem 0;padding-left:.7rem;border-left:4px solid var(--accent)}
.said.works{border-left-color:var(--ink)}
.verdict-now{min-height:5.5rem}
.findings{font:14px/1.4 system-ui,sans-serif;margin:.4rem 0;padding-left:1.1rem}
.findings:empty{display:none}
.scorecard table{min-width:0;width:100%}
.scorecard th,.scorecard td{padding:.16rem .3rem;min-width:0}
.scorecard th{text-align:left;font-weight:400}
.scorecard thead td{color:var(--quiet);border-bottom-color:var(--quiet)}
.scorecard .asked{color:var(--quiet)}
.scorecard .mark{text-align:left}
.missed .mark,.missed th{color:var(--accent);font-weight:600}
.scorecard tbody tr:first-child,.failures tbody tr:first-child{background:none}
.dims{display:grid;gap:.15rem;margin-bottom:.7rem}
.dim{display:grid;grid-template-columns:7.5rem 1fr 4.6rem;gap:.6rem;align-items:center;font:14px/1.2 system-ui,sans-serif}
.dim span{overflow-wrap:anywhere}
.dim input[type=range]{width:100%;min-width:0}
.dim input[type=number]{width:100%;min-height:1.7rem;padding:.1rem .25rem}
.dim select{grid-column:2/4;min-height:1.7rem;padding:.1rem .25rem}
.pile,.turning{padding-left:0;border-left:0}
.turning svg{max-height:12rem;margin:.5rem 0;font-size:11px;fill:var(--quiet)}
.turning path{fill:none;stroke:var(--quiet);stroke-width:.8}
.turning .turning-bound{stroke-dasharray:3 3}
.turning .turning-line{stroke:var(--accent);stroke-width:1.8}
.pile svg{max-height:20rem;margin:.5rem 0}
.pile-page{fill:var(--card-0);stroke:var(--quiet)}
.pile-panel{fill:#8d7f68;stroke:var(--edge);stroke-width:.3}
.pile-mark{fill:none;stroke:var(--mark);stroke-width:1.2}
.filters{margin:.5rem 0 1rem}
.fields{display:grid;grid-template-columns:repeat(auto-fill,minmax(14rem,1fr));gap:.6rem 1rem;margin-top:.6rem}
.fields{align-items:end}
fieldset{border:0;margin:0;padding:0;font:14px/1.3 system-ui,sans-serif;min-width:0}
fieldset label{margin-right:.8rem}
legend{padding:0;font-weight:600;margin-bottom:.15rem}
.board{position:relative;width:100%;margin:.5rem 0;user-select:none}
.board canvas,.board .over{position:absolute;inset:0;width:100%;height:100%;object-fit:contain}
.scatter{height:400px;cursor:crosshair}
.lines{height:320px;margin:0;touch-action:pan-x;cursor:row-resize}
.over{font:11px system-ui,sans-serif;overflow:visible;max-width:none}
.over text{fill:var(--quiet)}
.over .title{fill:var(--ink);font-size:12px}
.over .grid{stroke:var(--line);stroke-width:1;opacity:.6}
.over .axis{stroke:var(--ink)}
.over .value{fill:var(--ink);font-weight:600;paint-order:stroke;stroke:var(--paper);stroke-width:3px}
.over .brush{fill:var(--mark);fill-opacity:.25;stroke:var(--mark)}
.over .front{fill:var(--mark);stroke:var(--paper)}
.over .chosen{fill:none;stroke:var(--ink);stroke-width:2.5}
.over .beside{fill:none;stroke:var(--ink);stroke-width:1.5;stroke-dasharray:3 2}
.walk input{width:14rem;max-width:50vw}
.parallel{margin-top:1.25rem}
.heads{display:grid;grid-auto-flow:column;grid-auto-columns:minmax(0,1fr);font:11px/1.2 system-ui,sans-serif;text-align:center;align-items:end}
.heads span{padding:0 .2rem;overflow-wrap:anywhere}
.heads.names{font-weight:600}
.heads.ends{color:var(--quiet)}
.ranking table th,.ranking table td{min-width:3.4rem;vertical-align:middle}
.ranking thead button{border:0;background:none;padding:0;min-height:0;font:inherit;text-align:right;text-decoration:underline dotted;text-underline-offset:3px}
.ranking th[aria-sort] button::after{content:' ↑'}
.ranking th[aria-sort=descending] button::after{content:' ↓'}
.ranking tbody tr:first-child{background:none}
.ranking tbody tr.chosen{background:color-mix(in srgb,var(--accent) 14%,transparent)}
.ranking tbody tr.beside{box-shadow:inset 4px 0 var(--accent)}
.ranking .word{white-space:normal}
.ranking td.word{min-width:8rem}
.ranking .scroll{background:linear-gradient(90deg,var(--paper) 40%,transparent) 0 0/3rem 100% no-repeat local,linear-gradient(-90deg,var(--paper) 40%,transparent) 100% 0/3rem 100% no-repeat local,linear-gradient(90deg,var(--line),transparent) 0 0/1rem 100% no-repeat,linear-gradient(-90deg,var(--line),transparent) 100% 0/1rem 100% no-repeat}
.ranking th.word button{white-space:nowrap}
.picture{padding:.1rem .3rem}
.frame{display:block;width:6.6rem;height:4.6rem}
.drawing{width:100%;height:100%;max-width:none}
.drawing path{stroke:var(--edge);stroke-width:1.2;stroke-linejoin:round;vector-effect:non-scaling-stroke}
.frame .drawing path{stroke-width:.8}
.drawing .card-0{fill:var(--card-0)}
.drawing .card-1{fill:var(--card-1)}
.drawing .card-2{fill:var(--card-2)}
.drawing .card-3{fill:var(--card-3)}
.drawing .card-4{fill:var(--card-4)}
.failures{min-width:0}
.failures tbody th,.failures tbody td{vertical-align:middle}
.stills{display:none}
@media (prefers-color-scheme:dark){
:root{--card-0:#cfc8ba;--card-1:#c2b69f;--card-2:#b5a88f;--card-3:#bdb097;--card-4:#a99b80;--edge:#1b1916;--field:#2b2824;--mark:#ff9a73}
.pile-panel{fill:#6d604c}
}
@media (max-width:60rem){
.theatre{display:block}
.show{position:static}
.aside{margin-top:1rem}
}
@media (max-width:40rem){
main{padding:1.25rem .9rem 3rem}
.dim{grid-template-columns:6.2rem 1fr 4.4rem}
dl{grid-template-columns:1fr}
dd{margin-bottom:.4rem}
}
@media (max-width:60rem) and (min-height:34rem){
.stage{height:40vh;position:sticky;top:0;z-index:1}
.show{display:contents}
.theatre *{scroll-margin-top:42vh}
}
@media print{
:root{--paper:#fff;--ink:#000;--quiet:#444;--accent:#a63d1f;--mark:#a63d1f;--line:#bbb}
.show,.change,.filters details,.ranking .buttons,.chosen-head .buttons,.row label,.walk,.filters label,.filters button,.failures button{display:none}
.theatre{display:block}
.stills{display:flex;flex-wrap:wrap;gap:.5rem}
.stills{break-inside:avoid}
.stills figure{width:18%;margin:0;height:auto}
.ranking td.word{min-width:5rem}
.ranking .scroll,.chart .scroll{overflow:hidden}
.parallel{min-width:0!important}
.ranking button{border:0;box-shadow:none!important;padding:0;background:none;font:inherit}
.board{break-inside:avoid}
.frame{width:3rem;height:2.2rem}
}
`;
