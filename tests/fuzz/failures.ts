import type { Cable, CircuitDescription, Conductor, Run } from '../../src/circuit/description.ts';
import type { CircuitSolution } from '../../src/circuit/solution.ts';
import { planCircuit, solvePlanned } from '../../src/circuit/solve-circuit.ts';
import { limitOverRating } from '../../src/constants.ts';
import {
  cableCatalogue,
  dimmerCatalogue,
  driverCatalogue,
  type Job,
  newJob,
  type Sizing,
  stripCatalogue,
} from '../../src/index.ts';
import { modelOf } from '../../src/job/products.ts';
import { newZone } from '../../src/job/zone.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { partnerOf, type WiredJob } from '../../src/sizing/circuit-of-job.ts';
import { solvedDimmers } from '../../src/sizing/dimmer-answer.ts';
import { settledSizing } from '../../src/sizing/size-job.ts';
import { jobIn } from './jobs.ts';
import { type Kind, thrown } from './kind.ts';
import { between, chance, pick, randomOf, whole } from './random.ts';

/** A wall of few sections, so that the heat of each is solved once, and of every wiring. */
function randomWiring(random: Random): Job {
  const job = newJob();
  const strip = pick(random, stripCatalogue);
  const count = pick(random, [3, 8]);
  if (job.slots.from === 'generator') job.slots.spacing = { by: 'count', count };
  job.strip.entry = strip.id;
  if (chance(random, 0.3)) job.strip.data.reel_mm = pick(random, [700, 1500]);
  job.dimming.levels = strip.channels.map(() => 0.2);
  job.cables.layout = pick(random, ['radial', 'trunk', 'ring', 'run to run']);
  const ends = ['start', 'finish'] as const;
  const arrangements = [...ends, 'both', 'between', 'crossed', 'chosen'] as const;
  job.feeds.arrangement = pick(random, job.cables.layout === 'run to run' ? ends : arrangements);
  job.feeds.betweenCount = whole(random, 1, 3);
  job.feeds.cutLines = [whole(random, 0, 10), whole(random, 11, 20)];
  job.feeds.terminal_mohm = pick(random, [0, 5, 50]);
  job.cables.entry = pick(random, cableCatalogue).id;
  if (chance(random, 0.5)) job.cables.trunk = { entry: pick(random, cableCatalogue).id, data: {} };
  job.cables.fuses = pick(random, ['cartridge', 'blade', 'electronic']);
  job.cables.grouped = whole(random, 1, 4);
  job.cables.way = pick(random, ['head', 'foot']);
  job.drivers.entry = pick(
    random,
    driverCatalogue.filter(({ output_V }) => output_V === strip.nominal_V),
  ).id;
  if (chance(random, 0.3)) {
    const sameVolts = driverCatalogue.filter(({ output_V }) => output_V === strip.nominal_V);
    job.drivers.also = [{ entry: pick(random, sameVolts).id, data: {}, stock: pick(random, [null, 1, 2]) }];
  }
  job.drivers.data.terminalConductors = whole(random, 1, 4);
  job.drivers.reserve = pick(random, [0, 0.1, 0.2]);
  job.drivers.places[0]!.x_mm = between(random, -500, job.panel.width_mm);
  if (chance(random, 0.4)) dimmedBy(pick(random, dimmersFor(strip)), job, random);
  if (chance(random, 0.4)) zoned(job, count, random);
  return job;
}

type Strip = (typeof stripCatalogue)[number];

const dimmersFor = ({ channels, nominal_V }: Strip) =>
  dimmerCatalogue.filter(
    ({ channelCount, most_V }) => channelCount >= channels.length && most_V >= Math.min(24, nominal_V),
  );

/** A dimmer behind every output, its channels so thin now and then that outputs are split for it. */
function dimmedBy({ id }: { readonly id: string }, job: Job, random: Random): void {
  const data = chance(random, 0.3) ? { channel_A: pick(random, [1, 2]), resistance_mohm: 100 } : {};
  job.dimming.control = 'dimmer';
  job.dimming.dimmer = {
    entry: id,
    data: { ...data, ...(job.strip.entry.startsWith('48') ? { most_V: 48 } : {}) },
  };
}

/** The first slots are a zone, the rest another or none, each wired as the wall or otherwise. */
function zoned(job: Job, count: number, random: Random): void {
  const layouts =
    job.feeds.arrangement === 'start' || job.feeds.arrangement === 'finish' ? allLayouts : branching;
  const first = whole(random, 1, count - 1);
  const slots = Array.from({ length: count }, (_, i) => i + 1);
  const parts = chance(random, 0.5) ? [slots.slice(0, first), slots.slice(first)] : [slots.slice(0, first)];
  job.dimming.zones = parts.map((part, i) => ({
    ...newZone({ id: `Z${i + 1}`, name: `zone ${i + 1}`, slots: part }),
    layout: pick(random, [null, ...layouts]),
    way: pick(random, [null, 'head', 'foot'] as const),
  }));
}

const branching = ['radial', 'trunk', 'ring'] as const;
const allLayouts = [...branching, 'run to run'] as const;

/** What an opened contact still has, 10 kohm: some 2 mA beside amperes. */
const open = { ohm_per_m: 100, length_m: 100 } as const;

/** A single failure of a wall: what it is called, and the circuit with it. */
interface Failure {
  readonly name: string;
  readonly description: CircuitDescription;
}

const opened = <Core extends Conductor>(core: Core): Core => ({ ...core, ...open });

const withCable = (
  description: CircuitDescription,
  id: string,
  change: (cable: Cable) => Cable,
): CircuitDescription => ({
  ...description,
  cables: description.cables.map((cable) => (cable.id === id ? change(cable) : cable)),
});

const dark = (run: Run): Run => ({ ...run, channels: run.channels.map((each) => ({ ...each, level: 0 })) });

const openPlus = (cable: Cable): Cable => ({ ...cable, positive: opened(cable.positive) });
const openReturn =
  (c: number) =>
  (cable: Cable): Cable => ({
    ...cable,
    returns: cable.returns.map((each, i) => (i === c ? opened(each) : each)),
  });

type Leg = Sizing['cables'][number]['legs'][number];

/** The runs of an output without light, as where nothing comes through its link: LEDs that draw nothing at all are no law to solve. */
const darkened = (
  description: CircuitDescription,
  { drivers }: Sizing,
  output: string,
): CircuitDescription => {
  const its = drivers.drivers.flatMap(({ outputs }) => outputs).find(({ id }) => id === output)!;
  return {
    ...description,
    runs: description.runs.map((run) => (its.runs.includes(run.id) ? dark(run) : run)),
  };
};

/** Every core of every leg open, and every leg with all its cores; a link's plus, or its only minus, leaves its output dark. */
function openLegs(answer: Sizing, wired: WiredJob, description: CircuitDescription): Failure[] {
  return answer.cables.flatMap((cable) =>
    cable.legs.flatMap(({ id }) => {
      const solvedAs = partnerOf(id, wired);
      const { returns } = description.cables.find((each) => each.id === solvedAs)!;
      const pluses = cable.conductors === 'return' ? [] : [openPlus];
      const homes = cable.conductors === 'positive' ? [] : returns.map((_, c) => openReturn(c));
      const cores = [...pluses, ...homes];
      const whole = (each: Cable): Cable => cores.reduce((changed, core) => core(changed), each);
      const isOut = (i: number): boolean =>
        cable.kind === 'link' && (i === 0 || i === cores.length || cores.length === 2);
      return [...cores, whole].map((change, i) => ({
        name: i < cores.length ? `core ${i + 1} of ${id} open` : `${id} open`,
        description: withCable(
          isOut(i) ? darkened(description, answer, cable.output) : description,
          solvedAs,
          change,
        ),
      }));
    }),
  );
}

/** The leg that a fuse of its own lies in: the one made off to its way. */
const legAt = ({ cables }: Sizing, block: string, way: number): Leg =>
  cables
    .filter(({ conductors }) => conductors !== 'return')
    .flatMap(({ legs }) => legs)
    .find(({ from, to }) =>
      [from, to].some((end) => end.kind === 'block' && end.id === block && end.way === way),
    )!;

/** Every fuse blown: an element of its own where several ends draw through it. */
function blownFuses(answer: Sizing, wired: WiredJob, description: CircuitDescription): Failure[] {
  return answer.installation.blocks.flatMap(({ id, ways }) =>
    ways.flatMap(({ number, fuse }): Failure[] => {
      if (!fuse) return [];
      const isShared = description.cables.some((cable) => cable.id === fuse.id);
      const at = isShared ? fuse.id : partnerOf(legAt(answer, id, number).id, wired);
      return [{ name: `${fuse.id} blown`, description: withCable(description, at, openPlus) }];
    }),
  );
}

const deadRuns = (description: CircuitDescription): Failure[] =>
  description.runs.map(({ id }) => ({
    name: `${id} dark`,
    description: {
      ...description,
      runs: description.runs.map((run) => (run.id === id ? dark(run) : run)),
    },
  }));

/** A hair over a limit is the solver's. */
const hair = 1 + 1e-6;

const failing = ({ findings }: Sizing, id: string): boolean =>
  findings.some((finding) => finding.id === id && finding.status === 'fails');

/** Most current of any core of a leg in a solved circuit. */
function most_A(
  leg: Leg,
  conductors: Sizing['cables'][number]['conductors'],
  solved: CircuitSolution,
  wired: WiredJob,
) {
  const { positive, returns } = solved.cables.find(({ id }) => id === partnerOf(leg.id, wired))!;
  return Math.max(
    ...(conductors === 'return' ? [] : [Math.abs(positive.current_A)]),
    ...(conductors === 'positive' ? [] : returns.map(({ current_A }) => Math.abs(current_A))),
  );
}

/** What its protective device lets a cable carry for ever; null where nothing protects it. */
function device_A(cable: Sizing['cables'][number], { products, drivers }: Sizing): number | null {
  if (cable.protectedBy === 'nothing') return null;
  if (cable.protectedBy === 'fuse') return cable.fuse_A;
  const driver = drivers.drivers.find(({ outputs }) => outputs.some(({ id }) => id === cable.output))!;
  return limitOverRating * modelOf(products, driver).current_A;
}

function overloadedCables(answer: Sizing, solved: CircuitSolution, wired: WiredJob): string[] {
  return answer.cables.flatMap((cable) => {
    const amps = Math.max(...cable.legs.map((leg) => most_A(leg, cable.conductors, solved, wired)));
    const limit_A = device_A(cable, answer);
    const figures = `${amps.toFixed(3)} A in ${cable.id}`;
    return [
      ...(limit_A === null && !failing(answer, 'cable-fuse') ? [`nothing protects ${cable.id}`] : []),
      ...(limit_A !== null && amps > limit_A * hair ? [`${figures}, device ${limit_A} A`] : []),
      ...(amps > cable.capacity_A * hair && !failing(answer, 'cable-capacity')
        ? [`${figures}, which may carry ${cable.capacity_A.toFixed(3)} A`]
        : []),
    ];
  });
}

function overloadedFuses(answer: Sizing, solved: CircuitSolution): string[] {
  const fuses = answer.installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  return fuses.flatMap(({ id, rating_A }) => {
    const amps = Math.abs(solved.cables.find((cable) => cable.id === id)?.positive.current_A ?? 0);
    return amps > rating_A * hair ? [`${amps.toFixed(3)} A through ${id}, rated ${rating_A} A`] : [];
  });
}

function overloadedDimmers(answer: Sizing, solved: CircuitSolution, wired: WiredJob): string[] {
  if (failing(answer, 'dimmer-current')) return [];
  return solvedDimmers(wired, solved).flatMap(({ id, current_A, channel_A }) => {
    const amps = Math.max(...current_A);
    return amps > channel_A * hair
      ? [`${amps.toFixed(3)} A in a channel of ${id}, made for ${channel_A} A`]
      : [];
  });
}

function overloadedDrivers(answer: Sizing, solved: CircuitSolution): string[] {
  const said = failing(answer, 'driver-load') || failing(answer, 'driver-current');
  return answer.drivers.drivers.flatMap(({ id, rated_W, outputs }) => {
    const watts = outputs.reduce(
      (sum, output) => sum + solved.sources.find((source) => source.id === output.id)!.out_W,
      0,
    );
    return watts > rated_W * hair && !said ? [`${watts.toFixed(1)} W from ${id}, rated ${rated_W} W`] : [];
  });
}

/** What a single failure of a sized job overloads without a finding that says so, in words. */
export function overloadedByFailures(job: Job): string[] {
  const sized = settledSizing(job, 'quick');
  if (!sized.ok) return [];
  const { sizing, settled } = sized.value;
  const { wired, description, solution } = settled;
  const plan = planCircuit(description);
  if (!plan.ok) return [`no plan: ${plan.issues[0]!.code}`];
  const failures = [
    { name: 'as it is', description },
    ...deadRuns(description),
    ...blownFuses(sizing, wired, description),
    ...openLegs(sizing, wired, description),
  ];
  return failures.flatMap((failure) => {
    // A wall that has gone dark is too far from what it was to be found from there.
    const near = solvePlanned(plan.value, failure.description, solution.departure_V);
    const solved = near.ok ? near : solvePlanned(plan.value, failure.description);
    if (!solved.ok) return [`${failure.name}: ${solved.issues[0]!.code}`];
    return [
      ...overloadedCables(sizing, solved.value, wired),
      ...overloadedFuses(sizing, solved.value),
      ...overloadedDimmers(sizing, solved.value, wired),
      ...overloadedDrivers(sizing, solved.value),
    ].map((what) => `${failure.name}: ${what}`);
  });
}

/** Random walls of every layout with one thing dead at a time: nothing else may be overloaded by it. */
export const failures: Kind<Job> = {
  name: 'failures',
  make: (seed, number) => randomWiring(randomOf(seed, number)),
  read: jobIn,
  broken: (job) => {
    try {
      return overloadedByFailures(job);
    } catch (error) {
      return thrown(error);
    }
  },
};
