import * as z from 'zod';
import { choice, count, line, quantity } from './quantity.ts';

/** How a panel meets the one before it. */
const joints = ['in line', 'inner corner', 'outer corner'] as const;

/** One of the panels a piece is made of, as it leaves the workshop. */
const onePanel = z.strictObject({
  id: line('Mark of the panel', 8).min(1, { error: 'Each panel needs a mark, such as P1.' }),
  name: line('Name of the panel', 30),
  width_mm: quantity({
    label: 'Width of this panel',
    unit: 'mm',
    min: 50,
    max: 10000,
    why: 'of one panel, which has to be carried in',
  }),
  height_mm: quantity({
    label: 'Height of this panel',
    unit: 'mm',
    min: 50,
    max: 8000,
    why: 'of one panel, which has to be carried in',
  }),
  raised_mm: quantity({
    label: 'Lower edge above that of the wall',
    unit: 'mm',
    min: 0,
    max: 7950,
    why: '0 where it stands on the line of the lowest panel',
  }),
  /** Of the first panel neither is read: nothing is before it. */
  gap_mm: quantity({
    label: 'Gap to the panel before',
    unit: 'mm',
    min: 0,
    max: 5000,
    why: 'from edge to edge along the unfolded wall; 0 where they touch',
  }),
  joint: choice('Joined to the panel before', joints),
  /** Of evenly spaced slots; null for as many as the slots say. */
  slotCount: count({
    label: 'Slots in this panel',
    min: 0,
    max: 400,
    why: 'one set of papers holds no more; 0 for a plain panel',
  })
    .nullable()
    .default(null),
});

export type Panel = z.infer<typeof onePanel>;

/** The most panels of one piece. */
const mostPanels = 20;

export const panels = z
  .array(onePanel)
  .max(mostPanels, { error: `A piece has at most ${mostPanels} panels: split it into several jobs.` })
  .default([]);

/** As much of a job as its panels are read from. */
interface OfPanels {
  readonly panels: readonly Panel[];
}

/** Width and height of a wall. */
interface Size {
  readonly width_mm: number;
  readonly height_mm: number;
}

/** A panel where it stands on the unfolded wall, in mm from the wall's lower left corner. */
export interface PlacedPanel extends Panel {
  readonly left_mm: number;
  readonly right_mm: number;
  readonly bottom_mm: number;
  readonly top_mm: number;
}

/** Panels side by side, from left to right, each after its gap. */
export function placed(list: readonly Panel[]): PlacedPanel[] {
  let right_mm = 0;
  return list.map((panel, i) => {
    const left_mm = i === 0 ? 0 : right_mm + panel.gap_mm;
    right_mm = left_mm + panel.width_mm;
    return {
      ...panel,
      left_mm,
      right_mm,
      bottom_mm: panel.raised_mm,
      top_mm: panel.raised_mm + panel.height_mm,
    };
  });
}

/** The panels of a job; a job without any is one panel as large as the wall, and has none here. */
export const placedPanels = ({ panels: list }: OfPanels): PlacedPanel[] => placed(list);

/** What the panels come to: the wall's width with its gaps, and its height up to the highest edge. */
export function outlineOf(list: readonly Panel[]): Size {
  const all = placed(list);
  return { width_mm: all.at(-1)?.right_mm ?? 0, height_mm: Math.max(0, ...all.map(({ top_mm }) => top_mm)) };
}

/** A job whose wall is as large as its panels. */
export function withOutline<Job extends OfPanels & { readonly panel: Size }>(job: Job): Job {
  if (job.panels.length === 0) return job;
  const panel = outlineOf(job.panels);
  const isSame = panel.width_mm === job.panel.width_mm && panel.height_mm === job.panel.height_mm;
  return isSame ? job : { ...job, panel };
}

/** A corner of the wall: amid the gap of two panels, on the unfolded wall. */
export interface Corner {
  readonly x_mm: number;
  readonly joint: Exclude<Panel['joint'], 'in line'>;
}

/** Where the wall turns, from left to right. */
export function cornersOfWall(job: OfPanels): Corner[] {
  const all = placedPanels(job);
  return all.flatMap(({ joint, left_mm }, i) =>
    i === 0 || joint === 'in line' ? [] : [{ joint, x_mm: (all[i - 1]!.right_mm + left_mm) / 2 }],
  );
}

/** A mark that no panel of a list has yet. */
export function freePanelId(list: readonly { readonly id: string }[]): string {
  const taken = new Set(list.map(({ id }) => id));
  for (let number = list.length + 1; ; number++) if (!taken.has(`P${number}`)) return `P${number}`;
}

/**
 * The piece with one panel more: a wall without any is cut in two halves, 3 mm apart (common practice for a shadow gap); else
 * the last panel once more, in line.
 */
export function withOnePanelMore({ panel, panels: list }: OfPanels & { readonly panel: Size }): Panel[] {
  const last = list.at(-1);
  if (last) return [...list, { ...last, id: freePanelId(list), name: '', joint: 'in line' }];
  const gap_mm = 3;
  const half: Panel = {
    ...{ id: 'P1', name: '', width_mm: (panel.width_mm - gap_mm) / 2, height_mm: panel.height_mm },
    ...{ raised_mm: 0, gap_mm, joint: 'in line', slotCount: null },
  };
  return [half, { ...half, id: 'P2' }];
}
