import type { Path } from '../../src/job/field-name.ts';
import { isRatio } from '../../src/job/job-differences.ts';
import { branches, type FieldSchema, schemaAt } from '../../src/job/schema-path.ts';
import { amountText, entryText } from '../format.ts';

/** What a field of the job document is, read from the document's own schema: nothing is said twice. */
export interface FieldSpec {
  readonly kind: 'number' | 'ratio' | 'money' | 'text' | 'choice' | 'yes-no';
  /** Its own name in the document, whatever list or part it stands in. */
  readonly key: string;
  readonly label: string;
  /** As printed after the field; `%` for ratios, which are entered in percent; prices are entered in whole units of a currency. */
  readonly unit: string;
  readonly words: readonly (string | number)[];
  readonly nullable: boolean;
  /** Why its bounds are where they are; empty of words. */
  readonly why: string;
}

function kindOf(schema: FieldSchema, key: string): FieldSpec['kind'] {
  if (schema.enum) return 'choice';
  if (schema.type === 'boolean') return 'yes-no';
  if (schema.type === 'string') return 'text';
  if (key.startsWith('price_cents')) return 'money';
  return isRatio(schema) ? 'ratio' : 'number';
}

const printedUnit = (kind: FieldSpec['kind'], unit: string): string => {
  if (kind !== 'ratio') return unit;
  return unit === '1/K' ? '%/K' : '%';
};

/** What the document calls a price ends in; the page writes amounts. */
export const inCents = /,? in cents$/;

/** A number of the document as it stands in a field of a kind. */
export const numberText = (value: number, kind: FieldSpec['kind']): string =>
  kind === 'money' ? amountText(value) : entryText(value, kind === 'ratio');

/** The field at a path. A path that leads to no field of a job is a mistake in the page. */
export function fieldSpec(path: Path): FieldSpec {
  const end = schemaAt(path);
  if (!end) throw new RangeError(`No such field in a job: ${path.join('.')}`);
  const options = branches(end);
  const schema = options.find((option) => option.type !== 'null') ?? end;
  const key = String(path.findLast((step) => typeof step === 'string') ?? '');
  const kind = kindOf(schema, key);
  return {
    kind,
    key,
    label: (schema.title ?? String(path.at(-1))).replace(inCents, ''),
    unit: printedUnit(kind, schema.unit ?? ''),
    words: schema.enum ?? [],
    nullable: options.some((option) => option.type === 'null'),
    why: schema.description ?? end.description ?? '',
  };
}
