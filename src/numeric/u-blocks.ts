import type { Box } from './taut-strings.ts';

/** The side of a U that its base lies at. */
type Base = 'x0' | 'x1' | 'y0' | 'y1';

const opposite: Readonly<Record<Base, Base>> = { x0: 'x1', x1: 'x0', y0: 'y1', y1: 'y0' };

/** A box that reaches further at one side. */
export function reaching(box: Box, side: Base, by: number): Box {
  return { ...box, [side]: box[side] + (side === 'x0' || side === 'y0' ? -by : by) };
}

/**
 * A straight U between an outer and an inner rectangle as three blocks: the base at one side, and the two walls. Base and
 * walls overlap in the corners, which strings about them do not notice.
 * Check: `tests/numeric/u-blocks.test.ts`, by hand on all four sides.
 */
export function uBlocks(outer: Box, inner: Box, base: Base): [Box, Box, Box] {
  const isSide = base === 'x0' || base === 'x1';
  return [
    { ...outer, [opposite[base]]: inner[base] },
    isSide ? { ...outer, y1: inner.y0 } : { ...outer, x1: inner.x0 },
    isSide ? { ...outer, y0: inner.y1 } : { ...outer, x0: inner.x1 },
  ];
}
