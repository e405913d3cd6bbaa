import type { ProposalChange } from '../answer/proposals.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Sized } from '../findings/context.ts';
import type { Job } from '../job/job.ts';
import type { Openable } from '../job/open-choices.ts';
import type { Products } from '../job/products.ts';
import { counted, levelsOf, listing, mm, square } from '../words.ts';

/** A job with what its words need. */
export interface Worded {
  readonly job: Job;
  readonly products: Products;
  /** Drivers that it comes to; null where the job is refused. */
  readonly drivers: Sized['drivers'] | null;
  readonly setOut: Pick<SetOut, 'slots'> | null;
}

const feedWords: Readonly<Record<Job['feeds']['arrangement'], string>> = {
  start: 'at the start of each slot',
  finish: 'at the finish of each slot',
  both: 'at both ends of each slot',
  between: 'between the ends',
  crossed: 'crossed, plus at one end and minus at the other',
  chosen: 'at chosen cut lines',
};

function feeds({ job: { feeds: of } }: Worded): string {
  const { arrangement, betweenCount, exceptions } = of;
  const plain =
    arrangement === 'between'
      ? `at ${counted(betweenCount, 'point')} between the ends of each slot`
      : feedWords[arrangement];
  return exceptions.length === 0 ? plain : `${plain}, ${counted(exceptions.length, 'slot')} otherwise`;
}

const layoutWords: Readonly<Record<Job['cables']['layout'], string>> = {
  radial: 'a cable of its own to each feed point',
  trunk: 'trunks with taps',
  ring: 'rings with taps',
  'run to run': 'from slot to slot',
};

function cables({ job: { cables: of }, products }: Worded): string {
  const branch = square(products.cable.area_mm2);
  const hasTrunk = of.layout === 'trunk' || of.layout === 'ring';
  return hasTrunk ? `${square(products.trunk.area_mm2)} trunks, ${branch} branches` : branch;
}

/** "2 × 24 V 240 W driver and 1 × 24 V 75 W driver". */
function drivers({ drivers: of, products }: Worded): string {
  if (of === null || of.drivers.length === 0) return products.driver.name;
  const counts = new Map<string, number>();
  for (const { name } of of.drivers) counts.set(name, (counts.get(name) ?? 0) + 1);
  return listing([...counts].map(([name, count]) => `${count} × ${name}`));
}

function levels({ job: { dimming }, products }: Worded): string {
  const said = (of: readonly number[]): string => levelsOf(of, products.strip.channels);
  const own = dimming.zones.flatMap((zone) => (zone.levels ? [`${said(zone.levels)} in ${zone.name}`] : []));
  return [said(dimming.levels), ...own].join(', ');
}

const carrier = ({ job: { section } }: Worded): string =>
  section.carrier === 'none'
    ? 'none'
    : `an aluminium flat ${mm(section.carrierWidth_mm)} wide, ${mm(section.carrierThickness_mm)} thick`;

const mountWords: Readonly<Record<Job['section']['strip'], string>> = {
  backing: 'on the backing',
  front: 'on the inner face of the front, beside the slot',
  side: 'on the side of the cavity',
  recessed: 'in a profile let into the front',
};

const fuseWords: Readonly<Record<Job['cables']['fuses'], string>> = {
  cartridge: 'cartridge fuses',
  blade: 'blade fuses',
  electronic: 'electronic channels',
};

/** Each choice as a joiner would name it, and what it is in a job. */
const choices: readonly {
  readonly of: Openable;
  readonly label: string;
  readonly words: (of: Worded) => string;
}[] = [
  { of: 'strip', label: 'Strip', words: ({ products }) => products.strip.name },
  { of: 'level', label: 'Working level', words: levels },
  { of: 'feeds', label: 'Fed', words: feeds },
  { of: 'layout', label: 'Cables laid as', words: ({ job }) => layoutWords[job.cables.layout] },
  { of: 'cables', label: 'Cables', words: cables },
  { of: 'drivers', label: 'Drivers', words: drivers },
  { of: 'carrier', label: 'Aluminium under the strip', words: carrier },
  { of: 'protection', label: 'Protection', words: ({ job }) => fuseWords[job.cables.fuses] },
  { of: 'depth', label: 'Cavity', words: ({ job }) => `${mm(job.section.cavity_mm)} deep` },
  { of: 'cover', label: 'Slot cover', words: ({ job }) => job.section.cover },
  { of: 'mount', label: 'Strip placed', words: ({ job }) => mountWords[job.section.strip] },
  {
    of: 'pitch',
    label: 'Slots',
    words: ({ setOut }) => (setOut ? counted(setOut.slots.length, 'slot') : 'as they are'),
  },
];

/** Every choice that one job makes otherwise than another, in words, in the order a maker thinks of them. */
export function changesBetween(before: Worded, after: Worded): ProposalChange[] {
  return choices.flatMap(({ of, label, words }) => {
    const [was, is] = [words(before), words(after)];
    return was === is ? [] : [{ of, label, before: was, after: is }];
  });
}
