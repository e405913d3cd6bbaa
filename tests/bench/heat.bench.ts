import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { type ConductionCase, solveConduction } from '../../reference/laws/conduction.ts';
import { nodesAlong, type Segment } from '../../src/heat/conduction.ts';
import { temperatureLimits } from '../../src/heat/limits.ts';
import type { Grading } from '../../src/heat/mesh.ts';
import { highestPower, type SectionQuestion, sweepDepth, sweepPower } from '../../src/heat/questions.ts';
import type { SectionDescription, SectionLoads } from '../../src/heat/section-description.ts';
import { solveSectionField } from '../../src/heat/section-field.ts';
import { sectionResponse } from '../../src/heat/section-response.ts';
import { solveHandSection } from '../heat/hand-method.ts';
import { carrier, panel, sheet } from '../heat/sections.ts';

type Named = readonly [string, SectionDescription];

/** The same section with and without a carrier, its slot open and closed. */
function variants(name: string, section: SectionDescription): Named[] {
  const carried = { ...section, strip: { ...section.strip, carrier } };
  return [
    [name, section],
    [`${name}, sheet`, { ...section, sheet }],
    [`${name}, carrier`, carried],
    [`${name}, carrier and sheet`, { ...carried, sheet }],
  ];
}

const placed = (strip: Partial<SectionDescription['strip']>): SectionDescription => ({
  ...panel,
  strip: { ...panel.strip, ...strip },
});

const sections: readonly Named[] = [
  ...variants('strip in the middle', panel),
  ['endless cavity', { ...panel, battenWidth_m: 0 }],
  ...variants('strip off the middle', placed({ offset_m: 0.012 })),
  ...variants('strip on the front', placed({ mount: 'front', offset_m: 0.02 })),
  ...variants('strip on a side', placed({ mount: 'side', offset_m: 0.015 })),
];
const loads: SectionLoads = { strip_W_per_m: 7 };
const question: SectionQuestion = {
  section: panel,
  loads,
  request: { lampRise_K: 6 },
  limits: temperatureLimits({ touch: 'touched', stripRating_degC: 70 }),
};

/** Median and least of repeated runs after a warm-up, in milliseconds. */
function time_ms(run: () => unknown, runCount = 15): { readonly median: number; readonly least: number } {
  for (let i = 0; i < 3; i++) run();
  const times = Array.from({ length: runCount }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  times.sort((a, b) => a - b);
  return { median: times[runCount >> 1]!, least: times[0]! };
}

function line(what: string, time: ReturnType<typeof time_ms>, target: string): void {
  console.log(
    `heat | ${what} | ${time.median.toFixed(1)} ms median, ${time.least.toFixed(1)} least | ${target}`,
  );
}

function benchSections(): void {
  for (const [name, section] of sections) {
    const outcome = solveSectionField(section, loads);
    if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
    const { meshHistory, balance, picture } = outcome.value;
    const nodes = meshHistory.map((step) => step.nodeCount).join(', ');
    line(
      `one section to 0.1 K, ${name}, ${picture.half ? 'half a pitch' : 'whole pitch'}`,
      time_ms(() => solveSectionField(section, loads)),
      'target 100 ms',
    );
    console.log(
      `heat |   nodes ${nodes}; last step moved ${meshHistory.at(-1)!.moved_K!.toFixed(3)} K; balance ${balance.toExponential(1)}`,
    );
  }
  line(
    'hand method',
    time_ms(() => solveHandSection(panel, loads)),
    'no target',
  );
}

function benchQuestions(): void {
  const twenty = Array.from({ length: 20 }, (_, k) => k / 19);
  const depths = twenty.map((t) => 0.015 + 0.03 * t);
  const shares = twenty.map((t) => 0.1 + 1.9 * t);
  line(
    'sweep of 20 depths',
    time_ms(() => sweepDepth(question, depths), 5),
    'target 1000 ms',
  );
  line(
    'sweep of 20 powers',
    time_ms(() => sweepPower(question, shares), 5),
    'target 1000 ms',
  );
  line(
    'highest power',
    time_ms(() => highestPower(question), 5),
    'no target',
  );
  line(
    'doubts and power of the watts',
    time_ms(() => sectionResponse(panel, loads, question.request), 5),
    'no target',
  );
}

// The same conduction cases by a general finite-element program from Debian.

/** A conduction case and the segment whose mean temperature is compared; its source lies on it. */
interface Opinion {
  readonly name: string;
  readonly problem: ConductionCase;
  readonly under: Segment;
  readonly grading: Grading & { readonly finest_m: number };
  /** The true mean where it is known. */
  readonly exact_K: number | null;
}

/** Exact mean rise under a strip on a slab per W/m, by the series. */
function slabRise_K(slab: { a: number; b: number; t: number; conductivity: number; film: number }): number {
  const { a, b, t, conductivity, film } = slab;
  const [share, tau, biot] = [a / b, t / b, (film * b) / conductivity];
  let sum = 0;
  for (let n = 1; n < 200_000; n++) {
    const k = n * Math.PI;
    const tanh = Math.tanh(k * tau);
    sum += (Math.sin(k * share) ** 2 / n ** 3) * ((k + biot * tanh) / (k * tanh + biot));
  }
  const even = t / (2 * b * conductivity) + 1 / (2 * b * film);
  return even + sum / (conductivity * share ** 2 * Math.PI ** 3);
}

const box = (x0: number, x1: number, y0: number, y1: number, conductivity: number) => ({
  ...{ name: 'solid', x0, x1, y0, y1, conductivity },
});

function opinions(): Opinion[] {
  const slab = { a: 0.005, b: 0.1, t: 0.018, conductivity: 0.13, film: 7.692 };
  const onSlab = { x0: 0, x1: slab.a, y0: slab.t, y1: slab.t };
  const onCarrier = { x0: 0, x1: 0.005, y0: 0.046, y1: 0.046 };
  const film = { name: 'room', resistance_m2K_per_W: 1 / slab.film, air_K: 0, y0: 0, y1: 0, x0: 0 };
  return [
    {
      name: 'strip on a slab',
      problem: {
        rectangles: [box(0, slab.b, 0, slab.t, slab.conductivity)],
        films: [{ ...film, x1: slab.b }],
        sources: [{ ...onSlab, heat_W_per_m: 0.5 }],
      },
      under: onSlab,
      grading: { finest_m: 0.001, growth: 2, coarsest_m: 0.012 },
      exact_K: slabRise_K(slab),
    },
    {
      name: 'panel with carrier and batten, still air',
      problem: {
        rectangles: [
          box(0, 0.075, 0, 0.018, 0.13),
          box(0, 0.065, 0.018, 0.048, 0.026),
          box(0.065, 0.075, 0.018, 0.048, 0.13),
          box(0, 0.075, 0.048, 0.057, 0.13),
          box(0, 0.01, 0.046, 0.048, 160),
        ],
        films: [{ ...film, x1: 0.075 }],
        sources: [{ ...onCarrier, heat_W_per_m: 1 }],
      },
      under: onCarrier,
      grading: { finest_m: 0.001, growth: 2, coarsest_m: 0.012 },
      exact_K: null,
    },
  ];
}

function ownMean_K(opinion: Opinion, bisections: number): { mean_K: number; nodeCount: number } {
  const solved = solveConduction(opinion.problem, opinion.grading, bisections);
  const along = nodesAlong(solved.network, opinion.under);
  const length = along.reduce((total, n) => total + n.length_m, 0);
  const sum = along.reduce((total, n) => total + n.length_m * solved.temperature_K[n.node]!, 0);
  return { mean_K: sum / length, nodeCount: solved.network.nodeCount };
}

/** The engine's way: two meshes, the second with every cell cut in two, carried on. */
function carriedOn(opinion: Opinion, bisections: number): { mean_K: number; nodeCount: number } {
  const coarse = ownMean_K(opinion, bisections - 1);
  const fine = ownMean_K(opinion, bisections);
  return { ...fine, mean_K: fine.mean_K + (fine.mean_K - coarse.mean_K) / 3 };
}

/** All rectangle edges, cut where another corner lies on them, each once. */
function borders(problem: ConductionCase): Segment[] {
  const boxes = [...problem.rectangles, ...(problem.sources ?? [])];
  const pieces = new Map<string, Segment>();
  const cut = (level: boolean, at: number, from: number, to: number): void => {
    const corners = boxes.flatMap((r) =>
      level
        ? [r.y0, r.y1].includes(at) || (r.y0 < at && at < r.y1)
          ? [r.x0, r.x1]
          : []
        : [r.x0, r.x1].includes(at) || (r.x0 < at && at < r.x1)
          ? [r.y0, r.y1]
          : [],
    );
    const stops = [...new Set([from, to, ...corners.filter((c) => c > from && c < to)])].sort(
      (p, q) => p - q,
    );
    for (const [k, end] of stops.slice(1).entries()) {
      const start = stops[k]!;
      const piece = level ? { x0: start, x1: end, y0: at, y1: at } : { x0: at, x1: at, y0: start, y1: end };
      pieces.set(JSON.stringify(piece), piece);
    }
  };
  for (const r of problem.rectangles) {
    for (const y of [r.y0, r.y1]) cut(true, y, r.x0, r.x1);
    for (const x of [r.x0, r.x1]) cut(false, x, r.y0, r.y1);
  }
  return [...pieces.values()];
}

/** Quadratic triangles, `1/n` of the grading's cells beside the source and growing away from it. */
function script(opinion: Opinion, n: number): string {
  const { problem, under, grading } = opinion;
  const within = (s: Segment, t: Segment): boolean =>
    s.y0 === t.y0 && s.y1 === t.y1 && s.x0 >= t.x0 && s.x1 <= t.x1;
  const pieces = borders(problem);
  const count = (s: Segment): number => {
    const near = Math.hypot(
      Math.max(0, s.x0 - under.x1),
      Math.min(Math.abs(s.y0 - under.y0), Math.abs(s.y1 - under.y0)),
    );
    const cell = Math.min(3 * grading.finest_m + near / 2, grading.coarsest_m);
    return Math.max(1, Math.ceil((n * Math.hypot(s.x1 - s.x0, s.y1 - s.y0)) / cell));
  };
  const [left, top] = [Math.min(...pieces.map((s) => s.x0)), Math.max(...pieces.map((s) => s.y1))];
  // The outline runs counter-clockwise; a negative count turns a border round.
  const turned = (s: Segment): boolean => (s.x0 === left && s.x1 === left) || (s.y0 === top && s.y1 === top);
  const label = (s: Segment): number => {
    if (within(s, under)) return 9;
    return problem.films.some((f) => within(s, f)) ? 8 : 1;
  };
  const lines = pieces.map(
    (s, k) =>
      `border b${k}(s=0,1){x=${s.x0}+(${s.x1 - s.x0})*s; y=${s.y0}+(${s.y1 - s.y0})*s; label=${label(s)};}`,
  );
  const conductivity = problem.rectangles.reduce(
    (rest, r) => `(x>${r.x0} && x<${r.x1} && y>${r.y0} && y<${r.y1} ? ${r.conductivity} : ${rest})`,
    '0.',
  );
  const heat = problem.sources![0]!.heat_W_per_m / (under.x1 - under.x0);
  return `
${lines.join('\n')}
real t0 = clock();
mesh Th = buildmesh(${pieces.map((s, k) => `b${k}(${turned(s) ? -count(s) : count(s)})`).join('+')});
fespace Ph(Th, P0);
fespace Vh(Th, P2);
Ph k = ${conductivity};
Vh u, v;
solve heat(u, v, solver=sparsesolver) = int2d(Th)(k*(dx(u)*dx(v)+dy(u)*dy(v)))
  + int1d(Th,8)(${1 / problem.films[0]!.resistance_m2K_per_W}*u*v) - int1d(Th,9)(${heat}*v);
real mean = int1d(Th,9)(u)/int1d(Th,9)(1.);
cout.precision(12);
cout << "RESULT " << mean << " " << Vh.ndof << " " << clock()-t0 << endl;
`;
}

interface FemRun {
  readonly mean_K: number;
  readonly unknownCount: number;
  readonly own_ms: number;
  readonly process_ms: number;
}

const run = promisify(execFile);
const program = 'FreeFem++';

async function isInstalled(): Promise<boolean> {
  try {
    await run('which', [program]);
    return true;
  } catch {
    return false;
  }
}

async function femRun(folder: string, opinion: Opinion, n: number): Promise<FemRun> {
  const file = join(folder, 'case.edp');
  await writeFile(file, script(opinion, n));
  const start = performance.now();
  const { stdout } = await run(program, ['-nw', '-v', '0', file]);
  const process_ms = performance.now() - start;
  const found = /RESULT (\S+) (\S+) (\S+)/.exec(stdout);
  if (found === null) throw new Error(`no result from ${program}`);
  const [mean_K, unknownCount, seconds] = found.slice(1).map(Number);
  return { mean_K: mean_K!, unknownCount: unknownCount!, own_ms: 1000 * seconds!, process_ms };
}

/** The coarsest mesh of the finite-element program that is as near the truth as ours; the median of three runs. */
async function femAsGood(
  folder: string,
  opinion: Opinion,
  exact_K: number,
  error_K: number,
): Promise<FemRun | null> {
  for (const n of [0.5, 1, 1.5, 2, 3, 4, 6, 8, 12, 16]) {
    const first = await femRun(folder, opinion, n);
    if (Math.abs(first.mean_K - exact_K) > error_K) continue;
    const again = [first, await femRun(folder, opinion, n), await femRun(folder, opinion, n)];
    return again.sort((p, q) => p.own_ms - q.own_ms)[1]!;
  }
  return null;
}

async function compare(folder: string, opinion: Opinion): Promise<void> {
  const finest = await femRun(folder, opinion, 16);
  const exact_K = opinion.exact_K ?? carriedOn(opinion, 4).mean_K;
  console.log(
    `heat | ${opinion.name} | ${opinion.exact_K === null ? 'here, five meshes' : 'series'} ${exact_K.toFixed(5)} K, ${program} with ${finest.unknownCount} unknowns ${finest.mean_K.toFixed(5)} K`,
  );
  for (const bisections of [1, 2]) {
    const own = carriedOn(opinion, bisections);
    const error_K = Math.abs(own.mean_K - exact_K);
    const own_ms = time_ms(() => carriedOn(opinion, bisections)).median;
    const fem = await femAsGood(folder, opinion, exact_K, error_K);
    console.log(
      `heat |   here ${own.mean_K.toFixed(5)} K, error ${error_K.toFixed(5)} K, ${own.nodeCount} nodes, ${own_ms.toFixed(2)} ms`,
    );
    if (fem === null) console.log(`heat |   ${program} did not come as near`);
    else
      console.log(
        `heat |   ${program} ${fem.mean_K.toFixed(5)} K, ${fem.unknownCount} unknowns, ${fem.own_ms.toFixed(1)} ms by its own clock, ${fem.process_ms.toFixed(0)} ms with starting | difference ${(own.mean_K - fem.mean_K).toFixed(5)} K | time ratio ${(fem.own_ms / own_ms).toFixed(1)}, with starting ${(fem.process_ms / own_ms).toFixed(0)}`,
      );
  }
}

async function benchSecondOpinion(): Promise<void> {
  if (!(await isInstalled())) {
    console.log(`heat | second opinion skipped: ${program} is not installed (Debian package freefem++)`);
    return;
  }
  const folder = await mkdtemp(join(tmpdir(), 'heat-'));
  try {
    for (const opinion of opinions()) await compare(folder, opinion);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Times a section, its questions, and the same conduction case on a general finite-element program. */
export async function benchHeat(): Promise<void> {
  benchSections();
  benchQuestions();
  await benchSecondOpinion();
}
