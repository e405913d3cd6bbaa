import { html, nothing, type TemplateResult } from 'lit';
import type { AskedHeat } from '../../src/answer/asked.ts';
import { askHeat } from '../api.ts';
import { type Sweep, sweepKey, sweepPlot } from '../drawing/heat-sweeps.ts';
import { nearest, quantity } from '../format.ts';
import { Asking, type Given } from '../state/asking.ts';
import { cavityProposal, variantProposal } from '../state/proposals.ts';
import type { State } from '../state/store.ts';
import { applyButton, askedFold } from './asked-fold.ts';
import {
  depth,
  depthWords,
  helps,
  nearestLimit,
  ownPoint,
  passesFromTheFirst,
  powerWords,
  type SweepPoint,
  stackWords,
  watts,
} from './heat-sentences.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

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
