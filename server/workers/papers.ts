import type { Sizing } from '../../src/answer/sizing.ts';
import type { PackInput } from '../papers/pack.ts';
import { type Paper, type PaperName, paperOf } from '../papers/papers.ts';

/** Which paper is wanted, and what it is made from; the answer to the job may come as text. */
export interface PapersTask {
  readonly name: PaperName;
  readonly input: Omit<PackInput, 'sizing'> & { readonly sizing: Sizing | string };
}

/** Lays out one of the papers of a job from its answer, in the thread. */
export default async function answer({ name, input }: PapersTask): Promise<Paper> {
  const { sizing } = input;
  return paperOf(name, { ...input, sizing: typeof sizing === 'string' ? JSON.parse(sizing) : sizing });
}
