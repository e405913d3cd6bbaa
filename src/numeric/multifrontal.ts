import { fourInnerProducts, innerProduct } from './inner-product.ts';

/**
 * A sparse symmetric matrix by fronts, blocks of consecutive unknowns that are eliminated in the order of their
 * numbers. Eliminating a front touches its own unknowns and, among the later ones, its boundary. It has a row for
 * each of those, as long as it has own unknowns.
 */
export interface MultifrontalMatrix {
  /** Where each front's unknowns begin, and at last the number of unknowns. */
  readonly start: Int32Array;
  /** The front of each unknown. */
  readonly frontOf: Int32Array;
  /** Boundaries front by front, ascending in each, where each begins, and at last where the last one ends. */
  readonly boundary: Int32Array;
  readonly boundaryStart: Int32Array;
  /** Rows front by front, where each front's begin, and at last where the last ones end. */
  readonly values: Float64Array;
  readonly valuesStart: Int32Array;
}

/** A front by its first unknown, how many it has, its boundary in `boundary`, and its rows in `values`. */
interface Front {
  readonly first: number;
  readonly own: number;
  readonly list: number;
  readonly beyond: number;
  readonly rows: number;
}

function frontAt({ start, boundaryStart, valuesStart }: MultifrontalMatrix, b: number): Front {
  const [first, list] = [start[b]!, boundaryStart[b]!];
  return {
    first,
    own: start[b + 1]! - first,
    list,
    beyond: boundaryStart[b + 1]! - list,
    rows: valuesStart[b]!,
  };
}

/** An empty list for each front. */
function listPerFront<T>(frontCount: number): T[][] {
  return Array.from({ length: frontCount }, () => []);
}

/**
 * An empty matrix for couplings `from[k] - to[k]`, in either order, repeats allowed.
 * @param start where each front's unknowns begin, ascending from 0, and at last the number of unknowns
 */
export function emptyFronts(start: Int32Array, from: Int32Array, to: Int32Array): MultifrontalMatrix {
  const frontCount = start.length - 1;
  const frontOf = new Int32Array(start[frontCount]!);
  for (let b = 0; b < frontCount; b++) frontOf.fill(b, start[b]!, start[b + 1]!);
  const boundaries = boundariesOf(start, frontOf, from, to);
  const boundaryStart = new Int32Array(frontCount + 1);
  const valuesStart = new Int32Array(frontCount + 1);
  for (const [b, { length }] of boundaries.entries()) {
    const own = start[b + 1]! - start[b]!;
    boundaryStart[b + 1] = boundaryStart[b]! + length;
    valuesStart[b + 1] = valuesStart[b]! + own * (own + length);
  }
  const boundary = new Int32Array(boundaryStart[frontCount]!);
  for (const [b, list] of boundaries.entries()) boundary.set(list, boundaryStart[b]!);
  const values = new Float64Array(valuesStart[frontCount]!);
  return { start, frontOf, boundary, boundaryStart, values, valuesStart };
}

/** An empty matrix of the same fronts and couplings as another one. */
export const emptyLike = (matrix: MultifrontalMatrix): MultifrontalMatrix => ({
  ...matrix,
  values: new Float64Array(matrix.values.length),
});

/** An empty matrix of one front, in which everything is coupled: element `i`, `j` is `values[i*size + j]`, `j <= i`. */
export function oneFront(size: number): MultifrontalMatrix {
  return emptyFronts(Int32Array.of(0, size), new Int32Array(0), new Int32Array(0));
}

/** What each front is coupled to among later fronts, by itself or by earlier fronts whose first boundary it holds. */
function boundariesOf(start: Int32Array, frontOf: Int32Array, from: Int32Array, to: Int32Array) {
  const frontCount = start.length - 1;
  const waiting = listPerFront<ArrayLike<number>>(frontCount);
  const coupled = listPerFront<number>(frontCount);
  for (let e = 0; e < from.length; e++)
    coupled[frontOf[Math.min(from[e]!, to[e]!)]!]!.push(Math.max(from[e]!, to[e]!));
  const seenBy = new Int32Array(frontOf.length).fill(-1);
  return coupled.map((list, b) => {
    const found: number[] = [];
    for (const unknowns of [list, ...waiting[b]!])
      for (let k = 0; k < unknowns.length; k++) {
        const u = unknowns[k]!;
        if (u < start[b + 1]! || seenBy[u] === b) continue;
        seenBy[u] = b;
        found.push(u);
      }
    const boundary = Int32Array.from(found).sort();
    if (boundary.length > 0) waiting[frontOf[boundary[0]!]!]!.push(boundary);
    return boundary;
  });
}

/** Where in `values` the element of two unknowns is that are coupled or the same. */
export function placeIn(matrix: MultifrontalMatrix, a: number, b: number): number {
  const [row, column] = a < b ? [b, a] : [a, b];
  const front = matrix.frontOf[column]!;
  const first = matrix.start[front]!;
  const own = matrix.start[front + 1]! - first;
  const offset = matrix.valuesStart[front]! + column - first;
  if (row < first + own) return offset + (row - first) * own;
  let low = matrix.boundaryStart[front]!;
  let high = matrix.boundaryStart[front + 1]! - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (matrix.boundary[middle]! < row) low = middle + 1;
    else high = middle;
  }
  return offset + (own + low - matrix.boundaryStart[front]!) * own;
}

/** What the elimination of a front adds between the unknowns of its boundary, as the lower triangle of a square. */
interface Update {
  readonly front: Front;
  readonly square: Float64Array;
}

/**
 * Replaces a symmetric positive definite matrix by its Cholesky factor, in place. What a front's elimination adds
 * between the unknowns of its boundary waits for the front of the first of them, which passes on what is not its own.
 *
 * @throws RangeError when a pivot is not positive
 * Source: I. S. Duff and J. K. Reid, The multifrontal solution of indefinite sparse symmetric linear equations, ACM
 * Trans. Math. Softw. 9 (1983) (from memory). Check: dense elimination in `tests/numeric/multifrontal.test.ts`.
 */
export function factorFronts(matrix: MultifrontalMatrix): void {
  const { start, frontOf, boundary, values } = matrix;
  const waiting = listPerFront<Update>(start.length - 1);
  const rowOf = new Int32Array(frontOf.length);
  for (let b = 0; b < waiting.length; b++) {
    const front = frontAt(matrix, b);
    const { first, own, list, beyond } = front;
    for (let k = 0; k < own; k++) rowOf[first + k] = k;
    for (let k = 0; k < beyond; k++) rowOf[boundary[list + k]!] = own + k;
    const update = { front, square: new Float64Array(beyond * beyond) };
    for (const earlier of waiting[b]!) addUpdate(matrix, earlier, rowOf, update);
    waiting[b] = [];
    factorOwn(values, front);
    eliminateOwn(values, front);
    subtractSquare(values, update);
    if (beyond > 0) waiting[frontOf[boundary[list]!]!]!.push(update);
  }
}

/** Adds an earlier front's update to a front's rows and, what is beyond those, to its update. */
function addUpdate(
  { boundary, values }: MultifrontalMatrix,
  earlier: Update,
  rowOf: Int32Array,
  to: Update,
): void {
  const { own, beyond, rows } = to.front;
  const { list, beyond: count } = earlier.front;
  for (let r = 0; r < count; r++) {
    const i = rowOf[boundary[list + r]!]!;
    for (let c = 0; c <= r; c++) {
      const j = rowOf[boundary[list + c]!]!;
      const value = earlier.square[r * count + c]!;
      if (j < own) values[rows + i * own + j]! += value;
      else to.square[(i - own) * beyond + j - own]! += value;
    }
  }
}

function factorOwn(values: Float64Array, { first, own, rows }: Front): void {
  for (let i = 0; i < own; i++) {
    const rowI = rows + i * own;
    for (let j = 0; j < i; j++) {
      const rowJ = rows + j * own;
      values[rowI + j] =
        (values[rowI + j]! - innerProduct(values, rowI, values, rowJ, j)) / values[rowJ + j]!;
    }
    const pivot = values[rowI + i]! - innerProduct(values, rowI, values, rowI, i);
    if (!(pivot > 0))
      throw new RangeError(`pivot ${first + i} is ${pivot}: the matrix is not positive definite`);
    values[rowI + i] = Math.sqrt(pivot);
  }
}

/** Divides the rows of a front's boundary by its own triangle; four of them at a time share what they read of it. */
function eliminateOwn(values: Float64Array, { own, beyond, rows }: Front): void {
  const end = rows + (own + beyond) * own;
  let p = rows + own * own;
  for (; p + 3 * own < end; p += 4 * own) {
    const q = p + own;
    const r = q + own;
    const s = r + own;
    for (let j = 0; j < own; j++) {
      const row = rows + j * own;
      let sp = values[p + j]!;
      let sq = values[q + j]!;
      let sr = values[r + j]!;
      let ss = values[s + j]!;
      for (let k = 0; k < j; k++) {
        const known = values[row + k]!;
        sp -= known * values[p + k]!;
        sq -= known * values[q + k]!;
        sr -= known * values[r + k]!;
        ss -= known * values[s + k]!;
      }
      const pivot = values[row + j]!;
      values[p + j] = sp / pivot;
      values[q + j] = sq / pivot;
      values[r + j] = sr / pivot;
      values[s + j] = ss / pivot;
    }
  }
  for (; p < end; p += own)
    for (let j = 0; j < own; j++) {
      const row = rows + j * own;
      values[p + j] = (values[p + j]! - innerProduct(values, row, values, p, j)) / values[row + j]!;
    }
}

/** Takes `R*R'` from an update, R being the rows of the front's boundary; two by two share what they read. */
function subtractSquare(values: Float64Array, { front, square }: Update): void {
  const { own, beyond: count } = front;
  const rows = front.rows + own * own;
  const sums = new Float64Array(4);
  for (let i = 0; i + 1 < count; i += 2)
    for (let j = 0; j <= i; j += 2) {
      const a = rows + i * own;
      const c = rows + j * own;
      fourInnerProducts(values, { a, b: a + own, c, d: c + own }, own, sums);
      const at = i * count + j;
      square[at]! -= sums[0]!;
      square[at + count]! -= sums[1]!;
      square[at + 1]! -= sums[2]!;
      square[at + count + 1]! -= sums[3]!;
    }
  if (count % 2 === 0) return;
  const last = count - 1;
  for (let j = 0; j < count; j++)
    square[last * count + j]! -= innerProduct(values, rows + last * own, values, rows + j * own, own);
}

/** Solves `A*x = b` with the factor of `A`; `x` holds b on entry and the solution on return. */
export function solveFronts(factor: MultifrontalMatrix, x: Float64Array): void {
  const frontCount = factor.start.length - 1;
  for (let b = 0; b < frontCount; b++) solveForward(factor, frontAt(factor, b), x);
  for (let b = frontCount - 1; b >= 0; b--) solveBackward(factor, frontAt(factor, b), x);
}

function solveForward({ boundary, values }: MultifrontalMatrix, front: Front, x: Float64Array): void {
  const { first, own, list, beyond } = front;
  let row = front.rows;
  for (let i = 0; i < own; i++, row += own)
    x[first + i] = (x[first + i]! - innerProduct(values, row, x, first, i)) / values[row + i]!;
  for (let k = list; k < list + beyond; k++, row += own)
    x[boundary[k]!]! -= innerProduct(values, row, x, first, own);
}

function solveBackward({ boundary, values }: MultifrontalMatrix, front: Front, x: Float64Array): void {
  const { first, own, list, beyond, rows } = front;
  let k = 0;
  let p = rows + own * own;
  for (; k + 3 < beyond; k += 4, p += 4 * own) {
    const q = p + own;
    const r = q + own;
    const s = r + own;
    const xp = x[boundary[list + k]!]!;
    const xq = x[boundary[list + k + 1]!]!;
    const xr = x[boundary[list + k + 2]!]!;
    const xs = x[boundary[list + k + 3]!]!;
    for (let j = 0; j < own; j++)
      x[first + j]! -=
        values[p + j]! * xp + values[q + j]! * xq + (values[r + j]! * xr + values[s + j]! * xs);
  }
  for (; k < beyond; k++, p += own) {
    const value = x[boundary[list + k]!]!;
    for (let j = 0; j < own; j++) x[first + j]! -= values[p + j]! * value;
  }
  for (let i = own - 1; i >= 0; i--) {
    const row = rows + i * own;
    const value = x[first + i]! / values[row + i]!;
    x[first + i] = value;
    for (let j = 0; j < i; j++) x[first + j]! -= values[row + j]! * value;
  }
}

/** The inverse of `A`, by rows, from its factor in one front: `A^-1 = (L^-1)'*L^-1`. */
export function inverseOf({ frontOf, values }: MultifrontalMatrix): Float64Array {
  const size = frontOf.length;
  // Column j of L^-1, from its diagonal downwards, is row j here.
  const columns = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const column = j * size;
    columns[column + j] = 1 / values[column + j]!;
    for (let i = j + 1; i < size; i++) {
      const known = innerProduct(values, i * size + j, columns, column + j, i - j);
      columns[column + i] = -known / values[i * size + i]!;
    }
  }
  const inverse = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const value = innerProduct(columns, i * size + i, columns, j * size + i, size - i);
      inverse[i * size + j] = value;
      inverse[j * size + i] = value;
    }
  return inverse;
}
