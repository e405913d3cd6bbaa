import type { State } from './store.ts';

/** The number of the slot whose run is chosen on the drawing, else 1. */
export function chosenSlot({ answer, chosenRun }: State): number {
  const run = answer?.sizing.setOut.runs.find((candidate) => candidate.id === chosenRun);
  return answer?.sizing.setOut.slots.find((slot) => slot.id === run?.slot)?.number ?? 1;
}
