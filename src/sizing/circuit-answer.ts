import type { CircuitAnswer, CircuitRun } from '../answer/circuit.ts';
import type { DriverOutput } from '../answer/drivers.ts';
import type { Run, SetOut } from '../answer/set-out.ts';
import type { CableSolution, ChannelSolution, CircuitSolution, RunSolution } from '../circuit/solution.ts';
import { listOf } from '../numeric/list-of.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import { neighbourDifferences } from '../set-out/neighbour-light.ts';
import { undimmed, worstChannel } from './channels.ts';
import { partnerOf, type WiredJob } from './circuit-of-job.ts';
import { solvedDimmers } from './dimmer-answer.ts';
import {
  averageOfOutputs,
  averageShare,
  circuitLight,
  electricalLevels,
  isSteady,
  momentShare,
} from './dimming-of-job.ts';
import type { Settled } from './settle.ts';
import type { ToleranceAnswer } from './tolerance-answer.ts';

interface OutputOfRun {
  readonly driver: string;
  readonly output: string;
}

/** What a run draws on average over what it draws in the solved circuit, 0 to 1. */
export type AverageOf = (run: string) => number;

const asSolved: AverageOf = () => 1;

/** Highest power of one unit of a run, all channels together, per metre. */
function runPower_W_per_m(channels: readonly ChannelSolution[], unitsPerMetre: number): number {
  const unitCount = channels[0]!.unit_V.length;
  let most_W = 0;
  for (let unit = 0; unit < unitCount; unit++) {
    let watts = 0;
    for (const { unit_V, unit_A } of channels) watts += unit_V[unit]! * unit_A[unit]!;
    if (watts > most_W) most_W = watts;
  }
  return most_W * unitsPerMetre;
}

/** The run with the unit that draws most on average, the first of those alike: where the heat is decided. */
export function hottestRun(
  { runs }: Pick<CircuitSolution, 'runs'>,
  unitsPerMetre: number,
  averageOf = asSolved,
): RunSolution {
  const powers = runs.map(({ id, channels }) => averageOf(id) * runPower_W_per_m(channels, unitsPerMetre));
  return runs[powers.indexOf(Math.max(...powers))]!;
}

/** Highest power anywhere on the wall, on average, per metre: the place that decides the heat. */
export function worstPower_W_per_m(
  { runs }: Pick<CircuitSolution, 'runs'>,
  unitsPerMetre: number,
  averageOf = asSolved,
): number {
  return Math.max(
    ...runs.map(({ id, channels }) => averageOf(id) * runPower_W_per_m(channels, unitsPerMetre)),
  );
}

/** How much each run of a job draws on average, by its zone. */
export function averagesOfRuns({
  job,
  products,
  runs,
}: Pick<WiredJob, 'job' | 'products' | 'runs'>): AverageOf {
  const shares = new Map(runs.map(({ id, zone }) => [id, averageShare(job, products, zone)]));
  return (run) => shares.get(run)!;
}

/** The branch that lands on each feed point. */
const branchesToPads = rememberedFor(
  ({ installation }: WiredJob) =>
    new Map(
      installation.branches.flatMap((branch) =>
        branch.to.kind === 'pad' ? [[branch.to.feedPoint, branch] as const] : [],
      ),
    ),
);

function feedsOf(
  run: Run,
  wired: WiredJob,
  cables: ReadonlyMap<string, CableSolution>,
): CircuitRun['feed_A'] {
  return run.feedPoints.flatMap((feedPoint) => {
    const branch = branchesToPads(wired).get(feedPoint.id);
    const partner = branch && partnerOf(branch.id, wired);
    const solution = partner && cables.get(partner);
    if (!solution) return [];
    const back_V = solution.returns.reduce((sum, r) => sum + r.to_V, 0) / solution.returns.length;
    return [
      {
        feedPoint: feedPoint.id,
        current_A: solution.positive.current_A,
        terminal_V: solution.positive.to_V - back_V,
      },
    ];
  });
}

/** Cut lines of each run where a conductor lands or leaves, in their order. */
const padLines = rememberedFor(({ installation }: WiredJob) => {
  const lines = new Map<string, Set<number>>();
  for (const end of installation.branches.flatMap(({ from, to }) => [from, to]))
    if (end.kind === 'pad') lines.set(end.run, (lines.get(end.run) ?? new Set<number>()).add(end.cutLine));
  return lines;
});

function padsOf({ id, positivePad_V, channels }: RunSolution, wired: WiredJob): CircuitRun['pads'] {
  const cutLines = [...(padLines(wired).get(id) ?? [])].sort((a, b) => a - b);
  return cutLines.map((cutLine) => ({
    cutLine,
    plus_V: positivePad_V[cutLine]!,
    minus_V: channels.map(({ returnPad_V }) => returnPad_V[cutLine]!),
  }));
}

/** What each unit of a run draws, all channels together. */
function unitCurrents_A([first, ...others]: readonly ChannelSolution[]): number[] {
  const units_A = listOf(first!.unit_A);
  for (const { unit_A } of others)
    for (let unit = 0; unit < units_A.length; unit++) units_A[unit]! += unit_A[unit]!;
  return units_A;
}

interface RunToAnswer {
  readonly run: Run;
  readonly solved: RunSolution;
  /** Of each unit, dimming left out. */
  readonly light: number[];
  readonly output: OutputOfRun;
  readonly neighbour: number | null;
  readonly strip_degC: number;
  readonly band: CircuitRun['band'];
}

function answerRun(
  given: RunToAnswer,
  wired: WiredJob,
  cables: ReadonlyMap<string, CableSolution>,
): CircuitRun {
  const { run, solved, light, output, neighbour, strip_degC, band } = given;
  const { strip } = wired.products;
  const worst = worstChannel(solved.channels);
  const several = solved.channels.length > 1 ? solved.channels : [];
  const levels = several.length > 1 ? electricalLevels(wired.job, wired.products, run.zone) : [];
  return {
    run: run.id,
    ...output,
    feed_A: feedsOf(run, wired, cables),
    pads: padsOf(solved, wired),
    unit_V: listOf(worst.unit_V),
    unit_A: unitCurrents_A(solved.channels),
    unit_light: light,
    channels: several.map((channel, i) => ({
      name: strip.channels[i]!.name,
      unit_V: listOf(channel.unit_V),
      unit_A: listOf(channel.unit_A),
      unit_light: undimmed(channel.light, levels[i]!),
    })),
    lowest_V: worst.lowest_V,
    lowestUnit: worst.lowestUnit,
    highest_V: Math.max(...solved.channels.map((channel) => channel.highest_V)),
    drop_V: solved.drop_V,
    drop: solved.dropRatio,
    fall: solved.lightFall,
    neighbour,
    watts: solved.load_W + solved.copper_W,
    copper_W: solved.copper_W,
    worst_W_per_m: runPower_W_per_m(solved.channels, strip.unitsPerMetre),
    strip_degC,
    band,
  };
}

/** Which output carries each run. */
export function outputOfRuns(outputs: readonly (Pick<DriverOutput, 'id' | 'runs'> & { driver: string })[]) {
  return new Map(
    outputs.flatMap((output) =>
      output.runs.map((run) => [run, { driver: output.driver, output: output.id }] as const),
    ),
  );
}

/** The level volts and amps stand at. */
function levelWord({ job, products, runs }: WiredJob): CircuitAnswer['level'] {
  if (runs.some(({ zone }) => isSteady(job, products, zone))) return 'working';
  return momentShare(job, products) < 1 ? 'mix' : 'full';
}

/** What the drivers deliver on average, without what dimmers take for themselves. */
function average_W({
  solution,
  wired,
  allocation,
}: Pick<Settled, 'solution' | 'wired' | 'allocation'>): number {
  const shares = averageOfOutputs(allocation, wired);
  return solution.sources.reduce((sum, { id, out_W }) => sum + shares.get(id)! * out_W, 0);
}

/** The circuit's part of the answer, run by run in the order of the set-out, with the balance of watts. */
export function circuitAnswer(
  { solution, wired, allocation, strip_degC }: Settled,
  setOut: SetOut,
  outputOf: ReadonlyMap<string, OutputOfRun>,
  tolerance: ToleranceAnswer | null,
): CircuitAnswer {
  const { job } = wired;
  const cables = new Map(solution.cables.map((cable) => [cable.id, cable]));
  const dimmers = solvedDimmers(wired, solution);
  const own_W = dimmers.reduce((sum, dimmer) => sum + dimmer.own_W, 0);
  const inDimmers_W = dimmers.reduce((sum, dimmer) => sum + dimmer.resistance_W, 0);
  const lit = wired.runs.map((run, i) => ({
    run,
    light: undimmed(solution.runs[i]!.light, circuitLight(job, wired.products, run.zone)),
  }));
  const neighbours = neighbourDifferences(lit, setOut.slots, setOut.neighbours);
  return {
    runs: lit.map(({ run, light }, i) =>
      answerRun(
        {
          run,
          light,
          solved: solution.runs[i]!,
          output: outputOf.get(run.id)!,
          neighbour: neighbours[i]!,
          strip_degC: strip_degC[i]!,
          band: tolerance?.runs[i] ?? null,
        },
        wired,
        cables,
      ),
    ),
    level: levelWord(wired),
    stripTemperature: job.strip.strip_degC === null ? 'worked out' : 'given',
    supply_W: solution.out_W + own_W,
    average_W: average_W({ solution, wired, allocation }) + own_W,
    lamps_W: solution.load_W,
    stripCopper_W: solution.stripCopper_W,
    cable_W: solution.cable_W - inDimmers_W,
    dimmer_W: inDimmers_W + own_W,
    unaccounted_A: solution.residual_A,
    imbalance_W: solution.imbalance_W,
    iterationCount: solution.newtonSteps,
    tolerances: tolerance?.text ?? '',
  };
}
