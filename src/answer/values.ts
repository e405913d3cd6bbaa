import * as z from 'zod';

/** What every shape of the answer is made of. */
export const num = z.number();
export const text = z.string();
export const ids = z.array(text);
export const range = z.strictObject({ least: num, greatest: num });

/** What an ohmmeter shows beyond its range: the loop is open. */
export const overRange = z.literal('OL');
