import { nothing, type SVGTemplateResult, svg } from 'lit';
import { onPaper } from '../format.ts';

/** One axis of a plot: its range, what it counts, and how its figures are written. */
export interface Axis {
  readonly from: number;
  readonly to: number;
  readonly label: string;
  readonly write: (value: number) => string;
}

export interface Series {
  readonly name: string;
  readonly points: readonly (readonly [number, number])[];
  /** A limit that is not the same everywhere is a line like any other, drawn as a limit. */
  readonly kind?: 'limit';
}

/** Part of the x axis that is marked from foot to head, and the words for it. */
export interface Region {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** A level line across the plot, such as a nominal value or a limit. */
export interface LevelLine {
  readonly at: number;
  readonly text: string;
  readonly kind: 'nominal' | 'limit';
}

export interface Plot {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly x: Axis;
  readonly y: Axis;
  readonly series: readonly Series[];
  /** Between what and what the first series may lie, over every combination of tolerances. */
  readonly band: { readonly low: Series['points']; readonly high: Series['points'] } | undefined;
  readonly levels: readonly LevelLine[];
  readonly regions?: readonly Region[];
}

const edge = { left: 58, right: 14, top: 22, bottom: 38 };

/** Round values between two bounds, about as many as asked for. */
export function roundTicks(from: number, to: number, aboutCount: number): number[] {
  const span = to - from;
  if (!(span > 0)) return [from];
  const raw = span / aboutCount;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((n) => n * power).find((candidate) => candidate >= raw) ?? raw;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  );
}

/** Where values of a plot lie on the paper. */
export function plotScales(plot: Plot): {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
} {
  const across = plot.width - edge.left - edge.right;
  const up = plot.height - edge.top - edge.bottom;
  const share = (axis: Axis, value: number): number => (value - axis.from) / (axis.to - axis.from || 1);
  return {
    x: (value) => edge.left + across * share(plot.x, value),
    y: (value) => edge.top + up * (1 - share(plot.y, value)),
  };
}

function grid(plot: Plot): SVGTemplateResult {
  const { x, y } = plotScales(plot);
  const [left, right] = [x(plot.x.from), x(plot.x.to)];
  const foot = y(plot.y.from);
  const xTicks = roundTicks(plot.x.from, plot.x.to, Math.max(3, Math.floor((right - left) / 56)));
  const yTicks = roundTicks(plot.y.from, plot.y.to, Math.max(3, Math.floor((foot - y(plot.y.to)) / 20)));
  return svg`<g class="grid">
    ${yTicks.map((value) => svg`<line x1=${left} x2=${right} y1=${y(value)} y2=${y(value)}></line>`)}
    ${xTicks.map((value) => svg`<line class="x-tick" x1=${x(value)} x2=${x(value)} y1=${foot} y2=${foot + 4}></line>`)}
    <line class="axis" x1=${left} x2=${right} y1=${foot} y2=${foot}></line>
  </g>
  <g class="figures">
    ${yTicks.map((value) => svg`<text x=${left - 7} y=${y(value)} dy="0.35em" text-anchor="end">${plot.y.write(value)}</text>`)}
    ${xTicks.map((value) => svg`<text x=${x(value)} y=${foot + 16} text-anchor="middle">${plot.x.write(value)}</text>`)}
    <text class="axis-label" x=${left} y=${edge.top - 9}>${plot.y.label}</text>
    <text class="axis-label" x=${right} y=${foot + 32} text-anchor="end">${plot.x.label}</text>
  </g>`;
}

function levelLine(level: LevelLine, plot: Plot): SVGTemplateResult | typeof nothing {
  if (level.at < plot.y.from || level.at > plot.y.to) return nothing;
  const { x, y } = plotScales(plot);
  return svg`<g class="level is-${level.kind}">
    <line x1=${x(plot.x.from)} x2=${x(plot.x.to)} y1=${y(level.at)} y2=${y(level.at)}></line>
    <text x=${x(plot.x.to) - 2} y=${y(level.at) - 5} text-anchor="end">${level.text}</text>
  </g>`;
}

const pathOf = (series: Series, plot: Plot): string => {
  const { x, y } = plotScales(plot);
  return series.points.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${onPaper(x(a))} ${onPaper(y(b))}`).join('');
};

function bandPath({ low, high }: NonNullable<Plot['band']>, plot: Plot): string {
  const back = { name: '', points: [...high].reverse() };
  return `${pathOf({ name: '', points: low }, plot)}${pathOf(back, plot).replace('M', 'L')}Z`;
}

function regionMark({ from, to, text }: Region, plot: Plot): SVGTemplateResult {
  const { x, y } = plotScales(plot);
  const [left, right] = [x(Math.max(from, plot.x.from)), x(Math.min(to, plot.x.to))];
  const [head, foot] = [y(plot.y.to), y(plot.y.from)];
  return svg`<g class="region">
    <rect x=${left} y=${head} width=${Math.max(0, right - left)} height=${foot - head}></rect>
    <path d="M${onPaper(left)} ${head}V${foot}M${onPaper(right)} ${head}V${foot}"></path>
    <text x=${left + 5} y=${foot - 6}>${text}</text>
  </g>`;
}

/** A plot with axes, units, level lines and one path for each series. Extra marks are drawn on top. */
export function drawPlot(plot: Plot, extra: SVGTemplateResult | typeof nothing = nothing): SVGTemplateResult {
  return svg`<svg class="plot" width=${plot.width} height=${plot.height} viewBox="0 0 ${plot.width} ${plot.height}" role="img" aria-label=${plot.title}>
    ${plot.regions?.map((region) => regionMark(region, plot)) ?? nothing} ${grid(plot)}
    ${plot.band ? svg`<path class="band" d=${bandPath(plot.band, plot)}></path>` : nothing}
    ${plot.series.map((series, i) => svg`<path class="series series-${i + 1} ${series.kind === 'limit' ? 'is-limit' : ''}" d=${pathOf(series, plot)}><title>${series.name}</title></path>`)}
    ${plot.levels.map((level) => levelLine(level, plot))} ${extra}
  </svg>`;
}
