import * as z from 'zod';

/** What a bounded number in the job document means; it travels into the JSON Schema and into every error. */
export interface QuantitySpec {
  /** As a maker would call it, such as "Panel width". */
  readonly label: string;
  /** Unit as written after the number; empty for a count or a ratio. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** A ratio the trade writes as 0.95 and not in percent. */
  readonly isWrittenPlain?: boolean;
  /** Why the bounds are where they are, as half a sentence. */
  readonly why: string;
}

const grouped = (x: number): string => x.toLocaleString('en-GB', { maximumFractionDigits: 6 });

const withUnit = (x: number, unit: string): string => (unit === '' ? grouped(x) : `${grouped(x)} ${unit}`);

const boundsSentence = (spec: QuantitySpec): string =>
  `${spec.label} must lie between ${withUnit(spec.min, spec.unit)} and ${withUnit(spec.max, spec.unit)}: ${spec.why}.`;

function rounded(spec: QuantitySpec, base: z.ZodNumber): z.ZodNumber {
  const error = boundsSentence(spec);
  return base
    .min(spec.min, { error })
    .max(spec.max, { error })
    .meta({
      title: spec.label,
      description: spec.why,
      unit: spec.unit,
      ...(spec.isWrittenPlain ? { isWrittenPlain: true } : {}),
    });
}

/** A finite number with bounds that have a physical reason. */
export function quantity(spec: QuantitySpec): z.ZodNumber {
  const wrong = `${spec.label} must be a number${spec.unit === '' ? '' : ` in ${spec.unit}`}.`;
  return rounded(spec, z.number({ error: wrong }));
}

/** A whole number with bounds that have a reason. */
export function count(spec: Omit<QuantitySpec, 'unit'>): z.ZodNumber {
  const wrong = `${spec.label} must be a whole number.`;
  return rounded({ ...spec, unit: '' }, z.number({ error: wrong }).int({ error: wrong }));
}

/** A line of text with a length that still fits its box on paper. */
export function line(label: string, maxLength: number): z.ZodString {
  return z
    .string({ error: `${label} must be text.` })
    .max(maxLength, {
      error: `${label} must not be longer than ${maxLength} characters, to fit its box on paper.`,
    })
    .meta({ title: label });
}

/** One of a fixed list of words. */
export function choice<const Words extends readonly [string, ...string[]]>(label: string, words: Words) {
  return z.enum(words, { error: `${label} must be one of: ${words.join(', ')}.` }).meta({ title: label });
}

/** One of a fixed list of numbers, such as the voltages strip is made for. */
export function oneOf<const Numbers extends readonly [number, ...number[]]>(
  label: string,
  unit: string,
  numbers: Numbers,
) {
  return z
    .literal(numbers, { error: `${label} must be one of: ${numbers.join(', ')} ${unit}.` })
    .meta({ title: label, unit });
}
