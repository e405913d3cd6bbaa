import * as z from 'zod';
import { text } from './values.ts';

export const caution = z.strictObject({ id: text, sentence: text, basis: text, because: text });

export type Caution = z.infer<typeof caution>;
