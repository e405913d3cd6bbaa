import type { IssuedReading, ReadingsKept, ReadingToKeep } from '../../server/contract/issued-readings.ts';
import { askReadings, keepReadings } from '../api-kept-jobs.ts';
import { counted } from '../format.ts';
import { readingIn } from './reading-text.ts';
import { keyOf, type ReadingBox, type TickBox } from './readings.ts';
import type { Frozen, Measured, Notice, Store, TakenReading } from './store.ts';

/** How long nobody types before what was typed is kept, ms. */
const pause_ms = 600;

type Texts = Readonly<Record<string, string>>;

const keyOfReading = ({ row, quantity }: { row: string; quantity: string }): string => keyOf(row, quantity);

const textOf = (reading: IssuedReading | undefined): string =>
  reading?.value === null || reading === undefined ? '' : String(reading.value);

/** Row and quantity that a box goes by. */
function boxNamed(key: string): Pick<ReadingToKeep, 'row' | 'quantity'> {
  const at = key.lastIndexOf(' ');
  return { row: key.slice(0, at), quantity: key.slice(at + 1) as ReadingToKeep['quantity'] };
}

const byKey = (readings: readonly IssuedReading[]): Measured['boxes'] =>
  Object.fromEntries(readings.map((reading) => [keyOfReading(reading), reading]));

const filled = (texts: Texts): Texts =>
  Object.fromEntries(Object.entries(texts).filter(([, text]) => text.trim() !== ''));

/** What the page holds of the readings of an issued revision, as they came from the workshop. */
export function measuredOf(
  at: Measured['at'],
  { onDraft, taken, brought }: Pick<Frozen, 'onDraft' | 'taken' | 'brought'>,
  readings: readonly IssuedReading[],
): { measured: Measured; texts: Texts } {
  const boxes = byKey(readings);
  const here = Object.fromEntries(readings.map((reading) => [keyOfReading(reading), textOf(reading)]));
  const more = brought.readings.map((one) => [keyOfReading(one), String(one.value)] as const);
  const conflicts = brought.readings.flatMap(({ row, quantity, value }) => {
    const theirs = boxes[keyOf(row, quantity)];
    return theirs && theirs.value !== value ? [{ row, quantity, value, theirs }] : [];
  });
  const is = more.length > 0 ? 'waiting' : 'kept';
  const beside = { onDraft: { ...onDraft, ...brought.typed }, taken: [...taken, ...brought.readings] };
  return {
    measured: { at, boxes, conflicts, is, trouble: undefined, ...beside },
    texts: filled({ ...here, ...Object.fromEntries(more) }),
  };
}

/** What came of a saved file that was opened: how much of it is new, as it stands here, or otherwise. */
export function broughtNotice({ entry, brought, readings = [] }: Frozen): Notice | undefined {
  const all = brought.readings;
  if (all.length === 0) return undefined;
  const boxes = byKey(readings);
  const here = (one: TakenReading) => boxes[keyOf(one.row, one.quantity)];
  const isNew = all.filter((one) => !here(one)).length;
  const isSame = all.filter((one) => here(one)?.value === one.value).length;
  const differ = all.length - isNew - isSame;
  return {
    title: `The file holds readings of revision ${entry.revision}, which is in this workshop.`,
    sentences: [
      `${counted(isNew, 'reading is', 'readings are')} new and kept with it, ${isSame} as here${differ === 0 ? '.' : `, ${differ} otherwise: choose in the test sheet. Nothing was written over.`}`,
    ],
  };
}

const setMeasured = (store: Store, change: Partial<Measured>): void => {
  const { measured } = store.get();
  if (measured) store.set({ measured: { ...measured, ...change } });
};

const setTexts = (store: Store, readings: Texts): void => {
  const { draft } = store.get();
  if (draft) store.set({ draft: { ...draft, readings } });
};

const textsOf = (store: Store): Texts => store.get().draft?.readings ?? {};

/** Who took a value that came out of a saved file, and when; undefined where it was typed here. */
function takenBy(
  taken: Measured['taken'],
  key: string,
  value: ReadingToKeep['value'],
): ReadingToKeep['taken'] {
  const one = taken.find((each) => keyOfReading(each) === key && each.value === value);
  return one && { by: one.by, at: one.at };
}

/** What was typed and is not in the workshop yet; what others wrote meanwhile waits for a decision. */
export function unkept(texts: Texts, { boxes, conflicts, taken }: Measured): ReadingToKeep[] {
  const open = new Set(conflicts.map(keyOfReading));
  return [...new Set([...Object.keys(texts), ...Object.keys(boxes)])].flatMap((key) => {
    const { row, quantity } = boxNamed(key);
    const value = readingIn(texts[key] ?? '', quantity);
    const box = boxes[key];
    if (value === undefined || value === (box?.value ?? null) || open.has(key)) return [];
    const by = takenBy(taken, key, value);
    return [{ row, quantity, value, version: box?.version ?? 0, ...(by ? { taken: by } : {}) }];
  });
}

/** Texts after an answer: where nobody typed anything else meanwhile, a box shows what the workshop has. */
export function mergedTexts(texts: Texts, before: Measured['boxes'], after: Measured['boxes']): Texts {
  const merged = Object.entries(after).map(([key, reading]) => {
    const text = texts[key] ?? '';
    const value = readingIn(text, reading.quantity);
    const isUntouched = value === (before[key]?.value ?? null);
    return [key, isUntouched && value !== reading.value ? textOf(reading) : text] as const;
  });
  return filled({ ...texts, ...Object.fromEntries(merged) });
}

/** Boxes that somebody else wrote while something else was being typed into them here. */
export function metMeanwhile(
  texts: Texts,
  before: Measured['boxes'],
  after: Measured['boxes'],
): Measured['conflicts'] {
  return Object.entries(after).flatMap(([key, theirs]) => {
    const { row, quantity } = theirs;
    const value = readingIn(texts[key] ?? '', quantity);
    const isTouched = value !== undefined && value !== (before[key]?.value ?? null);
    const isWritten = theirs.version !== (before[key]?.version ?? 0) && theirs.value !== value;
    return isTouched && isWritten ? [{ row, quantity, value: value ?? null, theirs }] : [];
  });
}

function take(store: Store, sent: readonly ReadingToKeep[], { readings, conflicts }: ReadingsKept): void {
  const { measured } = store.get();
  if (!measured) return;
  const boxes = byKey(readings);
  const asked = new Set(sent.map(keyOfReading));
  const open = measured.conflicts.filter((one) => !asked.has(keyOfReading(one)));
  const met = metMeanwhile(textsOf(store), measured.boxes, boxes).filter(
    (one) => !asked.has(keyOfReading(one)) && !open.some((each) => keyOfReading(each) === keyOfReading(one)),
  );
  setTexts(store, mergedTexts(textsOf(store), measured.boxes, boxes));
  setMeasured(store, { boxes, conflicts: [...open, ...conflicts, ...met], trouble: undefined });
}

/** Keeps what was typed on an issued revision in the workshop's folder; one question at a time. */
export async function keepTyped(store: Store): Promise<void> {
  const { measured } = store.get();
  if (!measured || measured.is === 'keeping') return;
  const sent = unkept(textsOf(store), measured);
  if (sent.length === 0) return setMeasured(store, { is: 'kept' });
  setMeasured(store, { is: 'keeping' });
  const reply = await keepReadings(measured.at.id, measured.at.revision, sent);
  setMeasured(store, { is: 'waiting' });
  if (reply.kind === 'answer') {
    take(store, sent, reply.value);
    return keepTyped(store);
  }
  setMeasured(store, { trouble: reply.kind === 'withdrawn' ? '' : reply.detail });
}

const timers = new WeakMap<Store, ReturnType<typeof setTimeout>>();

function keepSoon(store: Store): void {
  clearTimeout(timers.get(store));
  timers.set(
    store,
    setTimeout(() => void keepTyped(store), pause_ms),
  );
}

/** Somebody types a reading taken on an issued revision; it is kept once nobody has typed for a moment. */
export function typeIssuedReading(
  store: Store,
  { row, written }: Pick<ReadingBox | TickBox, 'row' | 'written'>,
  text: string,
): void {
  setTexts(store, filled({ ...textsOf(store), [keyOf(row, written)]: text }));
  setMeasured(store, { is: 'waiting' });
  keepSoon(store);
}

/** Puts the value that stands in place of the one typed here. */
export function takeTheirReading(store: Store, conflict: Measured['conflicts'][number]): void {
  settleConflict(store, conflict, textOf(conflict.theirs));
}

/** Writes the value typed here over the one that was seen beside it. */
export function keepMyReading(store: Store, conflict: Measured['conflicts'][number]): void {
  settleConflict(store, conflict, textsOf(store)[keyOfReading(conflict)] ?? '');
}

function settleConflict(store: Store, conflict: Measured['conflicts'][number], text: string): void {
  const { measured } = store.get();
  setTexts(store, filled({ ...textsOf(store), [keyOfReading(conflict)]: text }));
  setMeasured(store, { conflicts: measured?.conflicts.filter((one) => one !== conflict) ?? [] });
  void keepTyped(store);
}

/** Takes over what was typed on the draft before it was issued, into boxes that hold nothing yet. */
export function takeOverDraft(store: Store): void {
  const { measured } = store.get();
  if (!measured) return;
  setTexts(store, filled({ ...measured.onDraft, ...textsOf(store) }));
  setMeasured(store, { onDraft: {} });
  void keepTyped(store);
}

/** Asks for what others measured meanwhile. */
export async function refreshReadings(store: Store): Promise<void> {
  const { measured } = store.get();
  if (measured?.is !== 'kept') return;
  const reply = await askReadings(measured.at.id, measured.at.revision);
  if (reply.kind === 'answer') take(store, [], { readings: reply.value.readings, conflicts: [] });
}
