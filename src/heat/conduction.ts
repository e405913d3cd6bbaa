import {
  emptyFronts,
  emptyLike,
  factorFronts,
  type MultifrontalMatrix,
  placeIn,
} from '../numeric/multifrontal.ts';
import { nestedDissection } from '../numeric/nested-dissection.ts';
import { lineAt } from './mesh.ts';

/** An upright-edged region of one material. Later rectangles cover earlier ones. */
export interface Rectangle {
  readonly name: string;
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  /** A conductivity in W/(m K); `air` of the cavity or `inner air` of a profile, set later; `void` for nothing at all. */
  readonly conductivity: number | 'air' | 'inner air' | 'void';
  /** Part of the body that slits of a `body` part from what carries it. */
  readonly isBody?: true;
}

/** A straight piece of a mesh line. */
export interface Segment {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Which node of a crossing on a slit a surface has: the first or, on the slit's far side, the second. */
export type Side = 'near' | 'far';

/** A surface that meets an air, `q = (T - Tair)/R`. */
export interface Film extends Segment {
  readonly name: string;
  /** Above 0; a fixed surface temperature is a very small one. */
  readonly resistance_m2K_per_W: number;
  readonly air_K: number;
  /** Of a body beyond a slit; left out, of what is on the near side. */
  readonly side?: Side;
}

/** Mesh lines, and which rectangle each cell belongs to (-1: none). */
export interface Mesh {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly rectangles: readonly Rectangle[];
  /** Cell `i` across, `j` up is `owner[j*(xs.length - 1) + i]`. */
  readonly owner: Int16Array;
}

/**
 * The mesh as nodes at its line crossings and conductances along cell edges: each cell gives its four edges half
 * its own breadth. Nodes on a slit are double; the second one belongs to the air, or to the body, on its far side.
 */
export interface ConductionNetwork {
  readonly mesh: Mesh;
  readonly nodeCount: number;
  /** Where each block of nodes begins that are eliminated together, and the number of nodes. */
  readonly blockStart: Int32Array;
  /** Node of each line crossing, -1 in a void. */
  readonly node: Int32Array;
  /** The second node of a crossing on the slit, else -1. */
  readonly slitNode: Int32Array;
  /** Edges of cells, then of the slits' contacts. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** How broad an edge is over how long, of a contact its length in metres; and the rectangle it lies in. */
  readonly shape: Float64Array;
  readonly material: Int16Array;
  readonly conductance_W_per_mK: Float64Array;
  /** The fronts its matrix is factored by. */
  readonly fronts: MultifrontalMatrix;
  /** Edges of air cells: which, geometric factor, and whether they run across the gap (along y). */
  readonly airEdge: Int32Array;
  readonly airShape: Float64Array;
  readonly airAcross: Uint8Array;
  /** The same of the air inside a profile, which conducts alike both ways. */
  readonly innerEdge: Int32Array;
  readonly innerShape: Float64Array;
  /** Air of the cavity and air inside a profile round each node. */
  readonly airArea_m2: Float64Array;
  readonly innerArea_m2: Float64Array;
}

/** Paints the rectangles onto mesh lines; every rectangle edge must be a mesh line. */
export function meshOf(rectangles: readonly Rectangle[], xs: Float64Array, ys: Float64Array): Mesh {
  const across = xs.length - 1;
  const owner = new Int16Array(across * (ys.length - 1)).fill(-1);
  for (const [index, r] of rectangles.entries()) {
    const [i0, i1, j0, j1] = [lineAt(xs, r.x0), lineAt(xs, r.x1), lineAt(ys, r.y0), lineAt(ys, r.y1)];
    const value = r.conductivity === 'void' ? -1 : index;
    for (let j = j0; j < j1; j++) owner.fill(value, j * across + i0, j * across + i1);
  }
  return { xs, ys, rectangles, owner };
}

/** Line indices of a segment, in ascending order. */
function segmentLines(mesh: Mesh, s: Segment): { i0: number; i1: number; j0: number; j1: number } {
  const [xa, xb] = [Math.min(s.x0, s.x1), Math.max(s.x0, s.x1)];
  const [ya, yb] = [Math.min(s.y0, s.y1), Math.max(s.y0, s.y1)];
  return {
    i0: lineAt(mesh.xs, xa),
    i1: lineAt(mesh.xs, xb),
    j0: lineAt(mesh.ys, ya),
    j1: lineAt(mesh.ys, yb),
  };
}

/** A slit as lines of the mesh. */
interface SlitLines extends ReturnType<typeof segmentLines> {
  readonly far: Slit['far'];
}

const isOn = ({ i0, i1, j0, j1 }: SlitLines, i: number, j: number): boolean =>
  i >= i0 && i <= i1 && j >= j0 && j <= j1;

/** Whether a cell lies against a slit, so that its crossings on the slit are the second nodes. */
function isAgainst(slit: SlitLines, i: number, j: number): boolean {
  const level = slit.j0 === slit.j1;
  const [along, beside] = level ? [i, j] : [j, i];
  const [start, end, line] = level ? [slit.i0, slit.i1, slit.j0] : [slit.j0, slit.j1, slit.i0];
  return along >= start && along < end && (beside === line || beside === line - 1);
}

const isAir = ({ conductivity }: Rectangle): boolean =>
  conductivity === 'air' || conductivity === 'inner air';

/**
 * Whether a crossing of a cell is its second node: of air that lies against a slit under air, and of all of a body, which
 * would else be one with what it is parted from where the slit ends.
 */
function takesSecond(
  slits: readonly SlitLines[],
  rectangle: Rectangle,
  cell: Lines,
  crossing: Lines,
): boolean {
  return slits.some((slit) => {
    if (!isOn(slit, crossing.i, crossing.j)) return false;
    if (slit.far === 'body') return rectangle.isBody === true;
    return isAir(rectangle) && isAgainst(slit, cell.i, cell.j);
  });
}

/** A cell or a crossing by its lines. */
interface Lines {
  readonly i: number;
  readonly j: number;
}

/** Numbers the nodes in the order of their elimination, in blocks; the two nodes of a slit's crossing go together. */
function numberNodes(mesh: Mesh, slits: readonly SlitLines[]) {
  const [nx, ny] = [mesh.xs.length, mesh.ys.length];
  const used = new Uint8Array(nx * ny);
  for (let j = 0; j < ny - 1; j++)
    for (let i = 0; i < nx - 1; i++)
      if (mesh.owner[j * (nx - 1) + i]! >= 0) {
        const at = j * nx + i;
        used[at] = used[at + 1] = used[at + nx] = used[at + nx + 1] = 1;
      }
  const node = new Int32Array(nx * ny).fill(-1);
  const slitNode = new Int32Array(nx * ny).fill(-1);
  const onSlit = (i: number, j: number): boolean => slits.some((slit) => isOn(slit, i, j));
  const { order, ends } = nestedDissection(nx, ny);
  const blockStart = [0];
  let count = 0;
  let k = 0;
  for (const end of ends) {
    for (; k < end; k++) {
      const crossing = order[k]!;
      if (used[crossing] === 0) continue;
      node[crossing] = count++;
      if (onSlit(crossing % nx, Math.floor(crossing / nx))) slitNode[crossing] = count++;
    }
    if (count > blockStart.at(-1)!) blockStart.push(count);
  }
  return { node, slitNode, blockStart: Int32Array.from(blockStart) };
}

/**
 * A surface of zero thickness where what is on its far side has its own temperature, joined to the near side by a contact:
 * the air over a strip, or a body that is fixed to what carries it. No two slits cross.
 */
export interface Slit extends Segment {
  /** Above 0. */
  readonly contact_m2K_per_W: number;
  readonly far: 'air' | 'body';
}

/** The four edges of a cell by its corners, and whether they run across the gap. */
const cellEdges = [
  [0, 1, 0],
  [2, 3, 0],
  [0, 2, 1],
  [1, 3, 1],
] as const;

/** Builds the network of a mesh, with the contacts of its slits. */
export function networkOf(mesh: Mesh, slits: readonly Slit[] = []): ConductionNetwork {
  const lines = slits.map((slit) => ({ ...segmentLines(mesh, slit), far: slit.far }));
  const { node, slitNode, blockStart } = numberNodes(mesh, lines);
  const count = blockStart.at(-1)!;
  const cellCount = mesh.owner.reduce((sum, index) => sum + (index >= 0 ? 1 : 0), 0);
  const made = (of: Rectangle['conductivity']): number =>
    mesh.owner.reduce((sum, i) => sum + (i >= 0 && mesh.rectangles[i]!.conductivity === of ? 1 : 0), 0);
  const [airCount, innerCount] = [made('air'), made('inner air')];
  const contacts = slitNode.reduce((sum, n) => sum + (n >= 0 ? 1 : 0), 0);
  const edgeCount = 4 * cellCount + contacts;
  const grid = {
    ...{ mesh, nodeCount: count, blockStart, node, slitNode },
    from: new Int32Array(edgeCount),
    to: new Int32Array(edgeCount),
    shape: new Float64Array(edgeCount),
    material: new Int16Array(edgeCount),
    airEdge: new Int32Array(4 * airCount),
    airShape: new Float64Array(4 * airCount),
    airAcross: new Uint8Array(4 * airCount),
    innerEdge: new Int32Array(4 * innerCount),
    innerShape: new Float64Array(4 * innerCount),
    airArea_m2: new Float64Array(count),
    innerArea_m2: new Float64Array(count),
  };
  fillCells(grid, lines);
  fillContacts(grid, slits, 4 * cellCount);
  return {
    ...grid,
    conductance_W_per_mK: conductancesOf(grid, mesh.rectangles, slits),
    fronts: emptyFronts(blockStart, grid.from, grid.to),
  };
}

/** A network of the same lines, nodes and edges as another one, of other materials and other contacts. */
export function networkLike(
  network: ConductionNetwork,
  rectangles: readonly Rectangle[],
  slits: readonly Slit[],
): ConductionNetwork {
  return {
    ...network,
    mesh: { ...network.mesh, rectangles },
    conductance_W_per_mK: conductancesOf(network, rectangles, slits),
  };
}

/** What a network is but for what it is made of. */
type Grid = Omit<ConductionNetwork, 'conductance_W_per_mK' | 'fronts'>;

/** Conductances of the edges in solids and of the slits' contacts; those in air are 0 until it is set. */
function conductancesOf(
  { shape, material }: Grid,
  rectangles: readonly Rectangle[],
  slits: readonly Slit[],
): Float64Array {
  const conductivity = rectangles.map((r) => (typeof r.conductivity === 'number' ? r.conductivity : 0));
  return shape.map((value, edge) => {
    const index = material[edge]!;
    return index < 0 ? value / slits[slitBehind(index)]!.contact_m2K_per_W : value * conductivity[index]!;
  });
}

/** In place of a rectangle for edges of a slit's contacts, and back. */
const contactOf = (slit: number): number => -1 - slit;
const slitBehind = (index: number): number => -1 - index;

function fillCells(grid: Grid, slits: readonly SlitLines[]): void {
  const { mesh, node, slitNode, from, to } = grid;
  const { xs, ys, rectangles, owner } = mesh;
  const nx = xs.length;
  const corners = new Int32Array(4);
  let edge = 0;
  let airEdge = 0;
  let innerEdge = 0;
  for (let j = 0; j < ys.length - 1; j++)
    for (let i = 0; i < nx - 1; i++) {
      const material = owner[j * (nx - 1) + i]!;
      if (material < 0) continue;
      const rectangle = rectangles[material]!;
      const { conductivity } = rectangle;
      const [width, height] = [xs[i + 1]! - xs[i]!, ys[j + 1]! - ys[j]!];
      const area_m2 = { air: grid.airArea_m2, 'inner air': grid.innerArea_m2 }[conductivity as 'air'];
      for (let k = 0; k < 4; k++) {
        const at = { i: i + (k & 1), j: j + (k >> 1) };
        const crossing = at.j * nx + at.i;
        const doubled = slitNode[crossing]! >= 0 && takesSecond(slits, rectangle, { i, j }, at);
        const n = doubled ? slitNode[crossing]! : node[crossing]!;
        corners[k] = n;
        if (area_m2 !== undefined) area_m2[n]! += (width * height) / 4;
      }
      for (const [start, end, across] of cellEdges) {
        const shape = across === 1 ? width / (2 * height) : height / (2 * width);
        from[edge] = corners[start]!;
        to[edge] = corners[end]!;
        grid.shape[edge] = shape;
        grid.material[edge] = material;
        if (conductivity === 'air') {
          grid.airEdge[airEdge] = edge;
          grid.airShape[airEdge] = shape;
          grid.airAcross[airEdge++] = across;
        }
        if (conductivity === 'inner air') {
          grid.innerEdge[innerEdge] = edge;
          grid.innerShape[innerEdge++] = shape;
        }
        edge++;
      }
    }
}

function fillContacts(grid: Grid, slits: readonly Slit[], start: number): void {
  let edge = start;
  for (const [k, slit] of slits.entries())
    for (const { node, length_m, crossing } of nodesAlong(grid, slit)) {
      grid.from[edge] = node;
      grid.to[edge] = grid.slitNode[crossing]!;
      grid.shape[edge] = length_m;
      grid.material[edge++] = contactOf(k);
    }
}

/** Conductivities of the air: of the cavity's across the gap (along y) and along it (along x), and of a profile's. */
export interface AirConductivity {
  readonly across_W_per_mK: number;
  readonly along_W_per_mK: number;
  readonly inner_W_per_mK: number;
}

/** Sets the conductivity of the air. */
export function setAir(network: ConductionNetwork, air: AirConductivity): void {
  const { airEdge, airShape, airAcross, innerEdge, innerShape, conductance_W_per_mK } = network;
  for (let k = 0; k < airEdge.length; k++)
    conductance_W_per_mK[airEdge[k]!] =
      airShape[k]! * (airAcross[k] === 1 ? air.across_W_per_mK : air.along_W_per_mK);
  for (let k = 0; k < innerEdge.length; k++)
    conductance_W_per_mK[innerEdge[k]!] = innerShape[k]! * air.inner_W_per_mK;
}

/** A node along a line, and the length it stands for. */
export interface NodeAlong {
  readonly node: number;
  readonly at_m: number;
  readonly length_m: number;
  readonly crossing: number;
}

/** Nodes along a segment with the length each one stands for. */
export function nodesAlong(network: Grid, segment: Segment, side: Side = 'near'): NodeAlong[] {
  const { mesh } = network;
  const { i0, i1, j0, j1 } = segmentLines(mesh, segment);
  const level = j0 === j1;
  const lines = level ? mesh.xs : mesh.ys;
  const [start, end] = level ? [i0, i1] : [j0, j1];
  return Array.from({ length: end - start + 1 }, (_, step) => {
    const k = start + step;
    const crossing = level ? j0 * mesh.xs.length + k : k * mesh.xs.length + i0;
    const before = k > start ? lines[k]! - lines[k - 1]! : 0;
    const after = k < end ? lines[k + 1]! - lines[k]! : 0;
    const second = network.slitNode[crossing]!;
    const node = side === 'near' || second < 0 ? network.node[crossing]! : second;
    return { node, at_m: lines[k]!, length_m: (before + after) / 2, crossing };
  });
}

/** Adds `A*v` of all edges to `into`. */
export function addEdges(network: ConductionNetwork, v: Float64Array, into: Float64Array): void {
  const { from, to, conductance_W_per_mK } = network;
  for (let e = 0; e < from.length; e++) {
    const a = from[e]!;
    const b = to[e]!;
    const flow = conductance_W_per_mK[e]! * (v[a]! - v[b]!);
    into[a] = into[a]! + flow;
    into[b] = into[b]! - flow;
  }
}

/** Cholesky factor of the network with the given diagonal added. */
export function factorNetwork(network: ConductionNetwork, diagonal: Float64Array): MultifrontalMatrix {
  const { from, to, conductance_W_per_mK } = network;
  const matrix = emptyLike(network.fronts);
  const { values } = matrix;
  const total = diagonal.slice();
  for (let e = 0; e < from.length; e++) {
    const g = conductance_W_per_mK[e]!;
    total[from[e]!]! += g;
    total[to[e]!]! += g;
    values[placeIn(matrix, from[e]!, to[e]!)]! -= g;
  }
  for (let i = 0; i < network.nodeCount; i++) values[placeIn(matrix, i, i)]! += total[i]!;
  factorFronts(matrix);
  return matrix;
}
