/** A chain of dimensions along one line. */
export interface DimensionChain {
  readonly axis: 'level' | 'upright';
  /** Where along the axis, in order, in the units of the drawing; at least two. */
  readonly stops: readonly number[];
  /** One text for each span. */
  readonly texts: readonly string[];
  /** Where the dimension line lies across the axis. */
  readonly at: number;
  /** Where the extension lines begin across the axis. */
  readonly from: number;
  /** Where they begin instead at a stop where something stands in their way; none does without it. */
  readonly past?: (stop: number) => number | null;
  /** Millimetres of the piece to one of the paper. */
  readonly perPaper: number;
}
