import { type PackInput, packPdf } from '../papers/pack.ts';

/** Lays out the pack of a revision from what was frozen with it, in the thread. */
export default async function answer(input: PackInput): Promise<Uint8Array> {
  return packPdf(input);
}
