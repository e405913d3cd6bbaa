import * as z from 'zod';
import type { Path } from './field-name.ts';
import { isRatio } from './job-differences.ts';
import { ownProducts, type ProductKind } from './own-product.ts';
import { branches, type FieldSchema } from './schema-path.ts';

/** A value of an own product that is entered by itself, in a form or in a column of a table. */
export interface ProductField {
  /** From the product: `['data', 'channels', 0, 'watts_per_m']`. */
  readonly path: Path;
  readonly label: string;
  /** As it is written: `%` for ratios; amounts of money have none. */
  readonly unit: string;
  /** Counts are whole numbers in a row; prices are numbers of cores, each with an amount. */
  readonly kind: 'number' | 'ratio' | 'money' | 'text' | 'choice' | 'yes-no' | 'counts' | 'prices';
  readonly words: readonly (string | number)[];
  readonly isNullable: boolean;
  /** Whether the product may be without it. */
  readonly isOptional: boolean;
  /** Bounds of a number, as the product holds it. */
  readonly min: number | null;
  readonly max: number | null;
}

/** A strip has so many channels at most. */
export const mostChannels = 4;

type Bounded = FieldSchema & {
  readonly required?: readonly string[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly const?: unknown;
};

function kindOf(schema: FieldSchema, key: string): ProductField['kind'] {
  if (key === 'coreCounts') return 'counts';
  if (key === 'pricesByCores') return 'prices';
  if (schema.enum) return 'choice';
  if (schema.type === 'boolean') return 'yes-no';
  if (schema.type === 'string') return 'text';
  if (key.startsWith('price_cents')) return 'money';
  return isRatio(schema) ? 'ratio' : 'number';
}

const shownUnit = (kind: ProductField['kind'], unit: string): string => {
  if (kind !== 'ratio') return unit;
  return unit === '1/K' ? '%/K' : '%';
};

function fieldOf(schema: FieldSchema, path: Path, of = '', isOptional = false): ProductField {
  const itself = branches(schema).find(({ type }) => type !== 'null') ?? schema;
  const { title = '', unit = '', minimum, maximum } = itself as Bounded;
  const key = String(path.at(-1));
  const kind = kindOf(itself, key);
  const titles = [title, (schema as FieldSchema).title].filter((text) => text !== undefined && text !== '');
  return {
    path,
    label: `${of}${String(titles[0] ?? key).replace(/,? in cents$/, '')}`,
    unit: shownUnit(kind, unit),
    kind,
    words: itself.enum ?? [],
    isOptional,
    isNullable: branches(schema).some(({ type }) => type === 'null'),
    min: minimum ?? null,
    max: maximum ?? null,
  };
}

const channelFields = (items: FieldSchema): ProductField[] =>
  Array.from({ length: mostChannels }, (_, i) => i).flatMap((i) =>
    Object.entries(items.properties ?? {}).map(([key, schema]) =>
      fieldOf(schema, ['data', 'channels', i, key], `Channel ${i + 1}: `),
    ),
  );

function fieldsOf(kind: ProductKind): ProductField[] {
  const { properties = {} } = z.toJSONSchema(ownProducts[kind]) as FieldSchema;
  const { required = [] } = (properties.data ?? {}) as Bounded;
  const data = Object.entries(properties.data?.properties ?? {}).flatMap(([key, schema]) =>
    key === 'channels'
      ? channelFields(schema.items ?? {})
      : [fieldOf(schema, ['data', key], '', !required.includes(key))],
  );
  const about = ['currency', 'stock', 'source', 'dated'].map((key) => fieldOf(properties[key]!, [key]));
  return [...data, ...about];
}

const all: Readonly<Record<ProductKind, readonly ProductField[]>> = {
  strip: fieldsOf('strip'),
  driver: fieldsOf('driver'),
  dimmer: fieldsOf('dimmer'),
  cable: fieldsOf('cable'),
  profile: fieldsOf('profile'),
  cover: fieldsOf('cover'),
};

/** Every value of a kind of own product, in the order of its data sheet; what is known of it beside that comes last. */
export const productFields = (kind: ProductKind): readonly ProductField[] => all[kind];
