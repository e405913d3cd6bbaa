import type { SlotLine } from '../../../src/answer/set-out.ts';
import type { Job } from '../../../src/index.ts';
import { cornersOfWall, type PlacedPanel, placedPanels } from '../../../src/job/panels.ts';
import { dimension_em } from '../ink/dimension.ts';
import { textWidth, wrapped } from '../ink/lettering.ts';
import { corners, extentsOf, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';

const em_mm = 2.5;

const figure = (value: number): string => shown(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1);

/** What stands on a panel: its mark and name, and what no chain of dimensions has room for. */
function panelText({ id, name, width_mm, height_mm, raised_mm, gap_mm, left_mm }: PlacedPanel): string {
  const called = name === '' ? id : `${id} ${name}`;
  const raised = raised_mm > 0 ? `, lower edge at y ${figure(raised_mm)}` : '';
  const gap = left_mm > 0 && gap_mm > 0 ? `, gap before it ${figure(gap_mm)}` : '';
  return `${called}: ${figure(width_mm)} x ${figure(height_mm)}${raised}${gap}`;
}

/** Where lettering about the panels begins: above all else that is drawn. */
interface Above {
  readonly above_mm: number;
  readonly perPaper: number;
}

function panelOutline(panel: PlacedPanel, { above_mm, perPaper }: Above): Mark[] {
  const { left_mm, right_mm, bottom_mm, top_mm } = panel;
  const em = em_mm * perPaper;
  const lines = wrapped(panelText(panel), right_mm - left_mm, { em });
  return [
    outline('PANEL', ...corners({ x0: left_mm, y0: bottom_mm, x1: right_mm, y1: top_mm })),
    ...lines.map((text, i) =>
      lettering({
        layer: 'LETTERING',
        at: [(left_mm + right_mm) / 2, above_mm + 1.5 * perPaper + (lines.length - 1 - i) * 1.4 * em],
        text,
        em,
        align: 'middle',
      }),
    ),
  ];
}

/** Where the wall turns: a chain line over its height and which way, above what stands on the panels. */
const cornerMarks = (job: Job, highest_mm: number, perPaper: number): Mark[] =>
  cornersOfWall(job).flatMap(({ x_mm, joint }) => {
    const head = highest_mm + 2 * perPaper;
    return [
      line('CORNERS', [x_mm, -3 * perPaper], [x_mm, head]),
      lettering({
        layer: 'LETTERING',
        at: [x_mm, head + 1 * perPaper],
        text: joint,
        em: em_mm * perPaper,
        align: 'middle',
      }),
    ];
  });

/**
 * The face of the piece: its panels with their marks and measures, and where the wall turns; or the one it is.
 * @param drawn_mm height up to which other things have their lettering
 */
export function panelMarks(job: Job, drawn_mm: number, perPaper: number): Mark[] {
  const all = placedPanels(job);
  const { width_mm, height_mm } = job.panel;
  if (all.length === 0) return [outline('PANEL', ...corners({ x0: 0, y0: 0, x1: width_mm, y1: height_mm }))];
  const above = { above_mm: Math.max(height_mm, drawn_mm), perPaper };
  const faces = all.flatMap((panel) => panelOutline(panel, above));
  return [...faces, ...cornerMarks(job, extentsOf(faces).y1, perPaper)];
}

/** Stops of a chain of dimensions with a text for each span. */
export interface Chain {
  readonly stops: number[];
  readonly texts: string[];
}

/**
 * Edge, first slot, last slot, edge; the middle says the pitch where all slots are parallel and evenly spaced. Without slots
 * from edge to edge.
 */
function chainOf(
  starts: readonly number[],
  finishes: readonly number[],
  [from, to]: readonly [number, number],
): Chain {
  if (starts.length === 0) return { stops: [from, to], texts: [figure(to - from)] };
  const sorted = starts.toSorted((a, b) => a - b);
  const isAcross = starts.every((start, i) => Math.abs(start - finishes[i]!) < 0.01);
  const steps = sorted.slice(1).map((at, i) => at - sorted[i]!);
  const isEven = isAcross && steps.length > 0 && steps.every((step) => Math.abs(step - steps[0]!) < 0.01);
  const low = Math.min(...starts, ...finishes);
  const high = Math.max(...starts, ...finishes);
  const inside = isEven
    ? `${steps.length} × ${figure(steps[0]!)} = ${figure(high - low)}`
    : figure(high - low);
  if (high - low < 0.01) return { stops: [from, low, to], texts: [figure(low - from), figure(to - low)] };
  return { stops: [from, low, high, to], texts: [figure(low - from), inside, figure(to - high)] };
}

/** Spans of nothing are left out: a slot that reaches the edge has no margin to show. */
function withoutNothing({ stops, texts }: Chain): Chain {
  const kept = texts.map((_, i) => stops[i + 1]! - stops[i]! > 0.01);
  return {
    stops: [stops[0]!, ...stops.slice(1).filter((_, i) => kept[i])],
    texts: texts.filter((_, i) => kept[i]),
  };
}

/** One chain after the other, with what lies between them. */
function joined(chains: readonly Chain[]): Chain {
  return chains.reduce((all, next) => {
    const gap = next.stops[0]! - all.stops.at(-1)!;
    return {
      stops: [...all.stops, ...next.stops],
      texts: [...all.texts, figure(gap), ...next.texts],
    };
  });
}

/** Without the figures that have no room in their span between two others, where they would run into those. */
export function withoutCrowding({ stops, texts }: Chain, perPaper: number): Chain {
  const hasRoom = (i: number): boolean =>
    textWidth(texts[i]!, dimension_em * perPaper) <= 0.95 * (stops[i + 1]! - stops[i]!);
  return {
    stops,
    texts: texts.map((text, i) => (i === 0 || i === texts.length - 1 || hasRoom(i) ? text : '')),
  };
}

/** Where the slots begin and end from left to right, panel by panel. */
export function levelChain(job: Job, slots: readonly SlotLine[]): Chain {
  const chain = (some: readonly SlotLine[], edges: readonly [number, number]): Chain =>
    chainOf(
      some.map((slot) => slot.x0_mm),
      some.map((slot) => slot.x1_mm),
      edges,
    );
  const all = placedPanels(job);
  if (all.length === 0) return withoutNothing(chain(slots, [0, job.panel.width_mm]));
  return withoutNothing(
    joined(
      all.map(({ id, left_mm, right_mm }) =>
        chain(
          slots.filter(({ panel }) => panel === id),
          [left_mm, right_mm],
        ),
      ),
    ),
  );
}

/** Where the slots begin and end from the lower edge of the wall up. */
export const uprightChain = (job: Job, slots: readonly SlotLine[]): Chain =>
  withoutNothing(
    chainOf(
      slots.map((slot) => slot.y0_mm),
      slots.map((slot) => slot.y1_mm),
      [0, job.panel.height_mm],
    ),
  );

/** Stops at given places, each span with its length; empty where only the edges are left. */
function chainAt(places: readonly number[], whole: number): Chain | null {
  const stops = [...new Set([0, ...places.filter((at) => at > 0 && at < whole), whole])].sort(
    (a, b) => a - b,
  );
  if (stops.length < 3) return null;
  const texts = stops.slice(1).map((at, i) => figure(at - stops[i]!));
  return withoutNothing({ stops, texts });
}

/** Widths of the panels and of the gaps between them; null for a wall of one. */
export const panelChain = (job: Job): Chain | null =>
  chainAt(
    placedPanels(job).flatMap(({ left_mm, right_mm }) => [left_mm, right_mm]),
    job.panel.width_mm,
  );

/** Openings from left to right and from the lower edge up; null where there are none. */
export const openingChains = ({
  openings,
  panel,
}: Job): Readonly<Record<'level' | 'upright', Chain | null>> => ({
  level: chainAt(
    openings.flatMap(({ x_mm, width_mm }) => [x_mm, x_mm + width_mm]),
    panel.width_mm,
  ),
  upright: chainAt(
    openings.flatMap(({ y_mm, height_mm }) => [y_mm, y_mm + height_mm]),
    panel.height_mm,
  ),
});
