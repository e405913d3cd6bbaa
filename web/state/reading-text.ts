import type { IssuedReading } from '../../server/contract/issued-readings.ts';
import { readNumber } from '../format.ts';

/** What is written into a box of the test sheet. */
type Shown = NonNullable<IssuedReading['value']>;

/** An open loop as meters show it and people write it: OL, 0L, over, open. */
const open = /^([o0]\.?l\.?|over(load)?|over range|open( loop| circuit)?|∞)$/i;

/** What was typed as what the meter showed: null for an empty box, undefined for what is no reading. */
export function readingIn(text: string, quantity: IssuedReading['quantity']): Shown | null | undefined {
  const typed = text.trim();
  if (typed === '') return null;
  if (quantity === 'loop_ohm' && open.test(typed)) return 'OL';
  const value = readNumber(typed);
  return value === undefined || value < 0 ? undefined : value;
}
