import { html, nothing, type TemplateResult } from 'lit';
import type { AskedHeat } from '../../src/answer/asked.ts';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { askHeat } from '../api.ts';
import { type Sweep, sweepKey, sweepPlot } from '../drawing/heat-sweeps.ts';
import { nearest, quantity } from '../format.ts';
import { Asking, type Given } from '../state/asking.ts';
import {
  cavityProposal,
  limitedDimmerProposal,
  type Proposal,
  variantProposal,
  weakerStripProposal,
} from '../state/proposals.ts';
import type { Answer, State } from '../state/store.ts';
import { applyButton, askedFold } from './asked-fold.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

type SweepPoint = AskedHeat['byDepth'][number];

const watts = (w_per_m: number): string => quantity(w_per_m, 'W/m');
const depth = (depth_mm: number): string => quantity(nearest(depth_mm, 1), 'mm');
const depths = (from_mm: number, to_mm: number): string =>
  `${quantity(nearest(from_mm, 1), '')} to ${depth(to_mm)}`;

/** True where the least depth looked at passes already, so that none shallower is known. */
const passesFromTheFirst = ({ byDepth, passing_mm }: Pick<AskedHeat, 'byDepth' | 'passing_mm'>): boolean =>
  (passing_mm[0]?.from_mm ?? Number.POSITIVE_INFINITY) <= (byDepth[0]?.cavity_mm ?? 0) + 0.05;

/** The point of the sweep over power that is the job's own. */
function ownPoint({ value, of }: Given<AskedHeat>): SweepPoint {
  const own = of.sizing.heat.strip_W_per_m;
  const off = (point: SweepPoint): number => Math.abs(point.strip_W_per_m - own);
  return value.byPower.reduce((a, b) => (off(b) < off(a) ? b : a));
}

/** The place whose limit comes first; limits that only warn do not count against passing. */
function nearestLimit({ temperatures }: HeatAnswer): string | undefined {
  const all = temperatures.flatMap(({ name, value_degC, limits }) =>
    limits
      .filter(({ beyond }) => beyond !== 'caution')
      .map(({ limit_degC }) => ({ name, limit_degC, room_K: limit_degC - value_degC })),
  );
  if (all.length === 0) return undefined;
  const { name, limit_degC } = all.reduce((a, b) => (b.room_K < a.room_K ? b : a));
  return `${name.toLowerCase()}, ${quantity(limit_degC, '°C')}`;
}

function depthSweep({ value }: Given<AskedHeat>, job: SweepPoint): Sweep {
  return {
    title: `Temperature of strip and timber against the depth of the cavity. ${depthWords(value)}`,
    label: 'depth of the cavity, mm',
    points: value.byDepth,
    along: (point) => point.cavity_mm,
    job,
    passing: value.passing_mm.map(({ from_mm, to_mm }) => ({ from: from_mm, to: to_mm, text: 'passes' })),
    room_degC: value.room_degC,
  };
}

function powerSweep({ value }: Given<AskedHeat>, job: SweepPoint): Sweep {
  const highest = value.highest_W_per_m;
  return {
    title: `Temperature of strip and timber against the power of the strip. ${powerWords(value)}`,
    label: 'power of the strip, W/m',
    points: value.byPower,
    along: (point) => point.strip_W_per_m,
    job,
    passing: highest === null ? [] : [{ from: 0, to: highest, text: 'passes' }],
    room_degC: value.room_degC,
  };
}

/** The depths that cannot be built, with the reason of the deepest of them. */
function gapWords({ gaps }: AskedHeat): string {
  const deepest = gaps.at(-1);
  return deepest ? ` Not at ${depth(deepest.cavity_mm)}: ${deepest.reason}` : '';
}

/** Which depths pass, in words; none is an answer too. */
function depthWords(asked: AskedHeat): string {
  return `${passingWords(asked)}${gapWords(asked)}`;
}

function passingWords({ byDepth, passing_mm }: AskedHeat): string {
  const [first, last] = [byDepth[0]?.cavity_mm ?? 0, byDepth.at(-1)?.cavity_mm ?? 0];
  const looked = depths(first, last);
  if (passing_mm.length === 0) return `No depth from ${looked} passes.`;
  if (passesFromTheFirst({ byDepth, passing_mm }) && passing_mm[0]!.to_mm >= last - 0.05) {
    return `Every depth looked at passes, ${looked}.`;
  }
  const ranges = passing_mm.map(({ from_mm, to_mm }) => depths(from_mm, to_mm));
  return `Depths from ${ranges.join(' and from ')} pass, of ${looked} looked at.`;
}

function powerWords({ highest_W_per_m, highestNominal_W_per_m, highestIsBounded }: AskedHeat): string {
  if (highest_W_per_m === null) return 'No power passes in this section.';
  if (!highestIsBounded) return `Every power looked at passes, up to ${watts(highest_W_per_m)}.`;
  const sheet =
    highestNominal_W_per_m === null
      ? ''
      : `, drawn by a strip of ${watts(highestNominal_W_per_m)} on its data sheet`;
  return `The highest power that passes is ${watts(highest_W_per_m)}${sheet}.`;
}

/** What the least passing depth does to the build-up. */
function stackWords({ value, of }: Given<AskedHeat>): string {
  const least = value.passing_mm[0]?.from_mm;
  if (least === undefined || passesFromTheFirst(value)) return '';
  const { section } = of.sizing;
  const { cavity_mm, tolerance_mm } = of.job.section;
  const whole_mm = section.depth_mm - cavity_mm + least + tolerance_mm;
  return `A cavity of ${depth(least)} makes a build-up of ${depth(whole_mm)} with its tolerance, of ${quantity(section.available_mm, 'mm')} available.`;
}

const nominal_W_per_m = (channels: readonly { readonly watts_per_m: number }[]): number =>
  channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);

/** Watts at the working levels of the job over watts at full. */
function shareAtLevels({ job, sizing }: Answer): number {
  const { channels } = sizing.products.strip;
  const lit = channels.reduce((sum, one, i) => sum + one.watts_per_m * (job.dimming.levels[i] ?? 1), 0);
  return lit / (nominal_W_per_m(channels) || 1);
}

/** The strongest strip of the catalogue, alike in volts and channels, of no more watts on its data sheet. */
function weakerStrip({ sizing }: Answer, most_W_per_m: number): (typeof stripCatalogue)[number] | undefined {
  const { channels, nominal_V } = sizing.products.strip;
  return stripCatalogue
    .filter((entry) => entry.nominal_V === nominal_V)
    .filter((entry) => entry.channels.length === channels.length)
    .filter((entry) => nominal_W_per_m(entry.channels) <= most_W_per_m)
    .toSorted((a, b) => nominal_W_per_m(b.channels) - nominal_W_per_m(a.channels))[0];
}

interface Help {
  readonly sentence: string;
  readonly proposal: Proposal | undefined;
}

/** Fewer watts come first: what the section takes, and the strip of the catalogue nearest below it. */
function fewerWatts({ value, of }: Given<AskedHeat>, own: SweepPoint): Help[] {
  const highest = value.highest_W_per_m;
  if (highest === null) return [];
  const share = highest / own.strip_W_per_m;
  const most_W_per_m =
    value.highestNominal_W_per_m ?? share * nominal_W_per_m(of.sizing.products.strip.channels);
  const weaker = weakerStrip(of, most_W_per_m);
  const named = weaker
    ? `the strongest of the catalogue below that is ${weaker.name}`
    : 'none of the catalogue is below that';
  return [
    {
      sentence: `Fewer watts of strip: up to ${watts(most_W_per_m)} on its data sheet pass; ${named}.`,
      proposal: weaker && weakerStripProposal(weaker.id),
    },
  ];
}

function variants({ value }: Given<AskedHeat>): Help[] {
  return value.variants
    .filter(({ change_K }) => change_K < -0.5)
    .map((variant) => ({
      sentence: `The section ${variant.name}: ${quantity(-variant.change_K, 'K')} cooler, ${variant.passes ? 'which is enough' : 'which is not enough by itself'}.`,
      proposal: variantProposal(variant),
    }));
}

/** A limit of the dimmer, after all that needs nobody to keep to it. */
function limitedDimmer({ value, of }: Given<AskedHeat>, own: SweepPoint): Help[] {
  const highest_W_per_m = value.highest_W_per_m ?? 0;
  const limited_W_per_m = own.strip_W_per_m * shareAtLevels(of);
  if (of.job.dimming.sizeFor === 'levels' || limited_W_per_m > highest_W_per_m) return [];
  return [
    {
      sentence: `Where none of these can be done: a dimmer that whoever commissions it makes unable to go above the working level, so that the strip takes ${watts(limited_W_per_m)} on average instead of ${watts(own.strip_W_per_m)}. Every paper then carries that as a condition, and no temperature simply passes.`,
      proposal: limitedDimmerProposal,
    },
  ];
}

/** What does help where the job does not pass: fewer watts, another section, and last what rests on a setting. */
const helps = (given: Given<AskedHeat>, own: SweepPoint): Help[] => [
  ...fewerWatts(given, own),
  ...variants(given),
  ...limitedDimmer(given, own),
];

const passesText = (passes: boolean): TemplateResult =>
  html`<span class="verdict ${passes ? 'is-enough' : 'is-short'}">${passes ? 'passes' : 'fails'}</span>`;

interface SweepTable {
  readonly caption: string;
  readonly head: string;
  readonly points: readonly SweepPoint[];
  readonly write: (point: SweepPoint) => string;
  /** The button of a row that passes, where the job has a field for it. */
  readonly act?: (point: SweepPoint) => unknown;
}

function sweepTable({ caption, head, points, write, act }: SweepTable): TemplateResult {
  return html`<table class="small-table">
    <caption>
      ${caption}
    </caption>
    <thead>
      <tr>
        <th scope="col">${head}</th>
        <th scope="col" class="is-figure">Strip</th>
        <th scope="col" class="is-figure">Timber</th>
        <th scope="col" class="is-figure">Room to the limit</th>
        <th scope="col">Verdict</th>
        ${act ? html`<th scope="col"><span class="unseen">Apply</span></th>` : nothing}
      </tr>
    </thead>
    <tbody>
      ${points.map(
        (point) =>
          html`<tr>
            <th scope="row">${write(point)}</th>
            <td class="is-figure">${quantity(point.solder_degC, '°C')}</td>
            <td class="is-figure">${quantity(point.timber_degC, '°C')}</td>
            <td class="is-figure">${quantity(point.margin_K, 'K')}</td>
            <td>${passesText(point.passes)}</td>
            ${act ? html`<td class="is-act">${point.passes ? act(point) : nothing}</td>` : nothing}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Which depths and powers pass, what an aluminium flat or an open slot changes, and what helps where nothing passes. */
export class HeatQuestions extends StoreElement {
  private readonly asking = new Asking<AskedHeat>(this, askHeat);
  private readonly measured = new Measured(this);

  protected override shows({ answer, draft, standing }: State): readonly unknown[] {
    return [answer, draft, standing];
  }

  private plots(given: Given<AskedHeat>, own: SweepPoint): TemplateResult {
    const whole = this.measured.width || 600;
    const width = whole > 640 ? Math.floor((whole - 24) / 2) : whole;
    return html`<div class="plots">
        ${sweepPlot(depthSweep(given, own), width)} ${sweepPlot(powerSweep(given, own), width)}
      </div>
      ${sweepKey}`;
  }

  private words(given: Given<AskedHeat>): TemplateResult {
    const least = given.value.passing_mm[0]?.from_mm;
    return html`<p class="with-apply">
        <span><strong>${depthWords(given.value)}</strong> ${stackWords(given)}</span>
        ${least === undefined || passesFromTheFirst(given.value) ? nothing : applyButton(this.store, cavityProposal(least))}
      </p>
      <p><strong>${powerWords(given.value)}</strong> The strip of the job takes ${watts(given.of.sizing.heat.strip_W_per_m)} at its warmest place, ${given.of.sizing.conditions.length > 0 ? 'on average under the limit of the dimmer' : 'at full'}.</p>`;
  }

  private help(given: Given<AskedHeat>, own: SweepPoint): TemplateResult | typeof nothing {
    if (own.passes && given.value.passing_mm.length > 0) return nothing;
    const list = helps(given, own);
    if (list.length === 0) return nothing;
    return html`<h4>What does help</h4>
      <ul class="helps">
        ${list.map(({ sentence, proposal }) => html`<li class="with-apply"><span>${sentence}</span>${applyButton(this.store, proposal)}</li>`)}
      </ul>`;
  }

  private variants({ value }: Given<AskedHeat>, own: SweepPoint): TemplateResult {
    return html`<table class="small-table">
      <caption>
        With and without
      </caption>
      <thead>
        <tr>
          <th scope="col">Section</th>
          <th scope="col" class="is-figure">Strip</th>
          <th scope="col" class="is-figure">Timber</th>
          <th scope="col" class="is-figure">Change</th>
          <th scope="col"><span class="unseen">Apply</span></th>
        </tr>
      </thead>
      <tbody>
        <tr>
          <th scope="row">as in the job ${passesText(own.passes)}</th>
          <td class="is-figure">${quantity(own.solder_degC, '°C')}</td>
          <td class="is-figure">${quantity(own.timber_degC, '°C')}</td>
          <td></td>
          <td></td>
        </tr>
        ${value.variants.map(
          (row) =>
            html`<tr>
              <th scope="row">${row.name} ${passesText(row.passes)}</th>
              <td class="is-figure">${quantity(row.solder_degC, '°C')}</td>
              <td class="is-figure">${quantity(row.timber_degC, '°C')}</td>
              <td class="is-figure">${row.change_K > 0 ? '+' : ''}${quantity(row.change_K, 'K', Math.abs(row.change_K) < 10 ? 1 : 0)}</td>
              <td class="is-act">${applyButton(this.store, variantProposal(row))}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private tables({ value }: Given<AskedHeat>): TemplateResult {
    return html`<details class="fold">
      <summary>Both plots as tables</summary>
      <div class="three-tables">
        ${sweepTable({
          caption: 'Against the depth of the cavity',
          head: 'Cavity',
          points: value.byDepth,
          write: (point) => depth(point.cavity_mm),
          ...(value.passing_mm.length > 0 && {
            act: (point) => applyButton(this.store, cavityProposal(nearest(point.cavity_mm, 1))),
          }),
        })}
        ${sweepTable({
          caption: 'Against the power of the strip',
          head: 'Strip',
          points: value.byPower,
          write: (point) => watts(point.strip_W_per_m),
        })}
      </div>
    </details>`;
  }

  override render(): TemplateResult {
    return askedFold(this.asking, this.store, {
      title: 'Ask the heat',
      digest:
        'Which depths pass, how many watts per metre, and what does an aluminium flat or an open slot change?',
      body: (given) => {
        const own = ownPoint(given);
        const { answer } = this.store.get();
        const { heat } = answer?.job === given.of.job ? answer.sizing : given.of.sizing;
        const nearest = nearestLimit(heat);
        return html`${this.words(given)} ${this.help(given, own)} ${this.plots(given, own)}
          <p class="remark">
            The limit is the temperature of the strip at which the first place of the section meets its own limit.
            ${nearest ? `In this job that place is: ${nearest}.` : ''} The room is at ${quantity(given.value.room_degC, '°C')}. Limits
            that only warn are left to the findings.
          </p>
          ${this.variants(given, own)} ${this.tables(given)}`;
      },
    });
  }
}

customElements.define('heat-questions', HeatQuestions);
