import { filled, type Lettering, letteringCorners, type Mark } from './mark.ts';

/** How far figures, capitals and small letters reach above and below their base line, in ems. */
export const letterReach = { above: 0.77, below: 0.21 } as const;

/** Height of a line of lettering with its descenders, in ems. */
export const letterHeight = letterReach.above + letterReach.below;

const isLettering = (mark: Mark): mark is Lettering => mark.kind === 'text';

/** Lettering comes last, each line of it on a patch of bare paper, so that no line of the drawing runs through it. */
export function legible(marks: readonly Mark[]): Mark[] {
  const texts = marks.filter(isLettering);
  const patches = texts.map((text) => filled('PAPER', ...letteringCorners(text, letterReach)));
  return [...marks.filter((mark) => !isLettering(mark)), ...patches, ...texts];
}
