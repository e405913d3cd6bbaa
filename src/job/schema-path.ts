import type { Path } from './field-name.ts';
import { jobJsonSchema } from './job.ts';

/** What the schema of the job says of a value. */
export interface FieldSchema {
  readonly type?: string;
  readonly title?: string;
  readonly description?: string;
  readonly unit?: string;
  readonly isWrittenPlain?: boolean;
  readonly enum?: readonly (string | number)[];
  readonly properties?: Readonly<Record<string, FieldSchema>>;
  readonly items?: FieldSchema;
  readonly anyOf?: readonly FieldSchema[];
  readonly oneOf?: readonly FieldSchema[];
}

const root = jobJsonSchema() as FieldSchema;

/** The ways a value may be given, or the one there is. */
export const branches = (schema: FieldSchema): readonly FieldSchema[] =>
  schema.oneOf ?? schema.anyOf ?? [schema];

function child(schema: FieldSchema, step: string | number): FieldSchema | undefined {
  const inner = branches(schema).map((branch) =>
    typeof step === 'number' ? branch.items : branch.properties?.[step],
  );
  const found = inner.filter((each) => each !== undefined);
  // A key that several kinds of a value have may be another field in each.
  return found.length > 1 ? { anyOf: found.flatMap(branches) } : found[0];
}

/** The schema at a path of the job document; undefined where no field is. */
export function schemaAt(path: Path): FieldSchema | undefined {
  return path.reduce<FieldSchema | undefined>((at, step) => (at ? child(at, step) : undefined), root);
}
