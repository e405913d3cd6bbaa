import {
  type ConductionNetwork,
  type Film,
  factorNetwork,
  meshOf,
  networkOf,
  nodesAlong,
  type Rectangle,
  type Segment,
} from '../../src/heat/conduction.ts';
import { type Break, cutLines, type Grading, gradedLines, lineAt } from '../../src/heat/mesh.ts';
import { solveFronts } from '../../src/numeric/multifrontal.ts';

/** A conduction problem of rectangles and films; edges without a film pass no heat. */
export interface ConductionCase {
  readonly rectangles: readonly Rectangle[];
  readonly films: readonly Film[];
  /** Heat put in evenly along a segment, W per metre of depth. */
  readonly sources?: readonly (Segment & { readonly heat_W_per_m: number })[];
  /** Further positions that must be mesh lines, such as points asked for. */
  readonly lines?: { readonly xs: readonly number[]; readonly ys: readonly number[] };
}

/** Temperatures at the mesh crossings and the heat leaving by each film. */
export interface ConductionSolution {
  readonly network: ConductionNetwork;
  /** By node. */
  readonly temperature_K: Float64Array;
  /** Heat leaving by each film, W per metre of depth, in the order given. */
  readonly flow_W_per_m: readonly number[];
  /** Heat in less heat out, over the sum of the sizes of all flows. */
  readonly balance: number;
}

/**
 * Steady conduction in two dimensions by finite volumes round the crossings of a graded mesh, solved directly.
 *
 * @param problem rectangles, films and sources; all positions in metres on mesh lines
 * @param grading of the mesh; @param bisections how often every cell is then cut in two
 * @throws RangeError when the problem has no way out for heat, or a film lies in a void
 * Source: `div(lambda*grad T) = 0`, ISO 10211:2017 clause 5 for the method (secondary).
 * Check: `heat-iso10211-*`, `heat-iso10077-d4-*`, `heat-strip-on-slab-*`, `heat-square-corner`.
 */
export function solveConduction(
  problem: ConductionCase,
  grading: Grading & { readonly finest_m: number },
  bisections = 0,
): ConductionSolution {
  const corners = [...problem.rectangles, ...problem.films, ...(problem.sources ?? [])];
  const breaks = (positions: readonly number[]): Break[] =>
    positions.map((at) => ({ at, finest_m: grading.finest_m }));
  const { lines } = problem;
  let xs = gradedLines(breaks([...corners.flatMap((r) => [r.x0, r.x1]), ...(lines?.xs ?? [])]), grading);
  let ys = gradedLines(breaks([...corners.flatMap((r) => [r.y0, r.y1]), ...(lines?.ys ?? [])]), grading);
  for (let k = 0; k < bisections; k++) [xs, ys] = [cutLines(xs, 2), cutLines(ys, 2)];
  const network = networkOf(meshOf(problem.rectangles, xs, ys));
  const diagonal = new Float64Array(network.nodeCount);
  const temperature_K = new Float64Array(network.nodeCount);
  const films = problem.films.map((film) => nodesAlong(network, film));
  for (const [k, film] of problem.films.entries())
    for (const { node, length_m } of films[k]!) {
      if (node < 0) throw new RangeError(`the film ${film.name} lies where no material is`);
      diagonal[node] = diagonal[node]! + length_m / film.resistance_m2K_per_W;
      temperature_K[node] = temperature_K[node]! + (length_m / film.resistance_m2K_per_W) * film.air_K;
    }
  let put = 0;
  for (const source of problem.sources ?? []) {
    const along = nodesAlong(network, source);
    const length = along.reduce((sum, n) => sum + n.length_m, 0);
    for (const { node, length_m } of along)
      temperature_K[node] = temperature_K[node]! + (source.heat_W_per_m * length_m) / length;
    put += source.heat_W_per_m;
  }
  solveFronts(factorNetwork(network, diagonal), temperature_K);
  const flow_W_per_m = problem.films.map((film, k) =>
    films[k]!.reduce(
      (sum, { node, length_m }) =>
        sum + (length_m / film.resistance_m2K_per_W) * (temperature_K[node]! - film.air_K),
      0,
    ),
  );
  const sizes = flow_W_per_m.reduce((sum, q) => sum + Math.abs(q), Math.abs(put));
  const balance = (put - flow_W_per_m.reduce((sum, q) => sum + q, 0)) / sizes;
  return { network, temperature_K, flow_W_per_m, balance };
}

/** Temperature at a crossing of mesh lines. @throws RangeError when no crossing or no material is there */
export function temperatureAt(solution: ConductionSolution, x: number, y: number): number {
  const { mesh, node } = solution.network;
  const at = node[lineAt(mesh.ys, y) * mesh.xs.length + lineAt(mesh.xs, x)]!;
  if (at < 0) throw new RangeError(`no material at ${x}, ${y}`);
  return solution.temperature_K[at]!;
}
