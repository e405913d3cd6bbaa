/** The crossings of a grid in the order of their elimination, in blocks. */
export interface Dissection {
  /** Crossing `i`, `j` is `j*nx + i`. */
  readonly order: Int32Array;
  /** Where in `order` each block ends. */
  readonly ends: readonly number[];
}

/** A piece of the grid of so few crossings is not cut any more: the list of blocks would cost more than their zeros. */
const smallest = 12;

/**
 * Nested dissection of a grid whose neighbours are joined: the line across the middle of the longer side goes last,
 * both halves before it, each cut in the same way. Nothing on one side of a line then reaches the other side but by
 * the line, so that elimination fills about `n*log(n)` places instead of the `n^1.5` of numbering line by line.
 *
 * @param nx, ny lines across and up, at least 1
 * Source: A. George, Nested dissection of a regular finite element mesh, SIAM J. Numer. Anal. 10 (1973) (from memory).
 * Check: `tests/numeric/multifrontal.test.ts`.
 */
export function nestedDissection(nx: number, ny: number): Dissection {
  const order = new Int32Array(nx * ny);
  const ends: number[] = [];
  let count = 0;
  const take = (i0: number, i1: number, j0: number, j1: number): void => {
    for (let j = j0; j < j1; j++) for (let i = i0; i < i1; i++) order[count++] = j * nx + i;
    ends.push(count);
  };
  const cut = (i0: number, i1: number, j0: number, j1: number): void => {
    const [i, j] = [(i0 + i1) >> 1, (j0 + j1) >> 1];
    if ((i1 - i0) * (j1 - j0) <= smallest) take(i0, i1, j0, j1);
    else if (i1 - i0 > j1 - j0) {
      cut(i0, i, j0, j1);
      cut(i + 1, i1, j0, j1);
      take(i, i + 1, j0, j1);
    } else {
      cut(i0, i1, j0, j);
      cut(i0, i1, j + 1, j1);
      take(i0, i1, j, j + 1);
    }
  };
  cut(0, nx, 0, ny);
  return { order, ends };
}
