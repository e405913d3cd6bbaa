import { describe, expect, it } from 'vitest';
import type { CableEnd } from '../../src/answer/cables.ts';
import { demoJobs, type Job, type Sizing, sizeJob } from '../../src/index.ts';

/** Currents that come to each terminal, by its name: of a core at both of its ends, and of what a driver or a strip takes. */
class Terminals {
  readonly amps = new Map<string, number[]>();

  add(name: string, current_A: number): void {
    this.amps.set(name, [...(this.amps.get(name) ?? []), current_A]);
  }
}

/** A block is one bar for each rail, its ways included; a run one node for each rail from end to end. */
const nameOf = (end: CableEnd): string => (end.kind === 'pad' ? `run ${end.run}` : `${end.kind} ${end.id}`);

/** Every return of an output, a dimmer or a block comes home there: the minus of the whole device. */
const railAt = (end: CableEnd, rail: string): string =>
  rail !== 'plus' && ['output', 'dimmer', 'block'].includes(end.kind) ? 'minus' : rail;

function addCables({ cables }: Sizing, terminals: Terminals): void {
  for (const { cores, legs } of cables)
    for (const leg of legs)
      cores.forEach(({ rail, channel }, core) => {
        const name = rail === 'plus' ? 'plus' : (channel ?? 'minus');
        // A plus goes from the first end to the last, a minus home from the last to the first.
        const [at, to] = rail === 'plus' ? [leg.from, leg.to] : [leg.to, leg.from];
        terminals.add(`${nameOf(at)} ${railAt(at, name)}`, -leg.cores_A[core]!);
        terminals.add(`${nameOf(to)} ${railAt(to, name)}`, leg.cores_A[core]!);
      });
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

function addStrips({ circuit }: Sizing, terminals: Terminals): void {
  for (const { run, unit_A, channels } of circuit.runs) {
    terminals.add(`run ${run} plus`, -sum(unit_A));
    if (channels.length === 0) terminals.add(`run ${run} minus`, sum(unit_A));
    for (const channel of channels) terminals.add(`run ${run} ${channel.name}`, sum(channel.unit_A));
  }
}

/** What a dimmer itself lives on is drawn beside its runs. */
function addDrivers({ drivers, installation, products, set_V }: Sizing, terminals: Terminals): void {
  for (const { outputs } of drivers.drivers)
    for (const { id, watts } of outputs) {
      const isDimmed = installation.dimmers.some(({ output }) => output === id);
      const out_W = watts - (isDimmed ? products.dimmer!.ownLoss_W : 0);
      terminals.add(`output ${id} plus`, out_W / set_V);
      terminals.add(`output ${id} minus`, -out_W / set_V);
    }
}

function terminalsOf(answer: Sizing): Terminals {
  const terminals = new Terminals();
  addCables(answer, terminals);
  addStrips(answer, terminals);
  addDrivers(answer, terminals);
  return terminals;
}

function sized(job: Job): Sizing {
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

const layouts = ['radial', 'trunk', 'ring', 'run to run'] as const;
const feeds = ['start', 'both', 'crossed'] as const;

/** Every demo job in every layout and, where runs need not be fed at one end, in several arrangements. */
const walls = demoJobs.flatMap(({ id, job }) =>
  layouts.flatMap((layout) =>
    feeds
      .filter((arrangement) => layout !== 'run to run' || arrangement === 'start')
      .map((arrangement): [string, string, string, Job] => [
        id,
        layout,
        arrangement,
        {
          ...job,
          cables: { ...job.cables, layout },
          feeds: { ...job.feeds, arrangement },
          // Given, because thirty runs of the foyer in a row on 0.75 mm² do not settle by themselves.
          strip: { ...job.strip, strip_degC: layout === 'run to run' ? 60 : null },
        },
      ]),
  ),
);

/** Four channels over a dimmer and a block, so that every kind of device has a terminal. */
function coloured(layout: Job['cables']['layout']): Job {
  const { job } = demoJobs[1]!;
  return {
    ...job,
    strip: { ...job.strip, entry: '24V-4x4.8W-four-channel' },
    drivers: { ...job.drivers, entry: '24V-100W' },
    cables: { ...job.cables, layout },
    dimming: {
      ...job.dimming,
      levels: [0.2, 0.2, 0.2, 0.2],
      control: 'dimmer',
      dimmer: { entry: '4x5A-dali', data: {} },
    },
  };
}

describe('the currents at every device and every run, from the legs and cores of the answer', () => {
  const expectBalance = (answer: Sizing): Map<string, number[]> => {
    const { amps } = terminalsOf(answer);
    const off = [...amps].filter(([, currents]) => !(Math.abs(sum(currents)) < 1e-6));
    expect(off.map(([name, currents]) => `${name}: ${sum(currents)} A`)).toEqual([]);
    return amps;
  };

  it.each(walls)(
    '%s, %s, fed %s: add up to nothing at every terminal, to 1e-6 A',
    (_id, layout, _feed, job) => {
      const answer = sized(job);
      const amps = expectBalance(answer);
      for (const { id } of answer.installation.blocks) expect(amps.has(`block ${id} plus`)).toBe(true);
      const names = [...amps.keys()];
      for (const { id } of answer.installation.taps)
        expect(names.some((name) => name.startsWith(`tap ${id} `))).toBe(true);
      if (layout === 'trunk' || layout === 'ring') expect(answer.installation.taps.length).toBeGreaterThan(0);
    },
  );

  it.each(layouts)('four channels through a dimmer, %s: add up channel by channel', (layout) => {
    const answer = sized(coloured(layout));
    const amps = expectBalance(answer);
    const dimmers = answer.cables.flatMap(({ to }) => (to.kind === 'dimmer' ? [to.id] : []));
    expect(dimmers.length).toBeGreaterThan(0);
    for (const id of dimmers) expect(amps.get(`dimmer ${id} minus`)!.length).toBeGreaterThan(1);
    // An output has two terminals: what it hands on goes by two cores, to a device where the channels part.
    for (const { kind, from, cores } of answer.cables)
      if (kind === 'link' && from.kind === 'output')
        expect(cores.map(({ from }) => from.split(' ').at(-1))).toEqual(['plus', 'minus']);
  });

  it('has the fuse of a way carry what leaves by it, and no more than its output gives', () => {
    const answer = sized(demoJobs.find(({ id }) => id === 'foyer-wall')!.job);
    const fuses = answer.installation.blocks.flatMap((block) =>
      block.ways.flatMap(({ fuse, cables }) => (fuse ? [{ fuse, cables }] : [])),
    );
    for (const { fuse, cables } of fuses) {
      const behind = answer.cables.filter(({ id }) => cables.includes(id));
      expect(fuse.current_A).toBeCloseTo(sum(behind.map(({ legs }) => legs[0]!.cores_A[0]!)), 9);
      expect(fuse.loss_W).toBeCloseTo((fuse.current_A ** 2 * fuse.resistance_mohm) / 1000, 9);
    }
  });
});
