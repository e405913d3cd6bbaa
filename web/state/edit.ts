import { fieldName, type Path } from '../../src/job/field-name.ts';
import { type Job, job as jobSchema } from '../../src/job/job.ts';
import type { OwnProduct } from '../../src/job/own-product.ts';
import type { Segment } from '../../src/job/slots.ts';
import { centsOfAmount, levelText, ratioOfPercent, ratiosAsPercent, readEntryNumber } from '../format.ts';
import { readCorePrices } from './core-prices.ts';
import { type FieldSpec, fieldSpec } from './field-spec.ts';
import { change, replaceDraft } from './history.ts';
import { pathOf } from './paths.ts';
import { readPrices } from './price-list.ts';
import type { Proposal } from './proposals.ts';
import {
  type Product,
  withCopy,
  withField,
  withFurtherDriver,
  withLevels,
  withoutUnused,
  withProduct,
  withTrunk,
} from './sheet.ts';
import {
  type PastedList,
  readLengths,
  readReadings,
  readSegments,
  readSlotNumbers,
  readWholes,
} from './slot-list.ts';
import type { Draft, Store } from './store.ts';

/** What a text means in its field: a value, or the sentence that says why it means nothing. */
export type Reading =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly sentence: string };

/** A value no field takes, so that the document's own schema words the refusal. */
const notUnderstood = Symbol('not understood');

function meant(text: string, spec: FieldSpec): unknown {
  if (spec.kind === 'text') return text;
  if (spec.nullable && text.trim() === '') return null;
  const number = readEntryNumber(text, spec.unit);
  if (number === undefined) return notUnderstood;
  if (spec.kind === 'money') return centsOfAmount(number);
  return spec.kind === 'ratio' ? ratioOfPercent(number) : number;
}

const leadsTo = (place: readonly PropertyKey[], path: Path): boolean =>
  path.every((step, i) => String(place[i]) === String(step));

/** The document's own refusal of one field, or undefined where it takes it. */
function refusalOf(job: Job, path: Path): string | undefined {
  const read = jobSchema.safeParse(job);
  return read.error?.issues.find((problem) => leadsTo(problem.path, path))?.message;
}

const priceSentence = ({ key, label }: FieldSpec): string =>
  `${label} must be an amount such as ${key === 'price_cents_per_m' ? '0.98, up to 1,000' : '24.90, up to 100,000'}.`;

/** Reads a text typed into a field of the job. */
export function readEntry(job: Job, path: Path, text: string): Reading {
  const spec = fieldSpec(path);
  const value = meant(text, spec);
  const sentence = refusalOf(withField(job, path, value === notUnderstood ? Number.NaN : value), path);
  if (sentence === undefined) return { ok: true, value };
  if (spec.kind === 'money') return { ok: false, sentence: priceSentence(spec) };
  return { ok: false, sentence: spec.kind === 'ratio' ? ratiosAsPercent(sentence) : sentence };
}

/** The reader of a field that is typed as a list, or undefined for every other field. */
function listReader(name: string): ((text: string) => PastedList<unknown>) | undefined {
  if (name === 'slots.lengths_mm') return readLengths;
  if (name === 'slots.segments') return readSegments;
  if (/^dimming\.zones\[\d+\]\.slots$/.test(name)) return readSlotNumbers;
  if (/^feeds\.(exceptions\[\d+\]\.)?cutLines$/.test(name)) return readWholes;
  if (/^cables\.(trunk\.)?data\.coreCounts$/.test(name)) return readWholes;
  if (name === 'strip.offcuts_mm') return readLengths;
  if (name === 'prices.list') return readPrices;
  if (/^cables\.(trunk\.)?data\.pricesByCores$/.test(name)) return readCorePrices;
  return /^strip\.lifeTests\[\d+\]\.readings$/.test(name) ? readReadings : undefined;
}

function readAny(job: Job, name: string, text: string): Reading {
  const path = pathOf(name);
  const list = listReader(name)?.(text);
  if (!list) return readEntry(job, path, text);
  const sentence = refusalOf(withField(job, path, list.values), path);
  return sentence === undefined ? { ok: true, value: list.values } : { ok: false, sentence };
}

/** Every entry that is not understood, with its sentence, by field name. */
export function problemsOf(draft: Draft): ReadonlyMap<string, string> {
  const problems = new Map<string, string>();
  for (const [name, text] of Object.entries(draft.entries)) {
    const reading = readAny(draft.job, name, text);
    if (!reading.ok) problems.set(name, reading.sentence);
  }
  return problems;
}

const without = (entries: Draft['entries'], name: string): Draft['entries'] =>
  Object.fromEntries(Object.entries(entries).filter(([key]) => key !== name));

/** Somebody types: the text stays as typed, and the job follows wherever the text makes sense. */
export function typeText(store: Store, name: string, text: string): void {
  const { draft } = store.get();
  if (!draft) return;
  const reading = readAny(draft.job, name, text);
  const job = reading.ok ? withField(draft.job, pathOf(name), reading.value) : draft.job;
  const same = JSON.stringify(job) === JSON.stringify(draft.job);
  change(store, { ...draft, job: same ? draft.job : job, entries: { ...draft.entries, [name]: text } }, name);
}

/**
 * Somebody leaves a field or presses Enter in it: an entry that was understood is written out; one that was not stays as typed. A
 * browser tells of no change where the same was typed again, so that fields tell of being left as well.
 */
export function leave(store: Store, name: string): void {
  const { draft } = store.get();
  const text = draft?.entries[name];
  if (!draft || text === undefined || !readAny(draft.job, name, text).ok) return;
  if (listReader(name)?.(text).leftOver.length) return;
  replaceDraft(store, { ...draft, entries: without(draft.entries, name) });
  store.set({ lastField: undefined });
}

/** Sets a field from a list of words, a box to tick or a button. */
export function choose(store: Store, path: Path, value: unknown): void {
  const { draft } = store.get();
  if (!draft) return;
  const name = fieldName(path);
  change(store, { ...draft, job: withField(draft.job, path, value), entries: without(draft.entries, name) });
}

/** The job once an entry was chosen: it carries a copy of what is the workshop’s own, and none that nothing names any more. */
function chosenIn(store: Store, job: Job, id: string | null, edit: (job: Job) => Job): Job {
  const workshop = store.get().ownProducts.products.map(({ product }) => product);
  return withoutUnused(edit(withCopy(job, id, workshop)));
}

/** Chooses an entry by a change of the job, which carries it where it is the workshop’s own. */
export const alterChoosing = (store: Store, id: string | null, edit: (job: Job) => Job): void =>
  alter(store, (job) => chosenIn(store, job, id, edit));

/** Puts the workshop’s own product, as it is now, in place of the copy the job carries; what is entered over it stays. */
export function takeOverOwn(store: Store, product: OwnProduct): void {
  const { draft } = store.get();
  if (!draft) return;
  const carrying = withCopy(draft.job, product.id, [product]);
  const job =
    product.kind === 'strip' && draft.job.strip.entry === product.id ? withLevels(carrying) : carrying;
  change(store, { ...draft, job });
  sayLevels(store, draft.job, job);
}

/** Replaces the whole job by a change of it, as when a driver place is added. */
export function alter(store: Store, edit: (job: Job) => Job): void {
  const { draft } = store.get();
  if (draft) change(store, { ...draft, job: edit(draft.job) });
}

const standsIn = (name: string, field: string): boolean =>
  name === field || name.startsWith(`${field}.`) || name.startsWith(`${field}[`);

/** Makes a proposal part of the job, as one step; what was typed in the fields it sets gives way to it. */
export function apply(store: Store, { fields, edit }: Proposal): void {
  const { draft } = store.get();
  if (!draft) return;
  const kept = Object.entries(draft.entries).filter(
    ([name]) => !fields.some((field) => standsIn(name, field)),
  );
  change(store, { ...draft, job: edit(draft.job), entries: Object.fromEntries(kept) });
}

/** Removes an item of a list; what was typed in the items of that list goes with it, and undo brings it back. */
export function removeItem(store: Store, list: Path, index: number): void {
  const { draft } = store.get();
  if (!draft) return;
  const items = list.reduce<unknown>((at, step) => (at as Record<string | number, unknown>)[step], draft.job);
  const left = (items as unknown[]).filter((_, i) => i !== index);
  const stem = fieldName(list);
  const entries = Object.fromEntries(
    Object.entries(draft.entries).filter(([key]) => !key.startsWith(`${stem}[`)),
  );
  change(store, { ...draft, job: withField(draft.job, list, left), entries });
}

/** Says what became of the working levels where another strip has another number of channels. */
function sayLevels(store: Store, before: Job, { dimming: { levels } }: Job): void {
  if (levels.length === before.dimming.levels.length) return;
  const channels =
    levels.length > 1 ? `The strip has ${levels.length} channels: each` : 'The strip has one channel: it';
  store.set({
    notice: {
      title: 'The working level was carried over.',
      sentences: [
        `${channels} now stands at ${levelText(levels[0] ?? 1)}; together that is what was set before.`,
        'Full is still every channel fully on at once: drivers, cables and fuses are sized for that.',
      ],
    },
  });
}

/** Chooses a strip, driver or cable. Overrides belonged to the former entry and go. */
export function chooseProduct(store: Store, product: Product, id: string): void {
  const { draft } = store.get();
  if (!draft) return;
  const kept = Object.entries(draft.entries).filter(([name]) => !name.startsWith(`${product}.data.`));
  const job = chosenIn(store, draft.job, id, (carrying) => withProduct(carrying, product, id));
  change(store, { ...draft, job, entries: Object.fromEntries(kept) });
  sayLevels(store, draft.job, job);
}

/** Chooses the cable of the trunks; null is that of the branches. Overrides belonged to the former entry and go. */
export function chooseTrunk(store: Store, id: string | null): void {
  const { draft } = store.get();
  if (!draft) return;
  const kept = Object.entries(draft.entries).filter(([name]) => !name.startsWith('cables.trunk.'));
  const job = chosenIn(store, draft.job, id, (carrying) => withTrunk(carrying, id));
  change(store, { ...draft, job, entries: Object.fromEntries(kept) });
}

/** Chooses a further driver model. Overrides belonged to the former entry and go. */
export function chooseFurtherDriver(store: Store, index: number, id: string): void {
  const { draft } = store.get();
  if (!draft) return;
  const stem = fieldName(['drivers', 'also', index, 'data']);
  const kept = Object.entries(draft.entries).filter(([name]) => !name.startsWith(`${stem}.`));
  change(store, {
    ...draft,
    job: chosenIn(store, draft.job, id, (carrying) => withFurtherDriver(carrying, index, id)),
    entries: Object.fromEntries(kept),
  });
}

/** Puts slots read from a drawing or a table into the job as lines; what was typed in their fields gives way. */
export function takeSlots(store: Store, segments: readonly Segment[], width_mm: number | null): void {
  const { draft } = store.get();
  if (!draft) return;
  const slots = {
    from: 'segments' as const,
    width_mm: width_mm ?? draft.job.slots.width_mm,
    segments: [...segments],
  };
  const kept = Object.entries(draft.entries).filter(([name]) => !standsIn(name, 'slots'));
  change(store, { ...draft, job: { ...draft.job, slots }, entries: Object.fromEntries(kept) });
}
