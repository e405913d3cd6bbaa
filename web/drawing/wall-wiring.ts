import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { Cable } from '../../src/answer/cables.ts';
import type { Driver, PlacedCase } from '../../src/answer/drivers.ts';
import type { FeedPoint, Run } from '../../src/answer/set-out.ts';
import type { DriverPlace, Job } from '../../src/job/job.ts';
import { quantity } from '../format.ts';
import type { Answer, Where } from '../state/store.ts';
import type { WallFrame } from './wall-frame.ts';

const marked = (is: boolean): string => (is ? 'is-marked' : '');

/** The cable way: a dashed line, as what lies behind the face is drawn. */
function cableWay(job: Job, frame: WallFrame): SVGTemplateResult {
  const { way, wayInset_mm } = job.cables;
  const y = frame.y(way === 'head' ? job.panel.height_mm - wayInset_mm : wayInset_mm);
  return svg`<line class="cable-way" x1=${frame.x(0)} x2=${frame.x(job.panel.width_mm)} y1=${y} y2=${y}></line>`;
}

function cableLine(cable: Cable, frame: WallFrame, mark: Where | undefined): SVGTemplateResult {
  const points = cable.route.map((point) => `${frame.x(point.x_mm)},${frame.y(point.y_mm)}`).join(' ');
  return svg`<polyline class="cable ${marked(mark?.cable === cable.id)}" data-cable=${cable.id} points=${points}>
    <title>${cable.id}: ${cable.name}, ${quantity(cable.length_mm, 'mm', 0)}</title>
  </polyline>`;
}

const sign = (point: FeedPoint): string => {
  if (point.conductors === 'both') return '';
  return point.conductors === 'positive' ? '+' : '−';
};

/** A terminal: a small circle (IEC 60617), with the sign of the conductor where only one arrives. */
function feedSymbol(
  point: FeedPoint,
  radius: number,
  frame: WallFrame,
  mark: Where | undefined,
): SVGTemplateResult {
  const x = frame.x(point.x_mm);
  const y = frame.y(point.y_mm);
  return svg`<g class="feed-point ${marked(mark?.feedPoint === point.id)}" data-feed=${point.id}>
    <circle cx=${x} cy=${y} r=${radius}></circle>
    ${sign(point) ? svg`<text class="feed-sign" x=${x + 5} y=${y} dy="0.3em">${sign(point)}</text>` : nothing}
    <title>Feed point ${point.id}</title>
  </g>`;
}

/** A joint of two pieces: a short stroke across the run. */
function joints(run: Run, frame: WallFrame): SVGTemplateResult[] {
  const angle = Math.atan2(run.y1_mm - run.y0_mm, run.x1_mm - run.x0_mm);
  return run.jointLines.map((cutLine) => {
    const along = cutLine / run.unitCount;
    const x = frame.x(run.x0_mm + along * (run.x1_mm - run.x0_mm));
    const y = frame.y(run.y0_mm + along * (run.y1_mm - run.y0_mm));
    const [dx, dy] = [5 * Math.sin(angle), 5 * Math.cos(angle)];
    return svg`<line class="joint" x1=${x - dx} y1=${y - dy} x2=${x + dx} y2=${y + dy}></line>`;
  });
}

/** A converter (IEC 60617): a box with a diagonal, alternating in, direct out, drawn to the size of its case. */
function driverSymbol(driver: Driver, at: PlacedCase, frame: WallFrame): SVGTemplateResult {
  const x = frame.x(at.x_mm);
  const [w, h] = [at.across_mm * frame.scale, at.up_mm * frame.scale];
  const top = frame.y(at.y_mm) - h;
  return svg`<rect class="driver-case" x=${x} y=${top} width=${w} height=${h}></rect>
    <line class="driver-case" x1=${x} y1=${top + h} x2=${x + w} y2=${top}></line>
    <title>${driver.id}: ${driver.name}, ${quantity(driver.watts, 'W')}</title>`;
}

function driversIn(
  place: DriverPlace,
  answer: Answer,
  frame: WallFrame,
  mark: Where | undefined,
): SVGTemplateResult {
  const here = answer.sizing.drivers.drivers.filter((driver) => driver.place === place.name);
  const cases = answer.sizing.drivers.places.find(({ name }) => name === place.name)?.cases ?? [];
  const ids = here.map((driver) => driver.id);
  const label = ids.length > 2 ? `${ids[0]} to ${ids.at(-1)}` : ids.join(', ');
  const high = place.height_mm * frame.scale;
  const fits = place.width_mm * frame.scale > 7 * label.length && high > 16;
  const x = frame.x(place.x_mm + place.width_mm / 2);
  const y = frame.y(place.y_mm + place.height_mm);
  const at = fits ? `translate(${x} ${y + 12})` : `translate(${x + 4} ${y - 5}) rotate(-90)`;
  return svg`<g class="driver-place">
    <rect class="place-outline" x=${frame.x(place.x_mm)} y=${frame.y(place.y_mm + place.height_mm)}
      width=${place.width_mm * frame.scale} height=${high}></rect>
    ${here.map((driver) => {
      const at = cases.find((each) => each.driver === driver.id);
      return at
        ? svg`<g class="driver ${marked(mark?.driver === driver.id)}" data-driver=${driver.id}>${driverSymbol(driver, at, frame)}</g>`
        : nothing;
    })}
    <text class="driver-label" text-anchor=${fits ? 'middle' : 'start'} transform=${at}>${label}</text>
  </g>`;
}

/** Cable way and cables: they lie behind the face, so they are drawn first. */
export function cableLines(
  { job, sizing }: Answer,
  frame: WallFrame,
  mark: Where | undefined,
): SVGTemplateResult {
  return svg`<g class="wiring">
    ${cableWay(job, frame)} ${sizing.cables.map((cable) => cableLine(cable, frame, mark))}
  </g>`;
}

/** Distance between the starts of the first two runs: how much room the symbols of a wall have. */
const closest = ([first, second]: readonly Run[]): number =>
  first && second
    ? Math.hypot(second.x0_mm - first.x0_mm, second.y0_mm - first.y0_mm)
    : Number.POSITIVE_INFINITY;

/** Joints, feed points and drivers. */
export function wiringSymbols(answer: Answer, frame: WallFrame, mark: Where | undefined): SVGTemplateResult {
  const { runs } = answer.sizing.setOut;
  const radius = Math.min(3, Math.max(1.2, 0.22 * closest(runs) * frame.scale));
  return svg`<g class="wiring">
    ${runs.flatMap((run) => joints(run, frame))}
    ${answer.job.drivers.places.map((place) => driversIn(place, answer, frame, mark))}
    ${runs.flatMap((run) => run.feedPoints.map((point) => feedSymbol(point, radius, frame, mark)))}
  </g>`;
}
