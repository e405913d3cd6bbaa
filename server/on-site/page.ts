import { readFileSync } from 'node:fs';
import type { PackInput } from '../papers/pack.ts';
import { onSiteData } from './data.ts';

/** The script of the page as it was built, beside the built page; from the sources, in their build. */
const script = new URL('../../build/web/on-site.js', import.meta.url);
const builtScript = new URL('../../web/on-site.js', import.meta.url);

const style = `
:root { color-scheme: light; font: 16px/1.4 system-ui, sans-serif; color: #1b1b1b; background: #fbf9f4; }
body { margin: 0 auto; max-width: 60rem; padding: 0.75rem; }
h1 { font-size: 1.4rem; margin: 0.2rem 0; } h2 { font-size: 1.15rem; margin: 1.4rem 0 0.4rem; }
#wall svg { width: 100%; height: auto; max-height: 60vh; touch-action: manipulation; }
.panel { fill: #efe6d6; stroke: #555; } .slot { stroke: #b35900; } .is-wrong { stroke: #b3261e; stroke-dasharray: 60 40; }
.number { fill: #1b1b1b; text-anchor: middle; font-weight: 600; }
.is-chosen { stroke: #1f4f8b; stroke-width: 1.2%; }
nav { display: flex; gap: 0.5rem; align-items: end; } nav label { flex: 1; } select, input:not([type=checkbox]) { font: inherit; width: 100%; box-sizing: border-box; min-height: 44px; }
button { font: inherit; min-height: 44px; min-width: 44px; padding: 0 0.8rem; } input[type=checkbox] { width: 1.4rem; height: 1.4rem; vertical-align: middle; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.2rem 0.8rem; } dt { font-weight: 600; } dd { margin: 0; overflow-wrap: anywhere; }
@media (max-width: 500px) { dl { grid-template-columns: 1fr; } dd { margin-bottom: 0.4rem; } }
fieldset { border: 1px solid #8a8a8a; margin: 0.6rem 0; } legend { font-weight: 700; } .step { margin: 0.2rem 0 0.6rem; }
.box { margin: 0.5rem 0; } .tick { display: block; padding: 0.5rem 0; } .says { font-weight: 600; } .is-in { color: #1d5c2b; } .is-out { color: #a11c15; }
#verdict { border-left: 4px solid #1f4f8b; padding: 0.1rem 0.8rem; background: #fff; } [aria-busy=true] { opacity: 0.6; }
.wide { overflow-x: auto; } table { border-collapse: collapse; font-size: 0.85rem; } th, td { border: 1px solid #999; padding: 0.15rem 0.4rem; text-align: left; vertical-align: top; }
summary { min-height: 44px; padding-top: 0.6rem; } .drawing svg { width: 70rem; height: auto; } .caution { font-weight: 600; }
`;

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** Code that does not end its own element: a tag can only stand in its strings. */
const inScript = (code: string): string => code.replaceAll(/<(?=\/script)/gi, '\\u003c');

/** A drawing without what only stands before one in a file of its own. */
const bareSvg = (text: string): string => text.slice(text.indexOf('<svg'));

/** Drawings to go with the data, as SVG. */
export interface OnSiteDrawing {
  readonly title: string;
  readonly svg: string;
}

/**
 * One revision as a page in one file that needs no network: the wall, what belongs to each slot, the test sheet with the
 * engine's own judgement, drawings and schedules. It sends nothing; what is measured is saved as a file the workshop's page takes in.
 */
export function handOverPage(input: PackInput, drawings: readonly OnSiteDrawing[]): string {
  const data = onSiteData(input);
  const code = readFileSync(import.meta.url.endsWith('.ts') ? script : builtScript, 'utf8');
  const list = (texts: readonly string[]): string =>
    texts.map((text) => `<li>${escaped(text)}</li>`).join('');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(data.title)}: hand-over on site</title>
<style>${style}</style>
</head>
<body data-file="${escaped(data.revision ? `${data.revision.jobId}-${data.revision.id}` : 'draft')}">
<header>
<h1>${escaped(data.title)}</h1>
<p>${escaped(data.about)}<br>${escaped(data.status)}. Computed with Slotwatt ${escaped(data.engine)}.</p>
<p class="caution">A design aid: mains and fixed wiring are for a licensed electrician, and the makers' data sheets come first. This file needs no network and sends nothing.</p>
</header>
<main>
${data.conditions.map((text) => `<p class="caution">${escaped(text)}</p>`).join('')}
<h2>The wall</h2>
<p>Seen from the room. Touch a slot, or choose it below, to see what belongs to it.</p>
<div id="wall"></div>
<nav aria-label="Slot by slot">
<button type="button" id="before" >Back</button>
<label>Look at <select id="place"></select></label>
<button type="button" id="next" >Next</button>
</nav>
<dl id="facts"></dl>
<h2>Readings</h2>
<p><label>Your name <input id="by" maxlength="40" autocomplete="name"></label></p>
<div id="boxes"></div>
<h2>What the readings say</h2>
<p id="counts" role="status"></p>
<div id="verdict" aria-live="polite"></div>
<p><button type="button" id="save">Save the readings as a file</button> Open it in the workshop's page: they are put into this revision.</p>
<h2>Drawings</h2>
${drawings.map(({ title, svg }) => `<details><summary>${escaped(title)}</summary><div class="wide drawing" tabindex="0" role="region" aria-label="${escaped(title)}">${bareSvg(svg)}</div></details>`).join('\n')}
<h2>Schedules</h2>
<div id="schedules"></div>
<h2>Cautions</h2>
<ol>${list(data.cautions)}</ol>
</main>
<script type="application/json" id="data">${JSON.stringify(data).replaceAll('<', '\\u003c')}</script>
<script id="code">${inScript(code)}</script>
</body>
</html>
`;
}
