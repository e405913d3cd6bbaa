import type { Path } from '../../src/job/field-name.ts';
import { isRatio } from '../../src/job/job-differences.ts';
import { branches, type FieldSchema, schemaAt } from '../../src/job/schema-path.ts';

/** What a field of the job document is, read from the document's own schema: nothing is said twice. */
export interface FieldSpec {
  readonly kind: 'number' | 'ratio' | 'text' | 'choice' | 'yes-no';
  /** Its own name in the document, whatever list or part it stands in. */
  readonly key: string;
  readonly label: string;
  /** As printed after the field; `%` for ratios, which are entered in percent. */
  readonly unit: string;
  readonly words: readonly (string | number)[];
  readonly nullable: boolean;
}

function kindOf(schema: FieldSchema): FieldSpec['kind'] {
  if (schema.enum) return 'choice';
  if (schema.type === 'boolean') return 'yes-no';
  if (schema.type === 'string') return 'text';
  return isRatio(schema) ? 'ratio' : 'number';
}

const printedUnit = (kind: FieldSpec['kind'], unit: string): string => {
  if (kind !== 'ratio') return unit;
  return unit === '1/K' ? '%/K' : '%';
};

/** The field at a path. A path that leads to no field of a job is a mistake in the page. */
export function fieldSpec(path: Path): FieldSpec {
  const end = schemaAt(path);
  if (!end) throw new RangeError(`No such field in a job: ${path.join('.')}`);
  const options = branches(end);
  const schema = options.find((option) => option.type !== 'null') ?? end;
  const kind = kindOf(schema);
  return {
    kind,
    key: String(path.findLast((step) => typeof step === 'string') ?? ''),
    label: schema.title ?? String(path.at(-1)),
    unit: printedUnit(kind, schema.unit ?? ''),
    words: schema.enum ?? [],
    nullable: options.some((option) => option.type === 'null'),
  };
}
