import { type PickedPart, pickedName } from './belonging.ts';
import { fieldId } from './paths.ts';
import type { Store, Where } from './store.ts';

/** The first field that stands in a part of the job: `drivers.places[2]`, `slots`. */
const firstWithin = (part: string): HTMLElement | null =>
  document.querySelector<HTMLElement>(
    `[data-field^="${CSS.escape(`${part}.`)}"], [data-field^="${CSS.escape(`${part}[`)}"]`,
  );

/** The field a name leads to: itself, or the first field of the smallest part it stands in. */
function fieldElement(name: string): HTMLElement | null {
  const stems = [...name.matchAll(/[.[]/g)].map((match) => name.slice(0, match.index)).reverse();
  for (const part of [name, ...stems]) {
    const found = document.getElementById(fieldId(part)) ?? firstWithin(part);
    if (found) return found;
  }
  return null;
}

function goToField(name: string): void {
  const element = fieldElement(name);
  if (!element) return;
  for (let fold = element.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null) {
    fold.open = true;
  }
  element.focus({ preventScroll: true });
  element.scrollIntoView({ block: 'center' });
}

function goToWall(slot: string | undefined, cable: string | undefined): void {
  const wall = document.getElementById('elevation');
  wall?.scrollIntoView({ block: 'nearest' });
  const target = slot ? document.querySelector<SVGElement>(`[data-slot="${CSS.escape(slot)}"]`) : undefined;
  // In a wall larger than its frame the cable may lie out of sight.
  const line = cable ? document.querySelector(`[data-cable="${CSS.escape(cable)}"] .cable-line`) : undefined;
  line?.scrollIntoView({ block: 'nearest', inline: 'center' });
  (target ?? wall)?.focus({ preventScroll: true });
}

/** The slot a place belongs to, by the slot itself, its run or its feed point. */
function slotOf(store: Store, place: Where): string | undefined {
  const runs = store.get().answer?.sizing.setOut.runs ?? [];
  const run = runs.find(
    (candidate) =>
      candidate.id === place.run ||
      candidate.slot === place.slot ||
      candidate.feedPoints.some((point) => point.id === place.feedPoint),
  );
  if (run) store.set({ chosenRun: run.id });
  return run?.slot ?? place.slot;
}

/** Leads to where a finding or a refusal belongs: the thing on the drawing, or the field to change. */
export function jumpTo(store: Store, place: Where): void {
  store.set({ marked: place });
  const onWall = place.slot ?? place.run ?? place.feedPoint ?? place.driver ?? place.cable;
  if (onWall === undefined && place.field !== undefined) goToField(place.field);
  else goToWall(slotOf(store, place), place.cable);
}

/** Marks a cable, a feed point or a driver with all that belongs to it; the one that is marked is let go of. */
export function pick(store: Store, part: PickedPart): void {
  const isMarked = pickedName(store.get().marked ?? {}) === pickedName(part);
  if (!isMarked && part.feedPoint !== undefined) slotOf(store, part);
  store.set({ marked: isMarked ? undefined : part });
}

/** Nothing is marked any more. */
export const unpick = (store: Store): void => store.set({ marked: undefined });

/** Leads from a finding to the field that changes it. */
export function jumpToField(store: Store, field: string): void {
  store.set({ marked: { field } });
  goToField(field);
}

/** Leads to a temperature: its mark in the section and its row in the table below. */
export function jumpToReading(store: Store, reading: string): void {
  store.set({ marked: { field: 'section', reading } });
  const row = document.getElementById(`reading-${reading}`);
  row?.focus({ preventScroll: true });
  row?.closest('build-up-section')?.scrollIntoView({ block: 'start' });
}

/** Leads to a check in the list of findings, unfolding what it stands in. */
export function jumpToFinding(id: string): void {
  const item = document.getElementById(`finding-${id}`);
  const fold = item?.closest('details');
  if (fold) fold.open = true;
  item?.focus({ preventScroll: true });
  item?.scrollIntoView({ block: 'nearest' });
}

/** Leads to a schedule: its tab comes to the front. */
export function jumpToSchedule(id: string): void {
  const tab = document.getElementById(`tab-${id}`);
  tab?.click();
  tab?.focus({ preventScroll: true });
  tab?.scrollIntoView({ block: 'start' });
}

/** Leads to the papers; without an answer there are none, and the page says so. */
export function jumpToPapers(store: Store): void {
  const papers = document.querySelector<HTMLElement>('paper-tools');
  const pack = papers?.querySelector('button');
  if (papers && pack) {
    papers.scrollIntoView({ block: 'start' });
    pack.focus({ preventScroll: true });
    return;
  }
  const sentences = ['They are made once the job can be calculated; what keeps it from that stands above.'];
  store.set({ notice: { title: 'There are no papers to print yet.', sentences } });
}
