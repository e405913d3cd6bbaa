import { placedPanels } from '../../src/job/panels.ts';
import type { OnSiteData, SlotFacts } from './data.ts';
import { drawn } from './elements.ts';

/** Distance of a point from the middle line of a slot, mm. */
function away_mm({ line: [x0, y0, x1, y1] }: SlotFacts, x: number, y: number): number {
  const length2 = (x1 - x0) ** 2 + (y1 - y0) ** 2;
  const along = length2 === 0 ? 0 : ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length2;
  const held = Math.min(1, Math.max(0, along));
  return Math.hypot(x - x0 - held * (x1 - x0), y - y0 - held * (y1 - y0));
}

/** The slot nearest to a point of the wall: slots are thinner than a finger. */
export const nearestSlot = (slots: readonly SlotFacts[], x: number, y: number): SlotFacts =>
  slots.reduce((best, slot) => (away_mm(slot, x, y) < away_mm(best, x, y) ? slot : best));

/** The wall as seen from the room, its slots to be tapped. */
export interface Wall {
  readonly element: SVGElement;
  /** Shows which slot is chosen, and of which readings lie outside their band. */
  readonly mark: (chosen: string | null, wrong: ReadonlySet<string>) => void;
}

/**
 * Numbers at the upper ends of slots, as many as a small screen has room for: some sixteen across the wall, the first
 * and then every second, fifth or tenth.
 */
function slotNumbers({ panel, slots }: OnSiteData): SVGElement[] {
  const size_mm = Math.max(panel.width_mm / 26, panel.height_mm / 40);
  const every = [1, 2, 5, 10, 20, 50].find((step) => slots.length / step <= 16) ?? 100;
  return slots.flatMap(({ id, line: [x0, y0, x1, y1] }, i) => {
    if (i !== 0 && (i + 1) % every !== 0) return [];
    const [x, top] = y1 >= y0 ? [x1, y1] : [x0, y0];
    const y = Math.max(size_mm, panel.height_mm - top - 0.4 * size_mm);
    return [drawn('text', { x, y, 'font-size': size_mm, class: 'number' }, id.replace(/^S0*/, ''))];
  });
}

/** The panels with the gaps between them, or the one the wall is. */
function panelFaces({ job, panel }: OnSiteData, thick: number): SVGElement[] {
  const all = placedPanels(job);
  const face = (x: number, top_mm: number, width: number, height: number): SVGElement =>
    drawn('rect', { x, y: panel.height_mm - top_mm, width, height, class: 'panel', 'stroke-width': thick });
  if (all.length === 0) return [face(0, panel.height_mm, panel.width_mm, panel.height_mm)];
  return all.map(({ left_mm, top_mm, width_mm, height_mm }) => face(left_mm, top_mm, width_mm, height_mm));
}

/** Draws the wall; `choose` is told the slot nearest to a tap. */
export function drawnWall(data: OnSiteData, choose: (slot: string) => void): Wall {
  const { panel, slots, title } = data;
  const { width_mm, height_mm } = panel;
  const thick = Math.max(width_mm, height_mm) / 300;
  const lines = slots.map(({ id, line: [x0, y0, x1, y1] }) => {
    const ends = { x1: x0, y1: height_mm - y0, x2: x1, y2: height_mm - y1 };
    return { id, line: drawn('line', { ...ends, 'stroke-width': 2 * thick, class: 'slot' }) };
  });
  const element = drawn(
    'svg',
    {
      viewBox: `0 0 ${width_mm} ${height_mm}`,
      role: 'img',
      'aria-label': `${title}, ${slots.length} slots, seen from the room`,
    },
    ...panelFaces(data, thick),
    ...lines.map(({ line }) => line),
    ...slotNumbers(data),
  ) as SVGSVGElement;
  element.addEventListener('click', (event) => {
    const box = element.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * width_mm;
    const y = (1 - (event.clientY - box.top) / box.height) * height_mm;
    choose(nearestSlot(slots, x, y).id);
  });
  const mark = (chosen: string | null, wrong: ReadonlySet<string>): void => {
    for (const { id, line } of lines) {
      line.classList.toggle('is-chosen', id === chosen);
      line.classList.toggle('is-wrong', wrong.has(id));
    }
  };
  return { element, mark };
}
