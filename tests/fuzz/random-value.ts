import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, whole } from './random.ts';
import { type Schema, waysOf } from './schema.ts';

/** A number within its bounds, with a liking for the bounds, round numbers, and numbers the job already holds. */
function randomNumber(schema: Schema, random: Random, held: readonly number[]): number {
  const { minimum = 0, maximum = 1e6 } = schema;
  const inside = held.filter((value) => value >= minimum && value <= maximum);
  const fresh = pick(random, [
    () => minimum,
    () => maximum,
    () => between(random, minimum, maximum),
    () => (minimum > 0 ? minimum * (maximum / minimum) ** random() : between(random, minimum, maximum / 30)),
    () => (inside.length > 0 ? pick(random, inside) : between(random, minimum, maximum)),
    () => (inside.length > 0 ? pick(random, inside) * between(random, 0.8, 1.25) : minimum),
    () => Math.round(between(random, minimum, maximum)),
  ])();
  const whole = schema.type === 'integer' ? Math.round(fresh) : fresh;
  return Math.min(maximum, Math.max(minimum, whole));
}

const words = ['', 'A', 'Möbel <b>&amp; "Söhne"</b>', '=1+1', 'x'.repeat(200), '壁', '-'];

/** What has a pattern is a date, or the id of an own product. */
function randomText({ pattern, minLength = 0, maxLength }: Schema, random: Random): string {
  const long = words.filter(({ length }) => length >= minLength);
  if (pattern === undefined) return pick(random, long).slice(0, maxLength);
  return pattern.startsWith('^own-') ? `own-${whole(random, 1, 9)}` : '2026-03-31';
}

/** Any value the schema allows; optional keys are there every other time, and lists are short. */
export function randomValue(schema: Schema, random: Random, held: readonly number[]): unknown {
  const way = pick(random, waysOf(schema));
  if (way !== schema) return randomValue(way, random, held);
  if (schema.const !== undefined) return schema.const;
  if (schema.enum) return pick(random, schema.enum);
  switch (schema.type) {
    case 'object':
      return Object.fromEntries(
        Object.entries(schema.properties ?? {})
          .filter(([key]) => schema.required?.includes(key) || chance(random, 0.5))
          .map(([key, value]) => [key, randomValue(value, random, held)]),
      );
    case 'array': {
      const { minItems = 0, maxItems = 400, items = {} } = schema;
      const length = Math.min(maxItems, minItems + whole(random, 0, chance(random, 0.1) ? 12 : 3));
      return Array.from({ length }, () => randomValue(items, random, held));
    }
    case 'integer':
    case 'number':
      return randomNumber(schema, random, held);
    case 'boolean':
      return chance(random, 0.5);
    case 'null':
      return null;
    default:
      return randomText(schema, random);
  }
}
