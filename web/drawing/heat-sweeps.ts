import { html, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { AskedHeat } from '../../src/answer/asked.ts';
import { entryText, fixed, quantity } from '../format.ts';
import { drawPlot, type Plot, plotScales, type Region, type Series } from './plot.ts';

type SweepPoint = AskedHeat['byDepth'][number];

/** One sweep: what runs along its x axis, where the job stands in it, and which part of it passes. */
export interface Sweep {
  readonly title: string;
  readonly label: string;
  readonly points: readonly SweepPoint[];
  readonly along: (point: SweepPoint) => number;
  readonly job: SweepPoint;
  readonly passing: readonly Region[];
  readonly room_degC: number;
}

/**
 * Strip, timber, the warm end of the strip and the limit against what is swept. The limit line is the warm end of the
 * strip at which the first place of the section meets its own limit, so that the two cross where passing ends.
 */
function seriesOf({ points, along }: Sweep): Series[] {
  const line = (of: (point: SweepPoint) => number): Series['points'] =>
    points.map((point) => [along(point), of(point)] as const);
  return [
    { name: 'strip', points: line((p) => p.solder_degC) },
    { name: 'hottest timber', points: line((p) => p.timber_degC) },
    { name: 'strip at most', points: line((p) => p.solderHigh_degC) },
    { name: 'limit', points: line((p) => p.solderHigh_degC + p.margin_K), kind: 'limit' },
  ];
}

function plotOf(sweep: Sweep, width: number): Plot {
  const { points, along, room_degC } = sweep;
  const series = seriesOf(sweep);
  const highest = Math.max(...series.flatMap((one) => one.points.map(([, value]) => value)));
  const places = points.map(along);
  return {
    title: sweep.title,
    width,
    height: 230,
    x: {
      from: Math.min(...places, along(sweep.job)),
      to: Math.max(...places),
      label: sweep.label,
      write: (value) => entryText(value, false),
    },
    y: {
      from: room_degC - Math.max(8, 0.16 * (highest - room_degC)),
      to: highest + 0.2 * (highest - room_degC),
      label: `°C, in a room of ${quantity(room_degC, '°C')}`,
      write: (value) => fixed(value, 0),
    },
    series,
    band: undefined,
    levels: [],
    regions: sweep.passing,
  };
}

/** Where the job stands: a plumb line and a ring on the line of the strip. */
function jobMark(sweep: Sweep, plot: Plot): SVGTemplateResult {
  const { x, y } = plotScales(plot);
  const [at, temperature] = [x(sweep.along(sweep.job)), y(sweep.job.solder_degC)];
  const toLeft = at > plot.width - 130;
  return svg`<g class="own-point">
    <path d="M${at} ${y(plot.y.from)}V${y(plot.y.to)}"></path>
    <circle cx=${at} cy=${temperature} r="4.5"></circle>
    <text x=${at + (toLeft ? -6 : 6)} y=${y(plot.y.to) + 10} text-anchor=${toLeft ? 'end' : 'start'}>this job, ${quantity(sweep.job.solder_degC, '°C')}</text>
  </g>`;
}

/** Temperatures against depth or power, with the limit, the part that passes and the job's own point. */
export function sweepPlot(sweep: Sweep, width: number): SVGTemplateResult {
  const plot = plotOf(sweep, width);
  return drawPlot(plot, jobMark(sweep, plot));
}

/** What the lines of the plots are, once for both. */
export const sweepKey: TemplateResult = html`<p class="plot-key">
  ${[
    ['series series-1', 'strip at the solder point'],
    ['series series-2', 'hottest timber'],
    ['series is-limit', 'limit'],
  ].map(
    ([kind, name]) =>
      html`<span>
        <svg width="30" height="10" aria-hidden="true"><path class=${kind} d="M0 5H30"></path></svg>
        ${name}
      </span>`,
  )}
</p>`;
