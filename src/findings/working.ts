import type { Law, Quantity, Working } from '../answer/workings.ts';
import type { Check } from './context.ts';

/** A quantity that is entered, looked up or read off a larger calculation, with where it is from. */
export const given = (
  symbol: string,
  value: number,
  unit: string,
  meaning: string,
  source: string | null = null,
): Quantity => ({ symbol, meaning, value, unit, law: null, source });

/** A quantity that follows from others by a law, with its value as the answer has it, which the law has to give. */
export const made = (
  symbol: string,
  value: number,
  unit: string,
  meaning: string,
  law: Law,
  source: string | null = null,
): Quantity => ({ symbol, meaning, value, unit, law, source });

/** A quantity between others that stands nowhere else in the answer: its value is what the law gives. */
export const between = (symbol: string, unit: string, meaning: string, law: Law): Quantity =>
  made(symbol, Number.NaN, unit, meaning, law);

export const sum = (plus: string[], minus: string[] = []): Law => ({ is: 'sum', plus, minus });
export const product = (times: string[], over: string[] = []): Law => ({ is: 'product', times, over });

type Values = ReadonlyMap<string, number>;

function come(law: Law, values: Values): number {
  const at = (symbol: string): number => values.get(symbol)!;
  switch (law.is) {
    case 'sum':
      return law.plus.reduce((s, each) => s + at(each), 0) - law.minus.reduce((s, each) => s + at(each), 0);
    case 'product':
      return law.times.reduce((p, each) => p * at(each), 1) / law.over.reduce((p, each) => p * at(each), 1);
    case 'power':
      return Math.max(0, at(law.base)) ** at(law.exponent);
    case 'least':
      return Math.min(...law.of.map(at));
    case 'greatest':
      return Math.max(...law.of.map(at));
    case 'whole':
      return Math.floor(at(law.of) + 1e-9);
  }
}

/** The result less its limit where one quantity is as it is given, and what follows from it is anew. */
function overLimit(
  { quantities, result, limit }: Omit<Working, 'turns'>,
  symbol: string,
): (value: number) => number {
  const values = new Map(quantities.map((each) => [each.symbol, each.value]));
  const following = quantities.flatMap((each) =>
    each.law === null || each.symbol === symbol ? [] : [{ symbol: each.symbol, law: each.law }],
  );
  return (value) => {
    values.set(symbol, value);
    for (const each of following) values.set(each.symbol, come(each.law, values));
    return values.get(result)! - values.get(limit!)!;
  };
}

/** Further than this many times a quantity nothing is asked. */
const furthest = 100;

/** Halvings of a bracket: to the last digits of a number. */
const halvings = 60;

/** Where a function changes its sign between two places; undefined where it does not. */
function crossing(f: (x: number) => number, from: number, to: number): number | undefined {
  let [low, high] = [from, to];
  const atLow = f(low);
  if (!(atLow * f(high) <= 0)) return undefined;
  for (let i = 0; i < halvings; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (f(middle) * atLow > 0) low = middle;
    else high = middle;
  }
  return high;
}

/** The value of one quantity at which the result meets its limit, the others as they are; none within a hundred times. */
function turnOf(working: Omit<Working, 'turns'>, symbol: string): Working['turns'] {
  const { quantities, limit } = working;
  const now = quantities.find((each) => each.symbol === symbol)!.value;
  if (limit === null || !(now > 0)) return [];
  const over = overLimit(working, symbol);
  const value = crossing(over, now, now / 1e6) ?? crossing(over, now, furthest * now);
  return value === undefined ? [] : [{ symbol, value }];
}

/** Quantities with the values of those that follow from others alone. */
function filled(quantities: readonly Quantity[]): Quantity[] {
  const values = new Map<string, number>();
  return quantities.map((each) => {
    const value = each.law !== null && Number.isNaN(each.value) ? come(each.law, values) : each.value;
    values.set(each.symbol, value);
    return { ...each, value };
  });
}

/** A working with what it would take to change the verdict, for each quantity that is named as one to change. */
export function workingOf(
  quantities: Quantity[],
  of: Omit<Working, 'turns' | 'quantities'> & { readonly turns: readonly string[] },
): Working {
  const working = { ...of, quantities: filled(quantities) };
  return { ...working, turns: of.turns.flatMap((symbol) => turnOf(working, symbol)) };
}

/** The working of a figure that is held against a limit as it stands; none of a count. */
function compared(check: Check): Working | undefined {
  const { value, limit, margin, unit, title, basis } = check;
  if (value === null || limit === null || margin === null || unit === '') return undefined;
  const must = Math.sign(margin) === Math.sign(limit - value) ? 'not exceed' : 'reach';
  const held = must === 'reach' ? 'the least it must reach' : 'the most it may be';
  const quantities = [given('x', value, unit, title), given('x_lim', limit, unit, held, basis)];
  return workingOf(quantities, { result: 'x', limit: 'x_lim', must, turns: [] });
}

/** A working as part of a check, where there is one. */
export const workedOut = (working: Working | undefined): Pick<Check, 'working'> =>
  working === undefined ? {} : { working };

/** A check with its working, where it says none itself and has figures to compare. */
export function withWorking(check: Check): Check {
  return { ...check, ...workedOut(check.working ?? compared(check)) };
}
