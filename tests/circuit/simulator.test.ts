import type { Simulation } from 'eecircuit-engine';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CircuitDescription } from '../../src/circuit/description.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { alone, cable, channel, randomForest, regulatedLaw, resistorLaw, stripRun } from './examples.ts';
import { simulate, startSimulator } from './netlist.ts';

const driver = { source: 'd' } as const;
const pad = (run: string, cutLine: number) => ({ run, cutLine });

const wall = (
  parts: Omit<CircuitDescription, 'sources' | 'taps'> & Partial<CircuitDescription>,
): CircuitDescription => ({
  sources: [{ id: 'd', set_V: 24 }],
  taps: [],
  ...parts,
});

const regulated = (units: number, changes = {}) =>
  stripRun('a', units, { channels: [channel('white', regulatedLaw)], ...changes });

const colours = ['red', 'green', 'blue', 'white'];

const fourColour = stripRun('a', 60, {
  strip_degC: 45,
  channels: [
    channel('red', { ...resistorLaw, lampForward_V: 2.1, unit_W: 0.2 }, 1, 0.11),
    channel('green', { ...resistorLaw, lampForward_V: 3.1, unit_W: 0.25 }, 0.6, 0.12),
    channel('blue', { ...resistorLaw, lampForward_V: 3.2, unit_W: 0.2 }, 0, 0.13),
    channel('white', { ...regulatedLaw, unit_W: 0.3 }, 0.35, 0.1),
  ],
});

const twoWhite = stripRun('a', 100, {
  channels: [channel('warm', resistorLaw, 1, 0.08), channel('cold', resistorLaw, 0.4, 0.05)],
});

const overLong = stripRun('a', 400, {
  positiveRail_ohm_per_m: 0.25,
  channels: [channel('white', { ...resistorLaw, unit_W: 1.5 }, 1, 0.25)],
});

const darkWall: CircuitDescription = {
  ...alone(stripRun('a', 60), { kind: 'both' }),
  sources: [{ id: 'driver', set_V: 14 }],
};

const trunk = (isRing: boolean): CircuitDescription =>
  wall({
    taps: ['t0', 't1', 't2'].map((id) => ({ id })),
    runs: [0, 1, 2].map((i) => stripRun(`r${i}`, 30 + 10 * i)),
    cables: [
      cable('trunk-0', driver, { tap: 't0' }, { length_m: 4 }),
      cable('trunk-1', { tap: 't0' }, { tap: 't1' }),
      cable('trunk-2', { tap: 't1' }, { tap: 't2' }),
      ...(isRing ? [cable('trunk-3', { tap: 't2' }, driver, { length_m: 5 })] : []),
      ...[0, 1, 2].map((i) => cable(`drop-${i}`, { tap: `t${i}` }, pad(`r${i}`, 0), { length_m: 0.3 })),
    ],
  });

const networks: readonly (readonly [string, CircuitDescription])[] = [
  ['start', alone(stripRun('a', 100), { kind: 'start' })],
  ['finish', alone(stripRun('a', 100), { kind: 'finish' })],
  ['both ends', alone(stripRun('a', 100), { kind: 'both' })],
  ['crossed', alone(stripRun('a', 100), { kind: 'crossed' })],
  ['middle', alone(stripRun('a', 101), { kind: 'between', feedCount: 1 })],
  ['three feeds between units', alone(stripRun('a', 120), { kind: 'between', feedCount: 3 })],
  ['four feeds with the ends', alone(stripRun('a', 200), { kind: 'ends-and-between', feedCount: 4 })],
  ['no cable at all', alone(stripRun('a', 100), { kind: 'start' }, { length_m: 0, contact_ohm: 0 })],
  ['one unit', alone(stripRun('a', 1), { kind: 'both' })],
  [
    'unequal rails, joints, warm',
    alone(
      stripRun('a', 150, {
        positiveRail_ohm_per_m: 0.03,
        strip_degC: 60,
        channels: [channel('white', resistorLaw, 1, 0.12)],
        joints: [
          { cutLine: 50, contact_ohm: 0.02 },
          { cutLine: 100, contact_ohm: 0.005 },
        ],
      }),
      { kind: 'crossed' },
    ),
  ],
  [
    'a feed at a joint',
    alone(stripRun('a', 60, { joints: [{ cutLine: 30, contact_ohm: 0.05 }] }), {
      kind: 'between',
      feedCount: 1,
    }),
  ],
  ['regulated, in regulation', alone(regulated(60), { kind: 'start' })],
  ['regulated, drops out at the far end', alone(regulated(260), { kind: 'start' })],
  ['regulated, crossed and over-long', alone(regulated(500), { kind: 'crossed' })],
  [
    'dimmed to a tenth',
    alone(stripRun('a', 100, { channels: [channel('white', resistorLaw, 0.1)] }), { kind: 'start' }),
  ],
  ['20 m over-long', alone(stripRun('a', 400), { kind: 'start' })],
  ['20 m over-long and heavy, far lamps hardly conduct', alone(overLong, { kind: 'start' })],
  ['dark: driver set below what the lamps need', darkWall],
  [
    '40 m of 20 W/m from thin leads',
    alone(
      stripRun('a', 800, { channels: [channel('white', { ...resistorLaw, unit_W: 1 })] }),
      { kind: 'start' },
      { length_m: 30 },
    ),
  ],
  ['two whites', alone(twoWhite, { kind: 'both' })],
  ['two whites, crossed', alone(twoWhite, { kind: 'crossed' })],
  ['four colours', alone(fourColour, { kind: 'start' })],
  [
    'radial wall',
    wall({
      runs: [0, 1, 2, 3].map((i) => stripRun(`r${i}`, 20 + 15 * i)),
      cables: [0, 1, 2, 3].map((i) =>
        cable(`c${i}`, driver, pad(`r${i}`, i % 2 === 0 ? 0 : 20 + 15 * i), { length_m: 1 + 2 * i }),
      ),
    }),
  ],
  ['trunk with taps', trunk(false)],
  ['ring', trunk(true)],
  [
    'chained from run to run',
    wall({
      runs: ['a', 'b', 'c'].map((id) => stripRun(id, 40)),
      cables: [
        cable('in', driver, pad('a', 0)),
        cable('ab', pad('a', 40), pad('b', 0)),
        cable('bc', pad('b', 40), pad('c', 40)),
      ],
    }),
  ],
  [
    'two drivers on one run, unequal volts and rails',
    {
      sources: [
        { id: 'd', set_V: 24 },
        { id: 'e', set_V: 23.9 },
      ],
      taps: [],
      runs: [stripRun('a', 160, { positiveRail_ohm_per_m: 0.04 })],
      cables: [
        cable('left', driver, pad('a', 0)),
        cable('right', { source: 'e' }, pad('a', 160), { length_m: 9 }),
      ],
    },
  ],
  [
    'four colours through a tap',
    wall({
      taps: [{ id: 't' }],
      runs: [fourColour, { ...fourColour, id: 'b', unitCount: 20 }],
      cables: [
        cable('trunk', driver, { tap: 't' }, {}, colours),
        cable('one', { tap: 't' }, pad('a', 0), {}, colours),
        cable('two', { tap: 't' }, pad('b', 20), {}, colours),
      ],
    }),
  ],
  ['random forest of 30 runs', randomForest(20)],
  ['random forest of 30 runs, again', randomForest(5)],
];

describe('against a general circuit simulator', () => {
  let simulator: Simulation;
  beforeAll(async () => {
    simulator = await startSimulator();
  });

  it('has far lamps that hardly conduct in the over-long run', () => {
    const outcome = solveCircuit(alone(overLong, { kind: 'start' }));
    if (!outcome.ok) throw new Error('no answer');
    const { unit_A } = outcome.value.runs[0]!.channels[0]!;
    expect(unit_A.at(-1)! / unit_A[0]!).toBeLessThan(0.02);
  });

  it.each(networks)('%s: 0.1 mV and 1e-6 of current at every unit', async (_name, description) => {
    const outcome = solveCircuit(description);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    const reference = await simulate(simulator, description);
    let [worst_V, worst_ratio] = [0, 0];
    for (const run of outcome.value.runs) {
      for (const one of run.channels) {
        const expected = reference.channels.get(`${run.id}/${one.id}`)!;
        one.unit_V.forEach((volts, u) => {
          worst_V = Math.max(worst_V, Math.abs(volts - expected.unit_V[u]!));
          const amps = expected.unit_A[u]!;
          if (amps !== 0)
            worst_ratio = Math.max(worst_ratio, Math.abs(one.unit_A[u]! - amps) / Math.abs(amps));
        });
      }
    }
    expect(worst_V).toBeLessThan(1e-4);
    expect(worst_ratio).toBeLessThan(1e-6);
    for (const source of outcome.value.sources) {
      const amps = reference.source_A.get(source.id)!;
      expect(Math.abs(source.current_A - amps)).toBeLessThan(1e-6 * Math.abs(amps) + 1e-9);
    }
  });
});
