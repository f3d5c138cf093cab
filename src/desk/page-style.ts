/** What the desk's page needs beside the style sheets of the report. */
export const DESK_STYLE = `
body{height:100vh;overflow:hidden}
.desk{display:grid;grid-template-rows:auto minmax(0,1fr);height:100vh}
.bar{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr) auto;gap:1rem;align-items:center;padding:.5rem 1rem;border-bottom:2px solid var(--ink)}
.bar>div:first-child{min-height:4.2rem}
.bar h1{font-size:1.25rem;margin:0}
.bar p{margin:0;font:14px/1.35 system-ui,sans-serif;max-width:none}
.bar .verdict{font-weight:600;max-height:2.7em;overflow:auto}
.bar .verdict.bad{color:var(--accent)}
.bar .last{color:var(--quiet);max-height:2.7em;overflow:auto}
main.room{max-width:none;margin:0;padding:0;display:grid;grid-template-columns:23rem minmax(0,1fr) 24rem;min-height:0}
.pane,.middle{min-height:0;overflow:auto;overflow-anchor:none;padding:.75rem 1rem}
.pane:first-child{border-right:1px solid var(--line)}
.beside{border-left:1px solid var(--line)}
.desk h2{font-size:1.05rem;margin:.2rem 0 .5rem;padding:0;border:0}
.desk h3{font-size:1rem;margin:.6rem 0 .3rem}
.desk .show{position:static;display:block}
.desk .stage{height:min(46vh,30rem);position:relative}
.looks{margin:.2rem 0;border:0;padding:0}
.looks summary{font:14px/1.9 system-ui,sans-serif}
.group{border-left:3px solid var(--line);margin:.35rem 0;padding-left:.6rem}
.group.chosen{border-left-color:var(--accent)}
.group summary{min-height:1.9rem;line-height:1.9rem}
.numbers .dim{grid-template-columns:5.2rem minmax(3rem,1fr) 3.9rem 5.8rem;gap:.4rem;min-height:2.1rem}
.numbers .dim select{min-height:1.9rem}
.numbers .dim select:not(.more){grid-column:2/5}
.numbers .dim select.more{grid-column:auto;width:100%;min-width:0;padding:.1rem;font-size:12.5px}
.numbers .dim input[type=range]{height:1.9rem}
.numbers .dim input[type=number]{min-height:1.9rem;appearance:textfield}
.numbers input::-webkit-inner-spin-button{appearance:none}
.to-dim{padding:0 .25rem;min-height:1.6rem;border-color:var(--line)}
.wants li{display:flex;flex-wrap:wrap;gap:.2rem .5rem;align-items:center;margin:.2rem 0}
.wants input,.new-want input{width:4rem;min-height:1.8rem}
.wants label,.new-want label{display:inline-flex;gap:.3rem;align-items:center}
.add>.quiet{font:13px/1.4 system-ui,sans-serif}
.new-want{margin:.4rem 0;padding-left:1.1rem;font:14px/1.35 system-ui,sans-serif}
.new-want select{max-width:11rem}
.numbers .dim span{font-size:13px}
.buttons.small{gap:.3rem;margin:.2rem 0 .4rem}
.buttons.small input{width:7rem;min-height:1.9rem;background:var(--field);border:1px solid var(--quiet);border-radius:3px;padding:.2rem .4rem}
.buttons.small button{padding:.2rem .5rem;min-height:1.9rem}
.follows{font:13px/1.4 system-ui,sans-serif;margin:.15rem 0}
.tabs{display:flex;gap:.3rem;border-bottom:1px solid var(--line);margin-bottom:.75rem}
.tabs button{border-bottom:0;border-radius:3px 3px 0 0;min-height:2.3rem}
.tabs button[aria-selected=true]{border-color:var(--ink);box-shadow:inset 0 3px var(--accent);font-weight:600}
.beside{display:flex;flex-direction:column}
.beside>[role=tabpanel]{min-height:0;flex:1;overflow:auto}
.beside>[hidden]{display:none}
.side-score>*{border-top:1px solid var(--line);padding:.6rem 0}
.side-score>*:first-child{border-top:0;padding-top:0}
.side-score h4{display:none}
.side-score td,.side-score th{white-space:normal}
.side-score td,.side-score th{vertical-align:baseline}
.side-score td:nth-child(2),.side-score .asked{white-space:nowrap}
.side-score summary{min-height:1.9rem;line-height:1.9rem}
.plain{margin:.2rem 0 .5rem;padding-left:1.1rem;font:14px/1.4 system-ui,sans-serif}
.plain button{padding:.1rem .4rem;min-height:1.7rem}
.chart svg,.large svg{display:block;width:100%;height:auto}
dialog.large{max-width:min(96vw,60rem);width:96vw}
.catches{margin:.3rem 0;padding-left:1.4rem;font:14px/1.35 system-ui,sans-serif}
.catches button{text-align:left;margin:.15rem 0}
.labels .ring{width:34px;height:34px;margin:-17px 0 0 -17px;padding:0;border:4px solid var(--accent);border-radius:50%;background:none}
.add .row,.flat .row{margin-top:.6rem}
.add select,.flat select{max-width:16rem}
.starters{display:flex;flex-wrap:wrap;gap:.5rem;margin:.4rem 0}
.starter{display:grid;justify-items:center;gap:.15rem;width:8.4rem;padding:.4rem}
.starter svg{width:7.4rem;height:5rem}
.starter .trouble{color:var(--accent);font-size:12px}
.drawing .card-new{fill:var(--accent)}
.flat-board svg{width:100%;height:15rem;background:color-mix(in srgb,var(--line) 35%,var(--paper));border:1px solid var(--line)}
.flat-card{fill:var(--card-1)}
.held .flat-card{stroke:var(--edge);stroke-width:1;vector-effect:non-scaling-stroke}
.flat-cut{fill:none;stroke:var(--edge);stroke-width:1.3;vector-effect:non-scaling-stroke}
.held .flat-cut,.held .flat-crease{opacity:.25}
.flat-crease{stroke:var(--quiet);stroke-width:1;stroke-dasharray:5 4;vector-effect:non-scaling-stroke}
.flat-crease.mountain{stroke-dasharray:8 3 1.5 3}
.grips{position:absolute;inset:0;overflow:hidden;pointer-events:none}
.stage-grip{position:absolute;left:-12px;top:-12px;width:24px;height:24px;min-height:0;padding:0;border:0;border-radius:50%;background:none;cursor:move;pointer-events:auto;touch-action:none}
.stage-grip::after{content:"";position:absolute;inset:6px;border-radius:50%;background:var(--accent);border:1.5px solid var(--paper)}
.stage-grip:hover::after,.stage-grip.held::after{inset:4px}
.grips:has(.held) .stage-grip:not(.held){visibility:hidden}
.stage-grip:focus-visible{outline:2px solid var(--ink);outline-offset:-3px}
.held-at,.no-grip{position:absolute;left:.6rem;top:.5rem;margin:0;padding:.1rem .4rem;font:13px/1.3 system-ui,sans-serif;background:var(--paper);border:1px solid var(--line);border-radius:3px;pointer-events:none}
.held-at:empty,.no-grip:empty,.past:empty{display:none}
.past{margin:0 0 .3rem;font:14px/1.4 system-ui,sans-serif;color:var(--accent)}
.is-past .stage{opacity:.45}
.grip{fill:var(--quiet);fill-opacity:.75;stroke:var(--paper);stroke-width:1.5;vector-effect:non-scaling-stroke;cursor:move;touch-action:none}
.grip.own{fill:var(--accent)}
.grip:focus-visible{outline:none;stroke:var(--ink);stroke-width:2;fill-opacity:1}
.write .cm-editor{font-size:13px;border:1px solid var(--line);background:var(--field)}
.write .cm-editor .cm-gutters{background:var(--paper);color:var(--quiet);border-right:1px solid var(--line)}
.write .cm-editor .cm-cursor{border-left-color:var(--ink)}
.write .cm-editor .cm-tooltip{background:var(--paper);color:var(--ink);border:1px solid var(--quiet)}
.write .cm-editor .cm-tooltip-autocomplete ul li[aria-selected]{background:var(--accent);color:var(--paper)}
.write .cm-editor .cm-lintRange-error{background:none;text-decoration:underline wavy var(--accent) 1.5px;text-underline-offset:3px}
.word-help{padding:.3rem .5rem;max-width:22rem;font:13px/1.4 system-ui,sans-serif}
.question{display:grid;grid-template-columns:6.5rem 1fr;gap:.6rem;align-items:center;margin:.45rem 0;font:14px/1.3 system-ui,sans-serif}
.ask .buttons{margin:.6rem 0}
.progress{font:12px/1.45 ui-monospace,monospace;white-space:pre-wrap;overflow-wrap:anywhere;border:1px solid var(--line);padding:.5rem;max-height:20rem;overflow:auto}
.progress:empty{display:none}
.offers,.files{padding-left:0;list-style:none;font:14px/1.35 system-ui,sans-serif}
.offers .quiet{flex-basis:100%}
.offers li{display:flex;flex-wrap:wrap;gap:.3rem .6rem;align-items:center;padding:.3rem 0;border-bottom:1px solid var(--line)}
dialog{background:var(--paper);color:var(--ink);border:2px solid var(--ink);max-width:30rem}
.start{overflow:auto;height:100vh;max-width:none;padding-inline:max(1rem,(100vw - 70rem)/2)}
.patterns{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:1rem;margin-top:1.2rem}
.pattern{display:grid;gap:.3rem;text-align:left;padding:.8rem;align-content:start}
.pattern svg{width:100%;height:9rem}
.pattern strong{font-size:1.05rem}
@media (max-width:75rem){
main.room{grid-template-columns:19rem minmax(0,1fr) 19rem}
.numbers .dim{grid-template-columns:minmax(0,1fr) 4.2rem 5.6rem}
.numbers .dim input[type=range]{grid-column:1/-1;order:1}
.numbers .dim select:not(.more){grid-column:2/4}
}
@media (max-width:60rem){
body{height:auto;overflow:auto}
.desk{height:auto;display:block}
.bar{grid-template-columns:1fr auto;position:sticky;top:0;background:var(--paper);z-index:3}
.bar>div:first-child{min-height:0}
.bar .last{grid-column:1/-1;order:1}
main.room{display:flex;flex-direction:column}
.middle{order:-1}
.pane:first-child,.beside{border:0}
.desk .stage{position:relative;height:40vh}
.numbers .dim{grid-template-columns:9rem minmax(0,1fr) 5rem 7rem}
.numbers .dim input[type=range]{grid-column:auto;order:0}
.numbers .dim select:not(.more){grid-column:2/5}
}
`;
