import type { Path } from '../../src/job/field-name.ts';

/** Reads `drivers.places[1].width_mm` back into a path. */
export function pathOf(name: string): Path {
  return [...name.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((part) =>
    part[2] === undefined ? part[1]! : Number(part[2]) - 1,
  );
}

const isHolder = (x: unknown): x is Record<string | number, unknown> => typeof x === 'object' && x !== null;

/** The value at the end of a path, or undefined where the path leads nowhere. */
export function valueAt(document: unknown, path: Path): unknown {
  return path.reduce<unknown>((at, step) => (isHolder(at) ? at[step] : undefined), document);
}

/** A copy of the document with one value replaced; undefined removes the key. The original is untouched. */
export function withValue<Document>(document: Document, path: Path, value: unknown): Document {
  const [step, ...rest] = path;
  if (step === undefined) return value as Document;
  const copy: Record<string | number, unknown> = Array.isArray(document)
    ? ([...document] as unknown as Record<number, unknown>)
    : { ...(document as Record<string, unknown>) };
  const next = rest.length === 0 ? value : withValue(copy[step] ?? {}, rest, value);
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return copy as Document;
}

/** The element id of a field, from its name. */
export const fieldId = (name: string): string => `field-${name.replaceAll(/[^\w]+/g, '-')}`;
