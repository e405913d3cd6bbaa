import type { Finish, SlotCover } from '../job/section.ts';
import { finishes, sheetFinishes } from '../light/finishes.ts';
import type { Sheet } from '../light/section.ts';

function named<Item extends { readonly name: string }>(table: readonly Item[], name: string): Item {
  const item = table.find((candidate) => candidate.name === name);
  if (!item) throw new RangeError(`"${name}" is in the job document and not in the light tables`);
  return item;
}

/** Diffuse reflectance of a finish of the job document. */
export function reflectanceOf(finish: Finish): number {
  return named(finishes, finish).reflectance;
}

/** The sheet a slot cover stands for; null for an open slot. */
export function sheetOf(cover: SlotCover): Sheet | null {
  return cover === 'open' ? null : named(sheetFinishes, cover);
}
