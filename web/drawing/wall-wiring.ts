import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { Cable } from '../../src/answer/cables.ts';
import type { FeedPoint, Run } from '../../src/answer/set-out.ts';
import { wayParts_mm, waysOf } from '../../src/job/cable-way.ts';
import type { Job } from '../../src/job/job.ts';
import { quantity } from '../format.ts';
import type { Belonging, PickedPart } from '../state/belonging.ts';
import type { Answer } from '../state/store.ts';
import { cableBreaks } from './wall-breaks.ts';
import type { WallFrame } from './wall-frame.ts';

/** What is marked on the wall, and what a click on a part of the wiring does. */
export interface WiringChoice {
  readonly picked: PickedPart;
  readonly belonging: Belonging;
  readonly pick: (part: PickedPart) => void;
  /** What takes hold of a feed point, and what a key does to the picked one; undefined where nothing is moved. */
  readonly feed?: {
    readonly press: (event: PointerEvent, point: FeedPoint) => void;
    readonly key: (event: KeyboardEvent, point: FeedPoint) => void;
  };
}

/** The class of a part: picked itself, or belonging to what is picked. */
export function markClass(isPicked: boolean, isAlong: boolean): string {
  if (isPicked) return 'is-marked';
  return isAlong ? 'is-along' : '';
}

/** The cable ways of the wall and of its zones: dashed lines, as what lies behind the face is drawn, broken by openings. */
function cableWays(job: Job, frame: WallFrame): SVGTemplateResult[] {
  return waysOf(job).flatMap(({ y_mm }) => {
    const y = frame.y(y_mm);
    return wayParts_mm(y_mm, job).map(
      ([from_mm, to_mm]) =>
        svg`<line class="cable-way" x1=${frame.x(from_mm)} x2=${frame.x(to_mm)} y1=${y} y2=${y}></line>`,
    );
  });
}

/** A cable along its route, under a broader line that a finger finds. */
function cableLine(cable: Cable, frame: WallFrame, choice: WiringChoice): SVGTemplateResult {
  const points = cable.route.map((point) => `${frame.x(point.x_mm)},${frame.y(point.y_mm)}`).join(' ');
  const mark = markClass(choice.picked.cable === cable.id, choice.belonging.cables.has(cable.id));
  return svg`<g class="cable is-${cable.kind.replaceAll(' ', '-')} ${mark}" data-cable=${cable.id}
    @click=${() => choice.pick({ cable: cable.id })}>
    <polyline class="cable-target" points=${points}></polyline>
    <polyline class="cable-line" points=${points}></polyline>
    <title>${cable.id}: ${cable.name}, ${quantity(cable.length_mm, 'mm', 0)}</title>
  </g>`;
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
  choice: WiringChoice,
): SVGTemplateResult {
  const x = frame.x(point.x_mm);
  const y = frame.y(point.y_mm);
  const { picked, belonging } = choice;
  const mark = markClass(picked.feedPoint === point.id, belonging.feedPoints.has(point.id));
  const { feed } = choice;
  const isHeld = feed !== undefined && picked.feedPoint === point.id;
  return svg`<g class="feed-point ${feed ? 'is-movable' : ''} ${mark}" data-feed=${point.id}
    tabindex=${isHeld ? 0 : nothing} role=${isHeld ? 'button' : nothing}
    aria-label=${isHeld ? `Feed point ${point.id}: drag it along its strip, or move it by the arrow keys` : nothing}
    @click=${() => choice.pick({ feedPoint: point.id })}
    @pointerdown=${(event: PointerEvent) => feed?.press(event, point)}
    @keydown=${(event: KeyboardEvent) => feed?.key(event, point)}>
    <circle class="part-target" cx=${x} cy=${y} r=${radius + 3}></circle>
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

/** Taps on trunks that are not cut: full dots, as conductors joined at a point (IEC 60617). */
function taps(
  { sizing }: Answer,
  radius: number,
  frame: WallFrame,
  choice: WiringChoice,
): SVGTemplateResult[] {
  const { picked, belonging } = choice;
  return sizing.installation.taps.map(
    (
      tap,
    ) => svg`<g class="tap ${markClass(picked.cable === tap.cable, belonging.devices.has(tap.id))}" data-tap=${tap.id}
      @click=${() => choice.pick({ cable: tap.cable })}>
      <circle class="part-target" cx=${frame.x(tap.x_mm)} cy=${frame.y(tap.y_mm)} r=${radius + 3}></circle>
      <circle cx=${frame.x(tap.x_mm)} cy=${frame.y(tap.y_mm)} r=${radius}></circle>
      <title>Tap ${tap.id} on ${tap.cable}</title>
    </g>`,
  );
}

/** Cable ways and cables: they lie behind the face, so they are drawn first; the picked ones above the others. */
export function cableLines(answer: Answer, frame: WallFrame, choice: WiringChoice): SVGTemplateResult {
  const rank = ({ id }: Cable): number =>
    id === choice.picked.cable ? 2 : choice.belonging.cables.has(id) ? 1 : 0;
  const lines = [...answer.sizing.cables].sort((a, b) => rank(a) - rank(b));
  return svg`<g class="wiring">
    ${cableWays(answer.job, frame)} ${lines.map((cable) => cableLine(cable, frame, choice))}
    ${cableBreaks(answer, frame)}
  </g>`;
}

/** Distance between the starts of the first two runs: how much room the symbols of a wall have. */
const closest = ([first, second]: readonly Run[]): number =>
  first && second
    ? Math.hypot(second.x0_mm - first.x0_mm, second.y0_mm - first.y0_mm)
    : Number.POSITIVE_INFINITY;

/** Joints, taps and feed points. */
export function wiringSymbols(answer: Answer, frame: WallFrame, choice: WiringChoice): SVGTemplateResult {
  const { runs } = answer.sizing.setOut;
  const radius = Math.min(3, Math.max(1.2, 0.22 * closest(runs) * frame.scale));
  return svg`<g class="wiring">
    ${runs.flatMap((run) => joints(run, frame))} ${taps(answer, radius, frame, choice)}
    ${runs.flatMap((run) => run.feedPoints.map((point) => feedSymbol(point, radius, frame, choice)))}
  </g>`;
}
