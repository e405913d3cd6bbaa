import type { BreakerLoad } from '../answer/drivers.ts';
import type { Block, BlockWay } from '../answer/installation.ts';
import type { Schedule } from '../answer/schedules.ts';
import { breakerStandardOf } from '../clauses.ts';
import { limitOverRating } from '../constants.ts';
import type { DriverData } from '../job/driver.ts';
import { amps, counted } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { decimalsOf, figures, tabulate, words } from './table.ts';
import { driverOfOutput, listed, listedCables } from './wiring.ts';

type Fuse = NonNullable<BlockWay['fuse']>;

interface ProtectionRow {
  readonly id: string;
  readonly protects: string;
  /** Null to be written in by hand, as where it stands. */
  readonly device: string | null;
  readonly rating_A: number | null;
  readonly design_A: number | null;
  readonly capacity_A: number | null;
  readonly sourceLimit_A: number | null;
  readonly breaking_A: number | null;
  readonly location: string | null;
  readonly remark: string;
}

function fuseRemark(fuse: Fuse, fuseOpens: boolean, driver: DriverData): string {
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
  const driver = driverOfOutput(block.output, input);
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
    sourceLimit_A: driver.current_A,
    breaking_A: fuse.breaking_A,
    location: `${block.id} way ${way.number}, in the plus${block.standing ? `, ${block.standing.place}` : ''}`,
    remark: fuseRemark(fuse, fuseOpens, driver),
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
      `At ${limitOverRating} times its rating, ${amps(limitOverRating * driver_A)}, the driver has limited, and every cable named may carry that.`,
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
  return [...new Set(bare.map(({ output }) => output))].map((output) => {
    const cables = bare.filter((cable) => cable.output === output);
    const driver_A = driverOfOutput(output, input).current_A;
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

const chosenByElectrician = 'chosen and placed by the licensed electrician';

/** A row of the mains side, of which the electrician decides what this tool cannot. */
const mainsRow = (row: Pick<ProtectionRow, 'id' | 'protects' | 'remark'>): ProtectionRow => ({
  ...row,
  ...{ device: null, rating_A: null, design_A: null, capacity_A: null, sourceLimit_A: null },
  ...{ breaking_A: null, location: null },
});

function breakerRow(load: BreakerLoad, { drivers, job }: HandOverInput): ProtectionRow {
  const { name, models, most, rating_A } = drivers.breaker;
  const all = drivers.drivers.map(({ id }) => id);
  const here = new Set(drivers.drivers.filter(({ id }) => load.drivers.includes(id)).map((d) => d.model));
  const whose = models.every(({ model, isInrushPrinted }) => isInrushPrinted || !here.has(model))
    ? 'inrush as entered from the maker’s sheet'
    : 'inrush typical, not the maker’s';
  return {
    ...mainsRow({
      id: load.id,
      protects: `mains side of ${load.drivers.length === 1 ? 'driver' : 'drivers'} ${listed(load.drivers, all)}, ${job.site.mains_V} V`,
      remark: `${counted(load.drivers.length, 'driver')} of at most ${models.length === 1 ? models[0]!.mostDrivers : `${most}, ${Math.round(100 * load.share)} % of that`}; ${load.drivers.length === 1 ? 'its peak on switching on is' : 'their peaks on switching on add up to'} about ${Math.round(load.inrush_A)} A (${whose}).`,
    }),
    device: `circuit-breaker ${name} ${breakerStandardOf(job.site.rules)}`,
    rating_A,
    design_A: load.input_A,
    location: chosenByElectrician,
  };
}

/** Breaker by breaker; where not even one driver may start on one, a row that says so. */
function breakerRows(input: HandOverInput): ProtectionRow[] {
  const { breaker, drivers } = input.drivers;
  if (breaker.loads.length > 0 || drivers.length === 0)
    return breaker.loads.map((load) => breakerRow(load, input));
  const remark = `Not even one driver may start on one ${breaker.name} by these figures: choose another breaker, or fit an inrush limiter.`;
  return [mainsRow({ id: 'M1', protects: 'mains side of all drivers', remark })];
}

/** What only the electrician can name, as boxes to write in. */
const electriciansRows: readonly ProtectionRow[] = [
  { id: 'isolator', protects: 'those who work on the drivers: cuts all of them off the mains' },
  { id: 'RCD', protects: 'against shock on the mains side: its current and its type' },
  {
    id: 'earth',
    protects: 'drivers and metal that need a protective earth: its conductor and where it joins',
  },
].map((row) => mainsRow({ ...row, remark: 'Written in by the licensed electrician.' }));

/** How many drivers a breaker holds, and by whose figures. */
const breakerNotes = ({ drivers: { breaker } }: HandOverInput): string[] =>
  breaker.models.map(({ mostDrivers, formula, name }) => {
    const of = breaker.models.length === 1 ? '' : ` of the ${name}`;
    return `At most ${counted(mostDrivers, 'driver')}${of} on one ${breaker.name}: ${formula}.`;
  });

/** As many decimals as it takes to write every rating as it is marked: 16 A, 1.25 A. */
const ratingDigits = (rows: readonly ProtectionRow[]): number =>
  decimalsOf(rows.map(({ rating_A }) => rating_A));

/**
 * Protection schedule: the mains side breaker by breaker with boxes for what the electrician names, every fuse with the
 * cables behind it, the cables that the limit of their driver holds, and those that nothing protects. The remark says where
 * a current-limited driver may never open the fuse.
 */
export function protectionSchedule(input: HandOverInput): Schedule {
  const rows = [
    ...breakerRows(input),
    ...electriciansRows,
    ...fuseRows(input),
    ...bareRows(input, 'driver'),
    ...bareRows(input, 'nothing'),
  ];
  return tabulate<ProtectionRow>(
    { id: 'protection', title: 'Protection schedule', notes: [...breakerNotes(input), ...kindNotes(input)] },
    [
      words('ref', 'Ref', (row) => row.id),
      words('protects', 'Protects', (row) => row.protects),
      words('device', 'Device', (row) => row.device),
      figures({ key: 'rating', label: 'In', unit: 'A', digits: ratingDigits(rows) }, (row) => row.rating_A),
      figures({ key: 'design', label: 'Ib', unit: 'A', digits: 2 }, (row) => row.design_A),
      figures({ key: 'capacity', label: 'Iz', unit: 'A', digits: 1 }, (row) => row.capacity_A),
      figures({ key: 'source', label: 'Source limit', unit: 'A', digits: 2 }, (row) => row.sourceLimit_A),
      figures({ key: 'breaking', label: 'Breaking capacity', unit: 'A', digits: 0 }, (row) => row.breaking_A),
      words('location', 'Where', (row) => row.location),
      words('remark', 'Remark', (row) => row.remark),
    ],
    rows,
  );
}
