import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { airAt } from '../../src/heat/air.ts';
import type { Profile, SectionDescription, SectionLoads } from '../../src/heat/section-description.ts';
import { type SectionField, solveSectionField } from '../../src/heat/section-field.ts';
import { directExchange, facetLength } from '../../src/numeric/view-factors.ts';
import { panel } from '../heat/sections.ts';

const profile: Profile = {
  ...{ base_m: 0.0015, wall_m: 0.001, inside_m: 0.012, wallHeight_m: 0.008 },
  ...{ conductivity_W_per_mK: 200, insideEmissivity: 0.8, outsideEmissivity: 0.6 },
  cover: { thickness_m: 0.001, conductivity_W_per_mK: 0.2, emissivity: 0.9 },
  contact_m2K_per_W: 2e-3,
};
const strip = { ...panel.strip, width_m: 0.008, profile } as const;
const backed: SectionDescription = { ...panel, pitch_m: 0.1, strip };
const inSlot: SectionDescription = { ...backed, slotWidth_m: 0.014, strip: { ...strip, mount: 'recessed' } };
const cases: readonly (readonly [string, SectionDescription])[] = [
  ['on the backing', backed],
  ['on the backing, off the middle', { ...backed, strip: { ...strip, offset_m: 0.015 } }],
  [
    'on the backing, without a cover',
    { ...backed, strip: { ...strip, profile: { ...profile, cover: null } } },
  ],
  ['in the slot, a niche behind', inSlot],
  ['in the slot, standing out', { ...inSlot, front: { ...panel.front, thickness_m: 0.006 } }],
  ['at the side', { ...backed, strip: { ...strip, mount: 'side', offset_m: 0.015 } }],
];
const heat_W_per_m = 6;
const loads: SectionLoads = { strip_W_per_m: heat_W_per_m };

/** A painted part: what it conducts across and up, and whether it is air, open to the room, or a solid that radiates. */
interface Part {
  readonly name: string;
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly kx: number;
  readonly ky: number;
  /** The enclosure its air belongs to, or `room` for the open slot. */
  readonly air?: 'cavity' | 'inside' | 'room';
  readonly emissivity?: number;
}

/** Tape and fixing as layers so thin that they only pass heat straight through. */
const thin_m = 2e-5;

type Box = readonly [u0: number, u1: number, v0: number, v1: number];

/** Parts of a section by its measures, in the order they cover one another: drawn here and not by the engine. */
function partsOf(section: SectionDescription, field: SectionField): Part[] {
  const { front, backing, batten, cavityDepth_m: D, strip: held } = section;
  const p = held.profile!;
  const [P, tf] = [section.pitch_m / 2, front.thickness_m];
  const flank = P - section.battenWidth_m / 2;
  const t = field.temperatures;
  const cavityAir = airAt((t.backingFaceMean_K + t.frontFaceMean_K) / 2).conductivity_W_per_mK;
  const cover_K = t.profile!.coverInside?.mean_K;
  const innerAir =
    cover_K === undefined ? cavityAir : airAt((t.strip.mean_K + cover_K) / 2).conductivity_W_per_mK;
  const k = field.nusselt * cavityAir;
  const H = p.base_m + p.wallHeight_m + (p.cover?.thickness_m ?? 0);
  const solid = (name: string, [x0, x1, y0, y1]: Box, kxy: number, emissivity: number): Part => ({
    ...{ name, x0, x1, y0, y1, kx: kxy, ky: kxy, emissivity },
  });
  const air = (name: string, [x0, x1, y0, y1]: Box, kxy: number, of: Part['air'] & string): Part => ({
    ...{ name, x0, x1, y0, y1, kx: kxy, ky: kxy, air: of },
  });
  const isSide = held.mount === 'side';
  const middle = isSide ? tf + held.offset_m : held.mount === 'recessed' ? 0 : held.offset_m;
  /** A box along and off the face that carries the profile. */
  const at = ([u0, u1, v0, v1]: Box): Box => {
    if (isSide) return [flank - v1, flank - v0, middle + u0, middle + u1];
    const rear = held.mount === 'recessed' ? H : tf + D;
    return [middle + u0, middle + u1, rear - v1, rear - v0];
  };
  const layer = (
    name: string,
    box: Box,
    resistance: number,
    normal: 'x' | 'y',
    emissivity: number,
  ): Part => ({
    ...solid(name, box, 0, emissivity),
    [normal === 'x' ? 'kx' : 'ky']: thin_m / resistance,
    [normal === 'x' ? 'ky' : 'kx']: 1e-6,
  });
  const [a, b] = [p.inside_m / 2, p.inside_m / 2 + p.wall_m];
  const rim = p.base_m + p.wallHeight_m;
  const metal = (name: string, box: Box): Part =>
    solid(name, at(box), p.conductivity_W_per_mK, p.outsideEmissivity);
  const off = isSide ? 'x' : 'y';
  const slot = section.slotWidth_m / 2;
  const w = held.width_m / 2;
  const open = held.mount !== 'recessed';
  // About a niche the front is in pieces, since what hides one face from another is looked for part by part.
  const board = (box: Box): Part => solid('front', box, front.conductivity_W_per_mK, front.emissivity);
  const niche = !open && H < tf ? H : tf;
  const parts: Part[] = [
    board([-P, P, 0, niche]),
    ...(niche < tf ? [board([-P, -b, niche, tf]), board([b, P, niche, tf])] : []),
    air('cavity', [-P, P, tf, tf + D], k, 'cavity'),
    solid('batten', [-P, -flank, tf, tf + D], batten.conductivity_W_per_mK, batten.emissivity),
    solid('batten', [flank, P, tf, tf + D], batten.conductivity_W_per_mK, batten.emissivity),
    solid(
      'backing',
      [-P, P, tf + D, tf + D + backing.thickness_m],
      backing.conductivity_W_per_mK,
      backing.emissivity,
    ),
  ];
  if (open) parts.push(air('slot', [-slot, slot, 0, tf], 0, 'room'));
  else if (H < tf) parts.push(air('niche', [-b, b, H, tf], k, 'cavity'));
  parts.push(
    metal('base', [-b, b, 0, p.base_m]),
    metal('wall', [-b, -a, p.base_m, rim]),
    metal('wall', [a, b, p.base_m, rim]),
    air('inner', at([-a, a, p.base_m, rim]), innerAir, p.cover === null ? 'cavity' : 'inside'),
  );
  if (p.cover)
    parts.push(solid('cover', at([-b, b, rim, H]), p.cover.conductivity_W_per_mK, p.cover.emissivity));
  parts.push(
    layer('strip', at([-w, w, p.base_m, p.base_m + thin_m]), held.contact_m2K_per_W, off, held.emissivity),
  );
  // What fixes the profile takes the place of the first of the timber.
  const joint = (box: Box, normal: 'x' | 'y') => layer('joint', box, p.contact_m2K_per_W, normal, 0.9);
  if (held.mount === 'backing') parts.push(joint([middle - b, middle + b, tf + D, tf + D + thin_m], 'y'));
  if (isSide) parts.push(joint([flank, flank + thin_m, middle - b, middle + b], 'x'));
  if (!open)
    parts.push(
      joint([b, b + thin_m, 0, Math.min(H, tf)], 'x'),
      joint([-b - thin_m, -b, 0, Math.min(H, tf)], 'x'),
    );
  return parts;
}

/** Lines through every edge, closer where a profile is. */
function linesOf(edges: readonly number[], fineFrom: number, fineTo: number): number[] {
  const stops = [...new Set(edges.map((at) => Math.round(at * 1e7) / 1e7))].sort((one, other) => one - other);
  return stops.flatMap((to, i) => {
    if (i === 0) return [to];
    const from = stops[i - 1]!;
    const isFine = to > fineFrom && from < fineTo;
    const count = Math.max(1, Math.ceil((to - from) / (isFine ? 0.0006 : 0.003) - 1e-6));
    return Array.from({ length: count }, (_, n) => from + ((n + 1) * (to - from)) / count);
  });
}

interface Face {
  readonly nodes: readonly [number, number];
  readonly facet: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
  readonly emissivity: number;
  /** The open slot stands at the room's temperature. */
  readonly isOpen: boolean;
  readonly name: string;
}

/** A grid of nodes with its cells, the faces of each enclosure, and the edges that meet the room. */
function gridOf(section: SectionDescription, parts: readonly Part[]) {
  const metal = parts.filter(({ name }) => name === 'base' || name === 'wall' || name === 'cover');
  const extent = (pick: (part: Part) => readonly [number, number]): [number, number] => [
    Math.min(...metal.map((part) => pick(part)[0])) - 0.006,
    Math.max(...metal.map((part) => pick(part)[1])) + 0.006,
  ];
  const xs = linesOf(
    parts.flatMap(({ x0, x1 }) => [x0, x1]),
    ...extent(({ x0, x1 }) => [x0, x1]),
  );
  const ys = linesOf(
    parts.flatMap(({ y0, y1 }) => [y0, y1]),
    ...extent(({ y0, y1 }) => [y0, y1]),
  );
  const nx = xs.length;
  const partAt = (i: number, j: number): Part | undefined => {
    if (i < 0 || j < 0 || i >= nx - 1 || j >= ys.length - 1) return undefined;
    const [x, y] = [(xs[i]! + xs[i + 1]!) / 2, (ys[j]! + ys[j + 1]!) / 2];
    return parts.findLast((part) => x > part.x0 && x < part.x1 && y > part.y0 && y < part.y1);
  };
  const faces: Record<'cavity' | 'inside', Face[]> = { cavity: [], inside: [] };
  const films: { nodes: readonly [number, number]; resistance: number }[] = [];
  const jamb = 0.13 * Math.max(1, (2 * section.front.thickness_m) / section.slotWidth_m);
  const edge = (
    here: Part | undefined,
    there: Part | undefined,
    nodes: [number, number],
    isLevel: boolean,
  ): void => {
    // `here` is the cell to the left of the way from the first node to the second.
    for (const [one, other, [n, m]] of [
      [here, there, nodes],
      [there, here, [nodes[1], nodes[0]]],
    ] as const) {
      const isRoom = other === undefined ? isLevel && ys[Math.floor(n / nx)] === 0 : other.air === 'room';
      if (one !== undefined && one.air === undefined && isRoom)
        films.push({ nodes: [n, m], resistance: isLevel ? 0.13 : jamb });
      if (one?.air !== 'cavity' && one?.air !== 'inside') continue;
      if (other === undefined || (other.air !== undefined && other.air !== 'room')) continue;
      const [x0, y0, x1, y1] = [xs[n % nx]!, ys[Math.floor(n / nx)]!, xs[m % nx]!, ys[Math.floor(m / nx)]!];
      const isOpen = other.air === 'room';
      const isInner = one.name === 'inner' && (other.name === 'base' || other.name === 'wall');
      const emissivity = isOpen ? 1 : isInner ? section.strip.profile!.insideEmissivity : other.emissivity!;
      faces[one.air].push({
        nodes: [n, m],
        facet: { x0, y0, x1, y1 },
        emissivity,
        isOpen,
        name: `${one.name} ${other.name}`,
      });
    }
  };
  for (let j = 0; j < ys.length; j++)
    for (let i = 0; i < nx; i++) {
      const n = j * nx + i;
      if (i < nx - 1) edge(partAt(i, j), partAt(i, j - 1), [n, n + 1], true);
      if (j < ys.length - 1) edge(partAt(i - 1, j), partAt(i, j), [n, n + nx], false);
    }
  return { xs, ys, nx, partAt, faces, films };
}

/** Whether a line between two points leaves the air; touching does not count. */
function isHidden(blocks: readonly Part[], x0: number, y0: number, x1: number, y1: number): boolean {
  return blocks.some((block) => {
    let [from, to] = [0, 1];
    for (const [a, d, low, high] of [
      [x0, x1 - x0, block.x0, block.x1],
      [y0, y1 - y0, block.y0, block.y1],
    ] as const) {
      if (Math.abs(d) < 1e-12) {
        if (a <= low + 1e-9 || a >= high - 1e-9) return false;
        continue;
      }
      const [s, t] = [(low - a) / d, (high - a) / d];
      from = Math.max(from, Math.min(s, t));
      to = Math.min(to, Math.max(s, t));
    }
    return to - from > 1e-6;
  });
}

/** `K` of `q_i = sum K_ij*sigma*(Ti^4 - Tj^4)`: small faces, seen or not by their middles, radiosities by elimination. */
function exchangeOf(faces: readonly Face[], blocks: readonly Part[]): number[][] {
  const n = faces.length;
  const length = faces.map(({ facet }) => facetLength(facet));
  const middle = ({ facet: { x0, x1, y0, y1 } }: Face) => [(x0 + x1) / 2, (y0 + y1) / 2] as const;
  const seen = faces.map((one, i) =>
    faces.map((other, j) => {
      if (i === j || isHidden(blocks, ...middle(one), ...middle(other))) return 0;
      return directExchange(one.facet, other.facet);
    }),
  );
  // J_i = e_i*E_i + (1 - e_i)*sum F_ij*J_j for each E in turn: the matrix is inverted, F from rows made to close.
  const share = seen.map((row) => {
    const sum = row.reduce((total, value) => total + value, 0);
    return row.map((value) => value / sum);
  });
  const rows = share.map((row, i) => [
    ...row.map((f, j) => (i === j ? 1 : 0) - (1 - faces[i]!.emissivity) * f),
    ...row.map((_, j) => (i === j ? faces[i]!.emissivity : 0)),
  ]);
  for (let c = 0; c < n; c++) {
    const pivot = rows[c]!;
    const by = 1 / pivot[c]!;
    for (let j = c; j < 2 * n; j++) pivot[j]! *= by;
    for (let r = 0; r < n; r++) {
      const factor = rows[r]![c]!;
      if (r === c || factor === 0) continue;
      const row = rows[r]!;
      for (let j = c; j < 2 * n; j++) row[j]! -= factor * pivot[j]!;
    }
  }
  // Of what i emits j absorbs e_j * sum F_.. * J: B_ij = e_i*L_i * (F*G)_ij * e_j with G the inverse.
  return faces.map((face, i) =>
    faces.map((_, j) => {
      if (i === j) return 0;
      let sum = 0;
      for (let k = 0; k < n; k++) sum += share[i]![k]! * rows[k]![n + j]!;
      return face.emissivity * length[i]! * sum;
    }),
  );
}

const program = `
mesh Th = readmesh("section.msh");
fespace Vh(Th, P1);
fespace Ph(Th, P0);
int m, n, f; real room, sigma = 5.670374e-8;
ifstream in("section.txt");
in >> m; real[int] KX(m), KY(m);
for (int i = 0; i < m; i++) in >> KX[i] >> KY[i];
Ph kx, ky;
for (int t = 0; t < Th.nt; t++) { kx[][t] = KX[Th[t].label]; ky[][t] = KY[Th[t].label]; }
varf conduct(u, v) = int2d(Th)(kx*dx(u)*dx(v) + ky*dy(u)*dy(v));
matrix A = conduct(Vh, Vh);
int N = Vh.ndof;
real[int] b(N), d(N), T(N); b = 0; d = 0;
in >> room; T = room + 10;
in >> f;
for (int i = 0; i < f; i++) { int p; real g; in >> p >> g; d[p] += g; b[p] += g*room; }
in >> f;
for (int i = 0; i < f; i++) { int p; real w; in >> p >> w; b[p] += w; }
in >> n;
int[int] va(n), vb(n), open(n);
for (int i = 0; i < n; i++) in >> va[i] >> vb[i] >> open[i];
real[int, int] K(n, n);
for (int i = 0; i < n; i++) for (int j = 0; j < n; j++) { real w; in >> w; K(i, j) = w; }
real[int] H(n), q(n), at(n), all(n), one(n);
one = 1; all = K*one;
for (int i = 0; i < n; i++) H[i] = 4*sigma*all[i]*room^3*1.4;
real[int] D = d;
for (int i = 0; i < n; i++) if (!open[i]) { D[va[i]] += H[i]/4; D[vb[i]] += H[i]/4; D[va[i]] += H[i]/4; D[vb[i]] += H[i]/4; }
matrix S = D;
matrix M = A + S;
set(M, solver = sparsesolver);
real moved = 1;
for (int round = 0; round < 4000 && moved > 2e-5; round++) {
  for (int i = 0; i < n; i++) at[i] = open[i] ? room : (T[va[i]] + T[vb[i]])/2;
  real[int] e(n); e = at; for (int i = 0; i < n; i++) e[i] = sigma*at[i]^4;
  q = K*e; 
  for (int i = 0; i < n; i++) q[i] = all[i]*e[i] - q[i];
  real[int] r = b;
  for (int i = 0; i < n; i++) if (!open[i]) {
    r[va[i]] += (H[i]*T[va[i]] - q[i])/2; r[vb[i]] += (H[i]*T[vb[i]] - q[i])/2; }
  real[int] next = M^-1*r;
  real[int] step = next - T; moved = step.linfty; T = next;
}
cout << "moved " << moved << endl;
ofstream out("temperatures.txt"); out.precision(10);
for (int i = 0; i < N; i++) out << T[i] << endl;
`;

/** Runs the finite elements on a section. @returns temperatures of the nodes that are there, by node of the grid */
async function finiteElements(
  section: SectionDescription,
  parts: readonly Part[],
  grid: ReturnType<typeof gridOf>,
) {
  const { xs, ys, nx, partAt, faces, films } = grid;
  const number = new Map<number, number>();
  const vertices: string[] = [];
  const triangles: string[] = [];
  const vertex = (n: number): number => {
    if (!number.has(n)) {
      vertices.push(`${xs[n % nx]} ${ys[Math.floor(n / nx)]} 0`);
      number.set(n, number.size);
    }
    return number.get(n)!;
  };
  for (let j = 0; j < ys.length - 1; j++)
    for (let i = 0; i < nx - 1; i++) {
      const part = partAt(i, j)!;
      if (part.air === 'room') continue;
      const [p, q, r, s] = [j * nx + i, j * nx + i + 1, (j + 1) * nx + i + 1, (j + 1) * nx + i].map(vertex);
      const label = parts.indexOf(part);
      // Alternate diagonals, so that no direction is favoured.
      const cut = (i + j) % 2 === 0 ? [p, q, r, p, r, s] : [p, q, s, q, r, s];
      triangles.push(
        `${cut
          .slice(0, 3)
          .map((v) => v! + 1)
          .join(' ')} ${label}`,
      );
      triangles.push(
        `${cut
          .slice(3)
          .map((v) => v! + 1)
          .join(' ')} ${label}`,
      );
    }
  const lengthOf = ([n, m]: readonly [number, number]): number =>
    Math.hypot(xs[m % nx]! - xs[n % nx]!, ys[Math.floor(m / nx)]! - ys[Math.floor(n / nx)]!);
  const filmRows = films.flatMap(({ nodes, resistance }) =>
    nodes.map((node) => `${vertex(node)} ${lengthOf(nodes) / 2 / resistance}`),
  );
  const all = [...faces.cavity, ...faces.inside];
  const stripFaces = all.filter(({ name }) => name === 'inner strip');
  const stripLength = stripFaces.reduce((sum, { nodes }) => sum + lengthOf(nodes), 0);
  const heatRows = stripFaces.flatMap(({ nodes }) =>
    nodes.map((node) => `${vertex(node)} ${(heat_W_per_m * lengthOf(nodes)) / 2 / stripLength}`),
  );
  const solids = parts.filter(({ air }) => air === undefined);
  const blocks = [exchangeOf(faces.cavity, solids), exchangeOf(faces.inside, [])];
  const start = [0, faces.cavity.length];
  const K = all.map((_, i) => {
    const which = i < start[1]! ? 0 : 1;
    const row = new Array<number>(all.length).fill(0);
    for (const [j, value] of blocks[which]![i - start[which]!]!.entries()) row[j + start[which]!] = value;
    return row;
  });
  const isKnown = ({ nodes, isOpen }: Face) => (isOpen ? [0, 0] : nodes.map(vertex));
  const text = [
    parts.length,
    ...parts.map(({ kx, ky }) => `${Math.max(kx, 1e-9)} ${Math.max(ky, 1e-9)}`),
    section.room_K,
    filmRows.length,
    ...filmRows,
    heatRows.length,
    ...heatRows,
    all.length,
    ...all.map((face) => `${isKnown(face).join(' ')} ${face.isOpen ? 1 : 0}`),
    ...K.map((row) => row.join(' ')),
    // Its reader looks beyond what it reads.
    '0 0 0\n',
  ].join('\n');
  const folder = await mkdtemp(join(tmpdir(), 'slotwatt-elements-'));
  try {
    await writeFile(
      join(folder, 'section.msh'),
      [`${vertices.length} ${triangles.length} 0`, ...vertices, ...triangles, ''].join('\n'),
    );
    await writeFile(join(folder, 'section.txt'), text);
    await writeFile(join(folder, 'section.edp'), program);
    await promisify(execFile)('FreeFem++', ['-nw', '-v', '0', 'section.edp'], {
      cwd: folder,
      maxBuffer: 1e8,
    });
    const read = await readFile(join(folder, 'temperatures.txt'), 'utf8');
    const values = read.trim().split(/\s+/).map(Number);
    return (node: number): number => values[number.get(node)!]!;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Mean temperature over faces of given names. */
function meanOf(
  faces: readonly Face[],
  names: readonly string[],
  at: (node: number) => number,
): number | undefined {
  const chosen = faces.filter(({ name }) => names.includes(name));
  if (chosen.length === 0) return undefined;
  const lengths = chosen.map(({ facet }) => facetLength(facet));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  return (
    chosen.reduce((sum, { nodes }, i) => sum + (lengths[i]! * (at(nodes[0]) + at(nodes[1]))) / 2, 0) / whole
  );
}

const isThere = (): Promise<boolean> =>
  promisify(execFile)('FreeFem++', ['-h']).then(
    () => true,
    (error: { code?: unknown }) => error.code !== 'ENOENT',
  );

/** Temperatures of a strip in a profile beside two-dimensional finite elements on grids, parts and exchange drawn here. */
export async function profileByFiniteElements(): Promise<void> {
  if (!(await isThere())) {
    console.log('profile beside finite elements: skipped, FreeFem++ is not installed (Debian: freefem++)');
    return;
  }
  for (const [name, section] of cases) {
    const solved = solveSectionField(section, loads);
    if (!solved.ok) throw new Error(solved.issues[0]!.sentence);
    const { temperatures } = solved.value;
    const parts = partsOf(section, solved.value);
    const grid = gridOf(section, parts);
    const at = await finiteElements(section, parts, grid);
    const all = [...grid.faces.cavity, ...grid.faces.inside];
    const pairs = [
      ['strip', temperatures.strip.mean_K, meanOf(all, ['inner strip'], at)],
      ['profile', temperatures.profile!.mean_K, meanOf(all, ['inner base', 'inner wall'], at)],
      ['cover inside', temperatures.profile!.coverInside?.mean_K, meanOf(all, ['inner cover'], at)],
    ] as const;
    const said = pairs.flatMap(([what, ours, theirs]) =>
      ours === undefined || theirs === undefined
        ? []
        : [
            `${what} ${(ours - 273.15).toFixed(2)} beside ${(theirs - 273.15).toFixed(2)} (${(ours - theirs).toFixed(3)} K)`,
          ],
    );
    console.log(`${name}: ${said.join(', ')}; ${all.length} faces, ${grid.xs.length * grid.ys.length} nodes`);
  }
}
