import type { Outcome } from '../../src/outcome.ts';
import { type DxfReading, slotsFromDxf } from '../drawing-in/dxf.ts';
import type { SlotsRead } from '../drawing-in/slots-read.ts';
import { slotsFromTable } from '../drawing-in/table.ts';

/** A drawing or a pasted table to read slots from. */
export type DrawingInTask =
  | { readonly kind: 'dxf'; readonly reading: DxfReading }
  | { readonly kind: 'table'; readonly text: string };

/** Reads slots in the thread, where a file made to keep it busy is stopped in time. */
export default function answer(task: DrawingInTask): Outcome<SlotsRead> {
  return task.kind === 'dxf' ? slotsFromDxf(task.reading) : slotsFromTable(task.text);
}
