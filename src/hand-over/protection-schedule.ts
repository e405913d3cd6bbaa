import type { Cable } from '../answer/cables.ts';
import type { Schedule } from '../answer/schedules.ts';
import { amps, cableEndText } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { servedBy, solvedRun } from './wiring.ts';

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

function fuseRemark({ fuse_A, fuseOpens }: Cable, source_A: number): string {
  if (fuse_A === null)
    return 'No standard fuse lies between Ib and Iz: take a thicker cable or share the load.';
  if (fuseOpens) return '';
  return `The driver limits at about ${amps(source_A)} and may hold this fuse closed on a fault: the cable relies on that limit as well.`;
}

function fuseRow(cable: Cable, input: HandOverInput): ProtectionRow {
  const [served] = servedBy(cable, input);
  const source_A = input.products.driver.current_A;
  return {
    id: cable.id,
    protects: `cable ${cable.id}, ${cable.name}`,
    device: cable.fuse_A === null ? '' : `blade fuse, ${bladeVoltage_V[input.products.driver.output_V]} V`,
    rating_A: cable.fuse_A,
    design_A: cable.current_A,
    capacity_A: cable.capacity_A,
    sourceLimit_A: source_A,
    breaking_A: cable.fuse_A === null ? null : bladeBreaking_A,
    location: `at ${cableEndText(cable.from)}${served ? `, driver ${solvedRun(served.run, input).driver}` : ''}`,
    remark: fuseRemark(cable, source_A),
  };
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
 * Protection schedule: the mains breaker with its driver count, and the fuse of every cable at its supply end.
 * Fuse ratings come with the cables; the remark says where a current-limited driver may never open the fuse.
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
    [breakerRow(input), ...input.cables.map((cable) => fuseRow(cable, input))],
  );
}
