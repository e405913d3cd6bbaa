import type { Simulation } from 'eecircuit-engine';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';
import { startSimulator } from '../circuit/netlist.ts';
import { simulateWall } from './answer-netlist.ts';

/** A panel of 1.4 x 1.6 m with four upright slots, 24 V strip of 9.6 W/m, one driver that carries it all. */
function wall(change: (job: Job) => void = () => {}): Job {
  const job = newJob();
  job.panel = { width_mm: 1400, height_mm: 1600 };
  job.slots = {
    ...{ from: 'generator', axis: 'upright', width_mm: 20 },
    ...{ left_mm: 100, right_mm: 100, foot_mm: 100, head_mm: 100 },
    spacing: { by: 'count', count: 4 },
  };
  job.strip.entry = '24V-9.6W';
  job.drivers.entry = '24V-100W';
  change(job);
  return job;
}

const clipOn = (job: Job): void => {
  job.feeds.terminal_mohm = 50;
  job.feeds.joint_mohm = 50;
};

const dimmedBy =
  (entry: string) =>
  (job: Job): void => {
    job.dimming.control = 'dimmer';
    job.dimming.dimmer = { entry, data: {} };
  };

const fourColours = (job: Job): void => {
  job.strip.entry = '24V-4x4.8W-four-channel';
  job.drivers.entry = '24V-150W';
  job.dimming.levels = [0.5, 0.5, 0.5, 0.5];
};

const lamps = { lumens_per_m: 100, cct_K: null, lampsInSeries: 6 };

const threeColours = (job: Job): void => {
  job.strip.data.channels = [
    { ...lamps, name: 'red', watts_per_m: 3, lampForward_V: 2.1 },
    { ...lamps, name: 'green', watts_per_m: 4, lampForward_V: 3.1 },
    { ...lamps, name: 'blue', watts_per_m: 3.5, lampForward_V: 3.2 },
  ];
  job.dimming.levels = [0.5, 0.5, 0.5];
};

const twoWhites = (job: Job): void => {
  job.strip.entry = '24V-2x9.6W-two-white';
  job.drivers.entry = '24V-200W';
  job.dimming.levels = [0.5, 0.3];
};

const fusesOf = ({ installation }: Sizing) =>
  installation.blocks.flatMap(({ ways }) => ways).filter(({ fuse }) => fuse);
const kinds = ({ cables }: Sizing): string => [...new Set(cables.map(({ kind }) => kind))].sort().join(', ');

/** A wall, and what it has to have in it for the name to be true. */
type Wall = readonly [name: string, job: Job, has: (answer: Sizing) => boolean];

const walls: readonly Wall[] = [
  ['fed at the start', wall(), ({ circuit }) => circuit.runs.every(({ pads }) => pads[0]!.cutLine === 0)],
  [
    'fed at both ends, by clips',
    wall((job) => {
      job.feeds.arrangement = 'both';
      clipOn(job);
    }),
    ({ circuit }) => circuit.runs.every(({ pads }) => pads.length === 2),
  ],
  [
    'fed at chosen cut lines, one slot otherwise',
    wall((job) => {
      job.feeds.arrangement = 'chosen';
      job.feeds.cutLines = [3, 11];
      job.feeds.exceptions = [{ slot: 2, arrangement: 'finish', betweenCount: 1, cutLines: [] }];
    }),
    ({ circuit }) => circuit.runs[0]!.pads.map(({ cutLine }) => cutLine).join() === '3,11',
  ],
  [
    'crossed',
    wall((job) => {
      job.feeds.arrangement = 'crossed';
      clipOn(job);
    }),
    ({ cables }) => cables.some(({ conductors }) => conductors === 'return'),
  ],
  [
    'crossed, from a trunk',
    wall((job) => {
      job.feeds.arrangement = 'crossed';
      job.cables.layout = 'trunk';
      clipOn(job);
    }),
    ({ cables }) => cables.some(({ kind, conductors }) => kind === 'branch' && conductors === 'return'),
  ],
  [
    'a thick trunk to both sides with thin branches',
    wall((job) => {
      job.cables.layout = 'trunk';
      job.cables.entry = '0.75mm2';
      job.cables.trunk = { entry: '4mm2', data: {} };
      job.drivers.places[0]!.x_mm = -200;
      clipOn(job);
    }),
    ({ cables }) =>
      cables.filter(({ kind }) => kind === 'trunk').length === 2 &&
      cables.every(({ kind, area_mm2 }) =>
        kind === 'trunk' ? area_mm2 === 4 : kind !== 'branch' || area_mm2 === 0.75,
      ),
  ],
  [
    'a ring with unequal sides',
    wall((job) => {
      job.cables.layout = 'ring';
      job.cables.trunk = { entry: '2.5mm2', data: {} };
      clipOn(job);
    }),
    ({ cables }) => cables.some(({ kind, legs }) => kind === 'trunk' && legs.at(-1)!.cores_A[0]! < 0),
  ],
  [
    'from run to run',
    wall((job) => {
      job.cables.layout = 'run to run';
      clipOn(job);
    }),
    (answer) => kinds(answer).includes('run to run'),
  ],
  [
    'two channels, fed at both ends',
    wall((job) => {
      twoWhites(job);
      job.feeds.arrangement = 'both';
    }),
    ({ circuit }) => circuit.runs[0]!.channels.length === 2,
  ],
  [
    'three channels from a trunk',
    wall((job) => {
      threeColours(job);
      job.cables.layout = 'trunk';
    }),
    ({ circuit }) => circuit.runs[0]!.channels.length === 3,
  ],
  [
    'four channels in a ring',
    wall((job) => {
      fourColours(job);
      job.cables.layout = 'ring';
    }),
    ({ circuit }) => circuit.runs[0]!.channels.length === 4,
  ],
  [
    'four channels from run to run, through a dimmer',
    wall((job) => {
      fourColours(job);
      job.cables.layout = 'run to run';
      dimmedBy('4x5A-dali')(job);
    }),
    ({ cables }) => cables.some(({ to }) => to.kind === 'dimmer'),
  ],
  [
    'a regulated strip that drops out',
    wall((job) => {
      job.strip.entry = '24V-9.6W-regulated';
      job.drivers.set_V = 22;
      job.cables.layout = 'run to run';
      job.cables.entry = '0.5mm2';
      clipOn(job);
    }),
    ({ products }) => products.strip.law === 'regulated',
  ],
  [
    'a fuse to every cable',
    wall((job) => {
      job.cables.fuses = 'blade';
      job.drivers.entry = '24V-320W';
      job.strip.entry = '24V-14.4W';
      job.cables.entry = '0.75mm2';
      job.cables.grouped = 1;
      job.panel.height_mm = 2400;
    }),
    (answer) => fusesOf(answer).length > 3 && fusesOf(answer).every(({ cables }) => cables.length === 1),
  ],
  [
    'a fuse for several cables',
    wall((job) => {
      job.drivers.entry = '24V-320W';
      job.cables.entry = '0.5mm2';
      job.strip.entry = '24V-2.4W';
    }),
    (answer) => fusesOf(answer).some(({ cables }) => cables.length > 1),
  ],
  [
    'joints in every run',
    wall((job) => {
      job.strip.data.reel_mm = 600;
      job.feeds.arrangement = 'both';
      clipOn(job);
    }),
    ({ setOut }) => setOut.runs.every(({ jointLines }) => jointLines.length > 0),
  ],
  [
    'a dimmer before a block',
    wall(dimmedBy('1x10A-1-10-v')),
    ({ cables, installation }) =>
      cables.filter(({ kind }) => kind === 'link').length === 2 && installation.blocks.length === 1,
  ],
  [
    'several drivers, dimmed steadily to their working level',
    wall((job) => {
      job.drivers.entry = '24V-40W';
      job.dimming.sizeFor = 'levels';
      job.dimming.pwm_Hz = null;
      job.dimming.levels = [0.6];
      job.strip.entry = '24V-14.4W';
    }),
    ({ drivers, circuit }) => drivers.drivers.length > 1 && circuit.level === 'working',
  ],
];

const worst = (given: readonly number[], expected: readonly number[]): number => {
  expect(given).toHaveLength(expected.length);
  return Math.max(0, ...given.map((value, i) => Math.abs(value - expected[i]!)));
};

/** Worst differences of an answer from the simulated wall: volts, and amps and watts beside the largest of their kind. */
async function differences(simulator: Simulation, job: Job, answer: Sizing) {
  const told = await simulateWall(simulator, job, answer);
  const [volts, amps, watts]: [number[], number[], number[]] = [[], [], []];
  for (const run of answer.circuit.runs) {
    const channels = told.channels.get(run.run)!;
    const own = run.channels.length > 0 ? run.channels : [run];
    expect(own).toHaveLength(channels.length);
    own.forEach(({ unit_V, unit_A }, c) => {
      volts.push(worst(unit_V, channels[c]!.unit_V));
      amps.push(worst(unit_A, channels[c]!.unit_A) / Math.max(...channels[c]!.unit_A));
    });
    for (const { cutLine, plus_V, minus_V } of run.pads)
      volts.push(worst([plus_V, ...minus_V], told.pads.get(`${run.run}/${cutLine}`)!));
  }
  const legs = answer.cables.flatMap((cable) => cable.legs);
  const most_A = Math.max(...[...told.cores.values()].flat());
  for (const leg of legs) amps.push(worst(leg.cores_A, told.cores.get(leg.id)!) / most_A);
  const fuses = answer.installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  for (const fuse of fuses) amps.push(worst([fuse.current_A], [told.fuse_A.get(fuse.id)!]) / most_A);
  const most_W = Math.max(...told.contacts_W.values());
  for (const leg of legs) watts.push(worst([leg.contacts_W], [told.contacts_W.get(leg.id)!]) / most_W);
  return { volts: Math.max(...volts), amps: Math.max(...amps), watts: Math.max(...watts) };
}

describe('walls entered as jobs, against a general circuit simulator told of the answer alone', () => {
  let simulator: Simulation;
  beforeAll(async () => {
    simulator = await startSimulator();
  });

  it.each(walls)('%s: 0.1 mV at every unit and pad, 1e-6 of every current', async (_name, job, has) => {
    const answer = sizeJob(job);
    if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
    expect(has(answer.value)).toBe(true);
    const worst = await differences(simulator, job, answer.value);
    expect(worst.volts).toBeLessThan(1e-4);
    expect(worst.amps).toBeLessThan(1e-6);
    expect(worst.watts).toBeLessThan(2e-6);
  });
});
