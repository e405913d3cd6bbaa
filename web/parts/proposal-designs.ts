import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { Proposal, ProposalMeasures, Proposals } from '../../src/answer/proposals.ts';
import { drawPlot, type Plot, plotScales } from '../drawing/plot.ts';
import { proposalMark } from '../drawing/proposal-marks.ts';
import { fixed, percent, quantity } from '../format.ts';
import { designProposal, letterOf } from '../state/proposing.ts';
import type { Store } from '../state/store.ts';
import { applyButton } from './asked-fold.ts';

const money = (cents: number): string => fixed(cents / 100, 2);

interface Row {
  readonly label: string;
  readonly value: (of: ProposalMeasures) => string;
}

const known = (x: number | null, write: (x: number) => string): string =>
  x === null ? 'not known' : write(x);

/** What designs are laid side by side in. */
const rows: readonly Row[] = [
  { label: 'Price', value: ({ price_cents }) => known(price_cents, money) },
  { label: 'From the mains', value: ({ input_W }) => quantity(input_W, 'W', 0) },
  { label: 'Depth', value: ({ depth_mm }) => quantity(depth_mm, 'mm') },
  { label: 'Hottest place', value: ({ hottest_degC }) => known(hottest_degC, (x) => quantity(x, '°C')) },
  { label: 'Drivers', value: ({ driverCount }) => fixed(driverCount, 0) },
  { label: 'Joints to make', value: ({ jointCount }) => fixed(jointCount, 0) },
  { label: 'Strip', value: ({ strip_m }) => quantity(strip_m, 'm', 1) },
  { label: 'Cable', value: ({ cable_m }) => quantity(cable_m, 'm', 1) },
  { label: 'Unevenness', value: ({ unevenness }) => percent(unevenness) },
  { label: 'Warnings', value: ({ warningCount }) => fixed(warningCount, 0) },
];

/** Designs as columns beside the job as it stands. */
export function designTable({ designs, present }: Proposals, store: Store, isOld: boolean): TemplateResult {
  const deepest_mm = Math.max(
    ...designs.flatMap(({ sizing: { section } }) => [section.depth_mm, section.available_mm]),
  );
  return html`<div class="designs-scroll" role="region" aria-label="Designs side by side" tabindex="0">
    <table class="small-table designs">
      <caption>
        Designs in which no check fails
      </caption>
      <thead>
        <tr>
          <th scope="col"><span class="unseen">Measure</span></th>
          <th scope="col" class="is-figure">As it stands</th>
          ${designs.map((_, i) => html`<th scope="col" class="is-figure">Design ${letterOf(i)}</th>`)}
        </tr>
      </thead>
      <tbody>
        <tr class="design-marks">
          <th scope="row"><span class="unseen">Drawing</span></th>
          <td></td>
          ${designs.map((design) => html`<td>${proposalMark(design, deepest_mm)}</td>`)}
        </tr>
        ${rows.map(
          ({ label, value }) =>
            html`<tr>
              <th scope="row">${label}</th>
              <td class="is-figure">${present.measures ? value(present.measures) : 'refused'}</td>
              ${designs.map(({ measures }) => html`<td class="is-figure">${value(measures)}</td>`)}
            </tr>`,
        )}
        <tr>
          <th scope="row">Passes</th>
          <td class="is-figure">${present.fails.length === 0 ? 'yes' : `${present.fails.length} checks fail`}</td>
          ${designs.map(() => html`<td class="is-figure">yes</td>`)}
        </tr>
        <tr>
          <th scope="row"><span class="unseen">Apply</span></th>
          <td></td>
          ${designs.map(
            (design, i) =>
              html`<td class="is-figure">${isOld ? nothing : applyDesign(store, design, `Design ${letterOf(i)}`)}</td>`,
          )}
        </tr>
      </tbody>
    </table>
  </div>`;
}

/** Makes a design part of the job, in one step of undo. */
export function applyDesign(store: Store, design: Proposal, name: string): TemplateResult | typeof nothing {
  const proposal = designProposal(design);
  return applyButton(store, { ...proposal, what: `${name}: ${proposal.what}` });
}

/** The two measures that say most about what is traded for what. */
/** A measure that is drawn. */
interface Drawn extends Row {
  readonly of: (measures: ProposalMeasures) => number;
}

function axesOf(designs: readonly Proposal[]): { readonly x: Drawn; readonly y: Drawn } {
  const isPriced = designs.every(({ measures }) => measures.price_cents !== null);
  const varies = (of: (m: ProposalMeasures) => number): boolean =>
    new Set(designs.map(({ measures }) => Math.round(of(measures) * 100))).size > 1;
  const x = isPriced
    ? { ...rows[0]!, of: (m: ProposalMeasures) => m.price_cents! / 100 }
    : { ...rows[1]!, of: (m: ProposalMeasures) => m.input_W };
  const depth = { ...rows[2]!, of: (m: ProposalMeasures) => m.depth_mm };
  const joints = { ...rows[5]!, of: (m: ProposalMeasures) => m.jointCount };
  return { x, y: varies(depth.of) ? depth : joints };
}

function range(values: readonly number[]): { readonly from: number; readonly to: number } {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = Math.max(0.15 * (most - least), 0.02 * Math.max(Math.abs(most), 1));
  return { from: Math.max(0, least - room), to: most + room };
}

/** Designs as points: price, or watts where prices are not known, against depth, or joints where all are as deep. */
export function tradeOff({ designs }: Proposals, width: number): SVGTemplateResult | typeof nothing {
  if (designs.length < 2) return nothing;
  const { x, y } = axesOf(designs);
  const [xs, ys] = [x, y].map((axis) => designs.map(({ measures }) => axis.of(measures)));
  const plot: Plot = {
    title: `${x.label} against ${y.label.toLowerCase()} of ${designs.length} designs: ${designs.map(({ measures }, i) => `${letterOf(i)} ${x.value(measures)} and ${y.value(measures)}`).join('; ')}`,
    width,
    height: 170,
    x: { ...range(xs!), label: x.label.toLowerCase(), write: (value) => fixed(value, value < 10 ? 1 : 0) },
    y: {
      ...range(ys!),
      label: y.label.toLowerCase(),
      write: (value) => fixed(value, value % 1 === 0 ? 0 : 1),
    },
    series: [],
    band: undefined,
    levels: [],
  };
  const at = plotScales(plot);
  const points = designs.map(
    (_, i) => svg`<g class="design-point">
      <circle cx=${at.x(xs![i]!)} cy=${at.y(ys![i]!)} r="4"></circle>
      <text x=${at.x(xs![i]!) + 8} y=${at.y(ys![i]!)} dy="0.35em">${letterOf(i)}</text>
    </g>`,
  );
  return drawPlot(plot, svg`${points}`);
}

/** Choices made otherwise, one line each. */
export function changeList(changes: Proposal['changes']): TemplateResult {
  if (changes.length === 0) return html`<p class="remark">Nothing changes.</p>`;
  return html`<ul class="changes">
    ${changes.map(({ label, before, after }) => html`<li><b>${label}:</b> ${after} <span class="was">instead of ${before}</span></li>`)}
  </ul>`;
}

/** One design in words: what it is best in, what it trades, what changes, what it warns of. */
export function designWords(design: Proposal, i: number): TemplateResult {
  const { bestIn, beats, changes, warnings, bill } = design;
  return html`<section class="design-words" aria-label="Design ${letterOf(i)} in words">
    <h3>Design ${letterOf(i)}${bestIn.length > 0 ? html`<span class="best-in">: ${bestIn.join(', ')}</span>` : nothing}</h3>
    ${beats === '' ? nothing : html`<p>${beats}</p>`} ${changeList(changes)}
    <details>
      <summary>${warnings.length === 0 ? 'What to order' : `What to order, and ${warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}`}</summary>
      ${warnings.map(({ title, sentence }) => html`<p class="remark"><b>${title}:</b> ${sentence}</p>`)}
      <ul class="changes">
        ${bill.map(({ item, description, quantity: count, unit }) => html`<li><b>${item}:</b> ${fixed(count, 0)} ${unit}, ${description}</li>`)}
      </ul>
    </details>
  </section>`;
}
