import * as z from 'zod';
import type { Path } from '../../src/job/field-name.ts';
import type { Job } from '../../src/job/job.ts';
import { type StripSheet, stripSheet } from '../../src/job/strip-sheet.ts';
import { entryText, nearest, ratioOfPercent, ratiosAsPercent, readNumber } from '../format.ts';
import { change, replaceDraft } from './history.ts';
import { isOverridden, shownValue } from './sheet.ts';
import type { Draft, Store } from './store.ts';

/** What the rails of a strip are found from. */
export type RailSource = StripSheet['rails']['from'];

/** An entry of the data sheet, described by the schema of the question: nothing is said twice. */
export interface SheetEntry {
  /** What its text is kept under; each way to the rails keeps its own. */
  readonly key: string;
  /** Its place in the question: `rails.length_mm`. */
  readonly place: string;
  readonly label: string;
  readonly unit: string;
  /** The choices of an entry that is chosen and not typed. */
  readonly words: readonly (string | number)[];
  readonly isRatio: boolean;
  readonly mayBeEmpty: boolean;
}

function entryOf(key: string, place: string, schema: z.ZodType): SheetEntry {
  const mayBeEmpty = schema instanceof z.ZodOptional;
  const inner = mayBeEmpty ? (schema.unwrap() as z.ZodType) : schema;
  const { title = place, unit = '' } = inner.meta() ?? {};
  const words =
    inner instanceof z.ZodEnum ? inner.options : inner instanceof z.ZodLiteral ? [...inner.values] : [];
  const isRatio = unit === '' && place === 'rails.drop';
  return {
    key,
    place,
    label: ratiosAsPercent(title),
    unit: isRatio ? '%' : String(unit),
    words: words as (string | number)[],
    isRatio,
    mayBeEmpty,
  };
}

/** Entries of the strip itself, in the order a sheet is read in. */
const stripEntries: readonly SheetEntry[] = Object.entries(stripSheet.shape)
  .filter(([name]) => name !== 'rails')
  .map(([name, schema]) => entryOf(name, name, schema));

/** Entries the rails are found from, for one way to find them. */
function railEntries(source: RailSource): readonly SheetEntry[] {
  const shape = stripSheet.shape.rails.options.find((option) => option.shape.from.value === source)!.shape;
  return Object.entries(shape)
    .filter(([name]) => name !== 'from')
    .map(([name, schema]) => entryOf(`${source}: ${name}`, `rails.${name}`, schema));
}

const sourceKey = 'rails';
const sources: readonly RailSource[] = ['longest run', 'measured volts', 'copper'];

/** The way to the rails that is chosen. */
export const railSource = ({ sheet }: Draft): RailSource =>
  sources.find((source) => source === sheet?.[sourceKey]) ?? 'longest run';

const channelPath: Path = ['strip', 'data', 'channels', 0];

/** What the job says already where nothing was typed; of the rarer figures only what its maker entered. */
function ofJob(job: Job, key: string): unknown {
  const own = (path: Path): unknown => (isOverridden(job, path) ? shownValue(job, path) : undefined);
  if (key === 'watts_per_m') return shownValue(job, [...channelPath, key]);
  if (key === 'cut_mm') return nearest(1000 / Number(shownValue(job, ['strip', 'data', 'unitsPerMetre'])), 2);
  if (key === 'longest run: length_mm') return shownValue(job, ['strip', 'data', 'longestRun_mm']);
  if (key === 'dropout_V') return own(['strip', 'data', key]);
  if (key === 'lampsInSeries' || key === 'lampForward_V') return own([...channelPath, key]);
  return ['nominal_V', 'lampsPerMetre', 'law'].includes(key)
    ? shownValue(job, ['strip', 'data', key])
    : undefined;
}

/** The text of an entry: as typed, else as the job has it. */
export function entryShown({ job, sheet }: Draft, { key }: SheetEntry): string {
  const typed = sheet?.[key];
  if (typed !== undefined) return typed;
  const value = ofJob(job, key);
  return typeof value === 'number' ? entryText(value, false) : typeof value === 'string' ? value : '';
}

/** Entries that stand for now: a strip with resistors has no regulator, and each way to the rails has its own. */
export function entriesOf(draft: Draft): {
  readonly strip: readonly SheetEntry[];
  readonly rails: readonly SheetEntry[];
} {
  const law = stripEntries.find(({ key }) => key === 'law')!;
  const isRegulated = entryShown(draft, law) === 'regulated';
  return {
    strip: stripEntries.filter(({ key }) => key !== 'dropout_V' || isRegulated),
    rails: railEntries(railSource(draft)),
  };
}

function meant(entry: SheetEntry, text: string): unknown {
  if (entry.words.length > 0) return entry.words.find((word) => String(word) === text);
  if (entry.mayBeEmpty && text.trim() === '') return undefined;
  const number = readNumber(text) ?? Number.NaN;
  return entry.isRatio ? ratioOfPercent(number) : number;
}

/** The question that the entries make, or the sentence of each that keeps it from being asked. */
export type Read =
  | { readonly ok: true; readonly sheet: StripSheet }
  | { readonly ok: false; readonly problems: ReadonlyMap<string, string> };

/** Reads the entries as the service would. */
export function readSheet(draft: Draft): Read {
  const { strip, rails } = entriesOf(draft);
  const named = (entry: SheetEntry) => [
    entry.place.split('.').at(-1)!,
    meant(entry, entryShown(draft, entry)),
  ];
  const given = (entries: readonly SheetEntry[]) =>
    Object.fromEntries(entries.map(named).filter(([, value]) => value !== undefined));
  const read = stripSheet.safeParse({ ...given(strip), rails: { from: railSource(draft), ...given(rails) } });
  if (read.success) return { ok: true, sheet: read.data };
  const sentences = read.error.issues.map(({ path, message }) => [path.join('.'), message] as const);
  const ratios = new Set(rails.filter(({ isRatio }) => isRatio).map(({ place }) => place));
  return {
    ok: false,
    problems: new Map(
      sentences.map(([place, text]) => [place, ratios.has(place) ? ratiosAsPercent(text) : text]),
    ),
  };
}

function putEntry(store: Store, key: string, text: string, field?: string): void {
  const { draft } = store.get();
  if (draft) change(store, { ...draft, sheet: { ...draft.sheet, [key]: text } }, field);
}

/** Keeps every entry as it stands, so that a job that changes afterwards leaves the question as it was asked. */
export function keepEntries(store: Store): void {
  const { draft } = store.get();
  if (!draft) return;
  const { strip, rails } = entriesOf(draft);
  const shown = [...strip, ...rails].map((entry) => [entry.key, entryShown(draft, entry)] as const);
  replaceDraft(store, { ...draft, sheet: { ...draft.sheet, ...Object.fromEntries(shown) } });
}

/** Somebody types from the sheet; it belongs to the draft and not to the job. */
export const typeEntry = (store: Store, { key }: SheetEntry, text: string): void =>
  putEntry(store, key, text, `sheet ${key}`);

/** Somebody chooses what the rails are found from. */
export const chooseRailSource = (store: Store, source: RailSource): void =>
  putEntry(store, sourceKey, source);
