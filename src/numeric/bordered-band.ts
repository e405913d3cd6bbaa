/**
 * Where one symmetric matrix lies in arrays that it shares with others: `count` unknowns to eliminate, numbered so
 * that each meets none further ahead than `width`; then the `width` unknowns ahead of the last, which stay; and,
 * with a border, `width` more unknowns that stay, which any of the others may meet.
 */
export interface BorderedBand {
  readonly count: number;
  readonly width: number;
  /** Each unknown's diagonal, then its elements with the next `width` unknowns. */
  readonly bandAt: number;
  readonly rightAt: number;
  /** Each unknown's elements with the border, then the border's own square; -1 where there is no border. */
  readonly borderAt: number;
  /** Right-hand side of the border. */
  readonly borderRightAt: number;
}

/** Values of many matrices and of their right-hand sides, one after the other. */
export interface BandValues {
  readonly band: Float64Array;
  readonly right: Float64Array;
  readonly border: Float64Array;
}

/** Lays matrices out one after the other. */
export class BandLayout {
  private readonly room = { band: 0, right: 0, border: 0 };

  /** Makes room for one more matrix. */
  add(count: number, width: number, hasBorder: boolean): BorderedBand {
    const { band, right, border } = this.room;
    const rows = count + width;
    this.room.band += rows * (width + 1);
    this.room.right += rows + (hasBorder ? width : 0);
    this.room.border += hasBorder ? (rows + width) * width : 0;
    return {
      count,
      width,
      bandAt: band,
      rightAt: right,
      borderAt: hasBorder ? border : -1,
      borderRightAt: right + rows,
    };
  }

  /** Arrays for all of them, zero. */
  emptyValues(): BandValues {
    const { band, right, border } = this.room;
    return {
      band: new Float64Array(band),
      right: new Float64Array(right),
      border: new Float64Array(border),
    };
  }
}

/**
 * Eliminates the `count` unknowns of a symmetric positive definite matrix `A = L*D*L^T` and of its right-hand side,
 * in place. What stays is left at the end of the band, in the border and at their right-hand sides: the
 * matrix by which the rest of a larger system sees this part of it (the Schur complement). Of the border only the
 * square's places on and below its diagonal are kept up.
 * @returns false where a pivot is not positive, that is, where the matrix is not positive definite
 * Source: Golub and Van Loan, Matrix Computations, banded and block elimination (from memory).
 * Check: `tests/numeric/bordered-band.test.ts` against dense elimination.
 */
export function eliminateBand(at: BorderedBand, values: BandValues): boolean {
  const { band, right } = values;
  const { width } = at;
  let own = at.bandAt;
  const end = at.rightAt + at.count;
  for (let j = at.rightAt; j < end; j++, own += width + 1) {
    if (!(band[own]! > 0)) return false;
    const inverse = 1 / band[own]!;
    band[own] = inverse;
    for (let p = 1; p <= width; p++) {
      const ratio = band[own + p]! * inverse;
      const other = own + p * width;
      for (let q = p; q <= width; q++) band[other + q]! -= ratio * band[own + q]!;
      right[j + p]! -= ratio * right[j]!;
      band[own + p] = ratio;
    }
  }
  if (at.borderAt >= 0) eliminateBorder(at, values);
  return true;
}

function eliminateBorder(at: BorderedBand, { band, right, border }: BandValues): void {
  const { count, width, borderAt, borderRightAt } = at;
  const square = borderAt + (count + width) * width;
  for (let j = 0; j < count; j++) {
    const own = at.bandAt + j * (width + 1);
    const row = borderAt + j * width;
    for (let p = 0; p < width; p++) {
      const value = border[row + p]!;
      for (let d = 1; d <= width; d++) border[row + d * width + p]! -= value * band[own + d]!;
      const ratio = value * band[own]!;
      for (let q = 0; q <= p; q++) border[square + p * width + q]! -= ratio * border[row + q]!;
      right[borderRightAt + p]! -= ratio * right[at.rightAt + j]!;
    }
  }
}

/**
 * Finds the eliminated unknowns once those that stay are known and stand at their right-hand sides; each
 * right-hand side is replaced by its unknown.
 */
export function substituteBand(at: BorderedBand, { band, right, border }: BandValues): void {
  const { width, borderAt, borderRightAt } = at;
  for (let k = at.count - 1; k >= 0; k--) {
    const own = at.bandAt + k * (width + 1);
    const j = at.rightAt + k;
    let met = 0;
    if (borderAt >= 0) {
      for (let p = 0; p < width; p++) met += border[borderAt + k * width + p]! * right[borderRightAt + p]!;
    }
    let x = (right[j]! - met) * band[own]!;
    for (let d = 1; d <= width; d++) x -= band[own + d]! * right[j + d]!;
    right[j] = x;
  }
}
