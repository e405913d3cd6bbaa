import * as z from 'zod';
import { choice, line, quantity } from './quantity.ts';

/**
 * A door or a window in the panel: no slot, no strip and no cable passes it. Or a keep-out, where something stands behind the
 * face: no slot and no strip, and cables as it says.
 */
export const opening = z.strictObject({
  name: line('Opening', 30),
  kind: choice('What is there', ['opening', 'keep-out']).default('opening'),
  /** Of a keep-out; nothing passes an opening. */
  cablesPass: z
    .boolean({ error: 'Cables may pass it must be true or false.' })
    .meta({ title: 'Cables may pass it' })
    .default(false),
  x_mm: quantity({
    label: 'Opening from the left edge',
    unit: 'mm',
    min: -5000,
    max: 30000,
    why: "measured from the panel's lower left corner; may reach past its edge",
  }),
  y_mm: quantity({
    label: 'Opening from the bottom',
    unit: 'mm',
    min: -5000,
    max: 8000,
    why: "measured from the panel's lower left corner; 0 for a door",
  }),
  width_mm: quantity({
    label: 'Width of the opening',
    unit: 'mm',
    min: 20,
    max: 30000,
    why: 'clear measure',
  }),
  height_mm: quantity({
    label: 'Height of the opening',
    unit: 'mm',
    min: 20,
    max: 8000,
    why: 'clear measure',
  }),
  rim_mm: quantity({
    label: 'Timber kept whole round it',
    unit: 'mm',
    min: 0,
    max: 1000,
    why: 'slots end this far from the opening',
  }),
});

export type Opening = z.infer<typeof opening>;

/**
 * A door to begin from, in the middle of a panel: a common clear size (common practice), or a third of a narrow panel and
 * the height of a low one.
 */
export function newOpening(
  name: string,
  panel: { readonly width_mm: number; readonly height_mm: number },
): Opening {
  const width_mm = Math.min(900, panel.width_mm / 3);
  return {
    name,
    ...{ kind: 'opening', cablesPass: false },
    x_mm: Math.round((panel.width_mm - width_mm) / 2),
    y_mm: 0,
    width_mm,
    height_mm: Math.min(2050, panel.height_mm),
    rim_mm: 60,
  };
}

/**
 * A keep-out to begin from, low in the middle of a panel: a box of a socket, 80 mm square with room to fix it (common
 * practice), behind which cables pass.
 */
export function newKeepOut(name: string, panel: { readonly width_mm: number }): Opening {
  return {
    name,
    ...{ kind: 'keep-out', cablesPass: true },
    ...{ x_mm: Math.round(panel.width_mm / 2) - 40, y_mm: 260, width_mm: 80, height_mm: 80, rim_mm: 10 },
  };
}

/** Whether cables have to go round it. */
export const stopsCables = ({ kind, cablesPass }: Opening): boolean => kind === 'opening' || !cablesPass;

/** The most openings a job may have. */
const mostOpenings = 20;

export const openings = z
  .array(opening)
  .max(mostOpenings, { error: `A job holds at most ${mostOpenings} openings.` })
  .default([]);
