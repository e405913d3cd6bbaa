import type { Block, BlockWay } from '../answer/installation.ts';
import type { Schedule } from '../answer/schedules.ts';
import { amps } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { listedCables } from './wiring.ts';

type Fuse = NonNullable<BlockWay['fuse']>;

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

function fuseRemark(fuse: Fuse, fuseOpens: boolean, { products: { driver } }: HandOverInput): string {
  const voltage =
    fuse.rated_V === null
      ? [`None of this kind is made for ${driver.output_V} V with a tenth to spare: choose another kind.`]
      : [];
  const held = fuseOpens
    ? []
    : [
        `The driver limits at about ${amps(driver.current_A)} and may hold this fuse closed on a fault: the cable relies on that limit as well.`,
      ];
  return [...voltage, ...held].join(' ');
}

/** Kind, standard and volts of a fuse, as it is ordered. */
export function fuseText({ name, standard, rated_V }: Fuse): string {
  return `${name}, ${standard}${rated_V === null ? '' : `, ${rated_V} V`}`;
}

const cablesText = (ids: readonly string[], input: HandOverInput): string =>
  `${ids.length === 1 ? 'cable' : 'cables'} ${listedCables(ids, input)}`;

function fuseRow(block: Block, way: BlockWay, fuse: Fuse, input: HandOverInput): ProtectionRow {
  const behind = input.cables.filter((cable) => cable.fuse === fuse.id);
  const fuseOpens = behind.every((cable) => cable.fuseOpens);
  return {
    id: fuse.id,
    protects: cablesText(
      behind.map(({ id }) => id),
      input,
    ),
    device: fuseText(fuse),
    rating_A: fuse.rating_A,
    design_A: fuse.design_A,
    capacity_A: fuse.least_A,
    sourceLimit_A: input.products.driver.current_A,
    breaking_A: fuse.breaking_A,
    location: `${block.id} way ${way.number}, in the plus${block.standing ? `, ${block.standing.place}` : ''}`,
    remark: fuseRemark(fuse, fuseOpens, input),
  };
}

const fuseRows = (input: HandOverInput): ProtectionRow[] =>
  input.installation.blocks.flatMap((block) =>
    block.ways.flatMap((way) => (way.fuse ? [fuseRow(block, way, way.fuse, input)] : [])),
  );

/** What the electrician has to see to before each kind of fuse of the job is used. */
function kindNotes({ installation }: HandOverInput): string[] {
  const fuses = installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  return [...new Set(fuses.map(({ remark }) => remark))];
}

const unfused = {
  driver: {
    device: 'limit of the driver',
    location: 'in the driver',
    remark: (driver_A: number) =>
      `At 1.5 times its rating, ${amps(1.5 * driver_A)}, the driver has limited, and every cable named may carry that.`,
  },
  nothing: {
    device: 'none',
    location: '',
    remark: () =>
      'No fuse lies between what each carries and may carry: take a thicker cable, lay fewer together, or share the load.',
  },
} as const;

/** Cables without a fuse: held by the limit of their driver, output by output, or by nothing. */
function bareRows(input: HandOverInput, by: 'driver' | 'nothing'): ProtectionRow[] {
  const bare = input.cables.filter(({ protectedBy }) => protectedBy === by);
  const driver_A = input.products.driver.current_A;
  return [...new Set(bare.map(({ output }) => output))].map((output) => {
    const cables = bare.filter((cable) => cable.output === output);
    return {
      id: output,
      protects: cablesText(
        cables.map(({ id }) => id),
        input,
      ),
      device: unfused[by].device,
      rating_A: null,
      design_A: Math.max(...cables.map(({ design_A }) => design_A)),
      capacity_A: Math.min(...cables.map(({ capacity_A }) => capacity_A)),
      sourceLimit_A: driver_A,
      breaking_A: null,
      location: unfused[by].location,
      remark: unfused[by].remark(driver_A),
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
 * Protection schedule: the mains breaker with its driver count, every fuse with the cables behind it, the cables that the
 * limit of their driver holds, and those that nothing protects. The remark says where a current-limited driver may never open the fuse.
 */
export function protectionSchedule(input: HandOverInput): Schedule {
  return tabulate<ProtectionRow>(
    { id: 'protection', title: 'Protection schedule', notes: kindNotes(input) },
    [
      words('ref', 'Ref', (row) => row.id),
      words('protects', 'Protects', (row) => row.protects),
      words('device', 'Device', (row) => row.device),
      figures({ key: 'rating', label: 'In', unit: 'A', digits: 2 }, (row) => row.rating_A),
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
