import { html, nothing, type TemplateResult } from 'lit';
import type { CircuitRun } from '../../src/answer/circuit.ts';
import type { Run } from '../../src/answer/set-out.ts';
import { drawPlot, type Plot } from '../drawing/plot.ts';
import { fixed, percent, quantity, span } from '../format.ts';
import type { PickedPart } from '../state/belonging.ts';
import { pick } from '../state/jump.ts';
import type { Answer, State } from '../state/store.ts';
import './circuit-questions.ts';
import './supply-questions.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

interface Chosen {
  readonly answer: Answer;
  readonly run: Run;
  readonly circuit: CircuitRun;
}

/** The run chosen on the drawing, with its circuit. */
function chosenOf(answer: Answer | undefined, id: string | undefined): Chosen | undefined {
  const run = answer?.sizing.setOut.runs.find((candidate) => candidate.id === id);
  const circuit = answer?.sizing.circuit.runs.find((candidate) => candidate.run === id);
  return answer && run && circuit ? { answer, run, circuit } : undefined;
}

const along = (run: Run, values: readonly number[]): (readonly [number, number])[] =>
  values.map((value, i) => [((i + 0.5) * run.strip_mm) / run.unitCount, value]);

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b));
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));

const xAxis = (run: Run): Plot['x'] => ({
  from: 0,
  to: run.strip_mm,
  label: 'mm along the strip, from its start',
  write: (value) => fixed(value, 0),
});

function voltsPlot({ answer, run, circuit }: Chosen, width: number): Plot {
  const nominal_V = answer.sizing.products.strip.nominal_V;
  const limit_V = nominal_V * (1 - answer.job.site.dropLimit);
  const { band } = circuit;
  const low = Math.min(limit_V, least(band?.unit_V_least ?? circuit.unit_V));
  const high = Math.max(nominal_V, most(band?.unit_V_greatest ?? circuit.unit_V));
  const room = 0.12 * (high - low || 1);
  return {
    title: `Volts along run ${run.id}: from ${quantity(circuit.lowest_V, 'V')} to ${quantity(circuit.highest_V, 'V')}`,
    width,
    height: 190,
    x: xAxis(run),
    y: {
      from: low - room,
      to: high + 2 * room,
      label: 'V across each cut unit',
      write: (v) => fixed(v, high - low < 1 ? 2 : 1),
    },
    series: [{ name: 'volts', points: along(run, circuit.unit_V) }],
    band: band ? { low: along(run, band.unit_V_least), high: along(run, band.unit_V_greatest) } : undefined,
    levels: [
      { at: nominal_V, text: `nominal ${quantity(nominal_V, 'V', 0)}`, kind: 'nominal' },
      { at: limit_V, text: `limit, ${percent(answer.job.site.dropLimit)} lower`, kind: 'limit' },
    ],
  };
}

function lightPlot({ answer, run, circuit }: Chosen, width: number): Plot {
  const top = most(circuit.unit_light);
  const limit = top * (1 - answer.job.site.fallLimit);
  const { band } = circuit;
  const low = Math.min(limit, least(band?.unit_light_least ?? circuit.unit_light));
  const high = Math.max(1, most(band?.unit_light_greatest ?? circuit.unit_light));
  const room = 0.1 * (high - low || 1);
  return {
    title: `Light along run ${run.id}: it drops off by ${percent(circuit.fall)}`,
    width,
    height: 190,
    x: xAxis(run),
    y: {
      from: Math.max(0, low - room),
      to: high + 2 * room,
      label: 'light, relative to nominal',
      write: (v) => percent(v, high - low < 0.05 ? 1 : 0),
    },
    series: [{ name: 'light', points: along(run, circuit.unit_light) }],
    band: band
      ? { low: along(run, band.unit_light_least), high: along(run, band.unit_light_greatest) }
      : undefined,
    levels: [
      { at: 1, text: 'nominal', kind: 'nominal' },
      { at: limit, text: `limit of drop-off, ${percent(answer.job.site.fallLimit, 0)}`, kind: 'limit' },
    ],
  };
}

const between = ({ least: low, greatest }: { least: number; greatest: number }): string =>
  span(percent(low), 'to', percent(greatest));

/** What every combination of tolerances makes of it, once the careful answer has come. */
const bandRows = ({ band }: CircuitRun): (readonly [string, string])[] =>
  band
    ? [
        ['Drop, with tolerances', between(band.drop)],
        ['Drop-off, with tolerances', between(band.fall)],
      ]
    : [];

/** A part of the wiring by its name: a click marks it on the wall with all that belongs to it. */
const partButton = (name: string, part: PickedPart, take: (part: PickedPart) => void): TemplateResult =>
  html`<button type="button" class="plain" @click=${() => take(part)}>${name}</button>`;

/** Current and volts at a feed point, and the cable they come through. */
function feedRow(feed: CircuitRun['feed_A'][number], { answer }: Chosen, take: (part: PickedPart) => void) {
  const cable = answer.sizing.cables.find(({ to }) => to.kind === 'pad' && to.feedPoint === feed.feedPoint);
  const name = html`Feed ${partButton(feed.feedPoint, { feedPoint: feed.feedPoint }, take)}`;
  const through = cable ? html`, through ${partButton(cable.id, { cable: cable.id }, take)}` : nothing;
  const figure = `${quantity(feed.current_A, 'A')} at ${quantity(feed.terminal_V, 'V')}`;
  return [name, html`${figure}${through}`] as const;
}

function figures(chosen: Chosen, take: (part: PickedPart) => void): TemplateResult {
  const { run, circuit } = chosen;
  const rows: readonly (readonly [string | TemplateResult, string | TemplateResult])[] = [
    ['Strip', `${quantity(run.strip_mm, 'mm')}, ${run.unitCount} cut units`],
    ['Dark ends', `${quantity(run.darkStart_mm, 'mm')} and ${quantity(run.darkFinish_mm, 'mm')}`],
    [
      'Driver and output',
      html`${partButton(circuit.driver, { driver: circuit.driver }, take)}, ${circuit.output}`,
    ],
    ['Power', quantity(circuit.watts, 'W')],
    ['Lowest volts', `${quantity(circuit.lowest_V, 'V')} at unit ${circuit.lowestUnit + 1}`],
    ['Drop from the driver', `${quantity(circuit.drop_V, 'V')}, ${percent(circuit.drop)}`],
    ['Brightness drop-off', percent(circuit.fall)],
    ...bandRows(circuit),
    ['Against its neighbour', circuit.neighbour === null ? 'no neighbour' : percent(circuit.neighbour)],
    ...circuit.feed_A.map((feed) => feedRow(feed, chosen, take)),
  ];
  return html`<dl class="figures-list">
    ${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}
  </dl>`;
}

/** Volts and light along the chosen run, from its start to its finish. */
export class RunProfile extends StoreElement {
  private readonly measured = new Measured(this);

  protected override shows({ answer, chosenRun }: State): readonly unknown[] {
    return [answer?.sizing, chosenRun];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, chosenRun } = this.store.get();
    const chosen = chosenOf(answer, chosenRun);
    if (!chosen) return nothing;
    const whole = this.measured.width || 600;
    const width = whole > 640 ? Math.floor((whole - 24) / 2) : whole;
    return html`<h2>Along run ${chosen.run.id}</h2>
      <div class="plots">${drawPlot(voltsPlot(chosen, width))} ${drawPlot(lightPlot(chosen, width))}</div>
      ${figures(chosen, (part) => pick(this.store, part))}
      ${
        chosen.circuit.band
          ? html`<p class="remark">The band takes in: ${chosen.answer.sizing.circuit.tolerances}</p>`
          : nothing
      }
      <circuit-questions .store=${this.store}></circuit-questions>
      <drivers-questions .store=${this.store}></drivers-questions>
      <layout-questions .store=${this.store}></layout-questions>`;
  }
}

customElements.define('run-profile', RunProfile);
