import type { Block, BlockWay } from '../answer/installation.ts';
import type { Schedule } from '../answer/schedules.ts';
import { amps, naming } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { listed } from './wiring.ts';

interface ProtectionRow {
  readonly id: string;
  readonly protects: string;
  readonly device: string;
  readonly rating_A: number | null;
  readonly design_A: number;
  readonly capacity_A: number | null;
  readonly sourceLimit_A: number | null;
  readonly breaking_A: number | null;
  readonly location: string;
  readonly remark: string;
}

/** Breaking capacity of blade fuses, A: ISO 8820-3:2015 (secondary). */
const bladeBreaking_A = 1000;
/** Voltage rating of the blade fuse for each driver voltage with a tenth to spare, V: ISO 8820-3:2015 (secondary). */
const bladeVoltage_V = { 12: 32, 24: 32, 48: 58 } as const;

function fuseRemark(fuseOpens: boolean, source_A: number): string {
  return fuseOpens
    ? ''
    : `The driver limits at about ${amps(source_A)} and may hold this fuse closed on a fault: the cable relies on that limit as well.`;
}

function fuseRow(
  block: Block,
  way: BlockWay,
  fuse: NonNullable<BlockWay['fuse']>,
  input: HandOverInput,
): ProtectionRow {
  const source_A = input.products.driver.current_A;
  const fuseOpens = input.cables.find(({ id }) => id === way.cables[0])!.fuseOpens;
  return {
    id: fuse.id,
    protects: naming('cable', way.cables, way.cables.length),
    device: `blade fuse, ${bladeVoltage_V[input.products.driver.output_V]} V`,
    rating_A: fuse.rating_A,
    design_A: fuse.design_A,
    capacity_A: fuse.least_A,
    sourceLimit_A: source_A,
    breaking_A: bladeBreaking_A,
    location: `${block.id} way ${way.number}, in the plus${block.standing ? `, ${block.standing.place}` : ''}`,
    remark: fuseRemark(fuseOpens, source_A),
  };
}

const fuseRows = (input: HandOverInput): ProtectionRow[] =>
  input.installation.blocks.flatMap((block) =>
    block.ways.flatMap((way) => (way.fuse ? [fuseRow(block, way, way.fuse, input)] : [])),
  );

/** Cables without a fuse of their own: held by the limit of their driver, output by output, or by nothing. */
function bareRows(input: HandOverInput, by: 'driver' | 'nothing'): ProtectionRow[] {
  const bare = input.cables.filter(({ protectedBy }) => protectedBy === by);
  const outputs = [...new Set(bare.map(({ output }) => output))];
  return outputs.map((output) => {
    const cables = bare.filter((cable) => cable.output === output);
    const ids = cables.map(({ id }) => id);
    return {
      id: output,
      protects: `cables ${listed(
        ids,
        input.cables.map(({ id }) => id),
      )}`,
      device: by === 'driver' ? 'limit of the driver' : '',
      rating_A: null,
      design_A: Math.max(...cables.map(({ design_A }) => design_A)),
      capacity_A: Math.min(...cables.map(({ capacity_A }) => capacity_A)),
      sourceLimit_A: input.products.driver.current_A,
      breaking_A: null,
      location: by === 'driver' ? 'in the driver' : '',
      remark:
        by === 'driver'
          ? 'The driver cannot give more than each of these may carry, 1.5 times its rating taken.'
          : 'No fuse lies between what each carries and may carry: take a thicker cable, lay fewer together, or share the load.',
    };
  });
}

function breakerRow(input: HandOverInput): ProtectionRow {
  const { drivers, job } = input;
  const { breaker } = drivers;
  const count = `Drivers: ${drivers.drivers.length}, at most ${breaker.mostDrivers} on one ${breaker.name}, breakers needed: ${breaker.breakerCount}`;
  return {
    id: 'mains',
    protects: `mains side of all drivers, ${job.site.mains_V} V`,
    device: `circuit breaker ${breaker.name} to IEC 60898-1`,
    rating_A: job.site.breaker_A,
    design_A: drivers.input_A,
    capacity_A: null,
    sourceLimit_A: null,
    breaking_A: null,
    location: 'chosen and placed by the licensed electrician',
    remark: `${count}: ${breaker.formula}.`,
  };
}

/**
 * Protection schedule: the mains breaker with its driver count, every fuse with the cables behind it, and the cables that
 * the limit of their driver holds. The remark says where a current-limited driver may never open the fuse.
 */
export function protectionSchedule(input: HandOverInput): Schedule {
  return tabulate<ProtectionRow>(
    { id: 'protection', title: 'Protection schedule' },
    [
      words('ref', 'Ref', (row) => row.id),
      words('protects', 'Protects', (row) => row.protects),
      words('device', 'Device', (row) => row.device),
      figures({ key: 'rating', label: 'In', unit: 'A', digits: 1 }, (row) => row.rating_A),
      figures({ key: 'design', label: 'Ib', unit: 'A', digits: 2 }, (row) => row.design_A),
      figures({ key: 'capacity', label: 'Iz', unit: 'A', digits: 1 }, (row) => row.capacity_A),
      figures({ key: 'source', label: 'Source limit', unit: 'A', digits: 2 }, (row) => row.sourceLimit_A),
      figures({ key: 'breaking', label: 'Breaking capacity', unit: 'A', digits: 0 }, (row) => row.breaking_A),
      words('location', 'Where', (row) => row.location),
      words('remark', 'Remark', (row) => row.remark),
    ],
    [breakerRow(input), ...fuseRows(input), ...bareRows(input, 'driver'), ...bareRows(input, 'nothing')],
  );
}
