import { jobJsonSchema } from '../../src/index.ts';

/** As much of JSON Schema as the job's own uses. */
export interface Schema {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly oneOf?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
}

export const jobSchema = jobJsonSchema() as Schema;

/** The ways a value may be given: one, or each of a choice. */
export const waysOf = (schema: Schema): readonly Schema[] => schema.oneOf ?? schema.anyOf ?? [schema];

/** Whether a field as refusals and findings name it, such as `feeds.exceptions[2].slot`, is one that a job has. */
export function isJobField(field: string): boolean {
  const steps = field.replaceAll(/\[\d+\]/g, '.[]').split('.');
  const reached = steps.reduce<readonly Schema[]>(
    (schemas, step) =>
      schemas
        .flatMap(waysOf)
        .flatMap((schema) => (step === '[]' ? schema.items : schema.properties?.[step]) ?? []),
    [jobSchema],
  );
  return reached.length > 0;
}
