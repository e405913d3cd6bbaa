import type { Cable } from '../answer/cables.ts';
import type { Remedy } from '../answer/findings.ts';
import { clausesOf } from '../clauses.ts';
import { limitOverRating } from '../constants.ts';
import { amps, apart, counted, listing, naming, square, stretchText } from '../words.ts';
import { capacityWorking } from './cable-workings.ts';
import { type Check, limited, reaching, remedy, type Sized, worst } from './context.ts';
import { workedOut } from './working.ts';

/** IEC 60364-7-715 (secondary): 1.5 mm2, or 1 mm2 in flexible cable up to 3 m. */
const leastArea = { fixed_mm2: 1.5, short_mm2: 1, short_mm: 3000 } as const;

/** A thicker cable, and where several feeds hang on one cable also a cable for each. */
function thickerCable({ job, products }: Sized): Remedy[] {
  const thicker = `Take a thicker cable than ${square(products.cable.area_mm2)}.`;
  return [
    remedy('cables.entry', thicker),
    ...(job.cables.layout === 'radial'
      ? []
      : [remedy('cables.layout', 'Give every feed point a cable of its own.')]),
  ];
}

/** As solved, or should any other leg, run or feed of its output be dead. */
const mostOf = ({ current_A, design_A }: Cable): number => Math.max(current_A, design_A);

/** Circuits side by side where a cable may carry least. */
const togetherCount = ({ stretches, worstStretch }: Cable): number => stretches[worstStretch]!.togetherCount;

/** What keeps a bundle within the tables. */
const fewerTogether = remedy(
  'drivers.places',
  'Add a place for drivers elsewhere, so that fewer cables lie together.',
);

function capacity(sized: Sized): Check {
  const { cables, job } = sized;
  const cable = worst(cables, (c) => mostOf(c) / c.capacity_A);
  const most_A = mostOf(cable);
  const over = most_A > cable.capacity_A;
  const beyond = worst(cables, togetherCount).capacityNote;
  const [carried, allowed] = apart(amps, most_A, cable.capacity_A);
  return limited({
    id: 'cable-capacity',
    question: 'cables',
    status: over ? 'fails' : beyond === null ? 'passes' : 'watch',
    place: { cable: cable.id, field: 'cables.entry' },
    title: 'Current in the busiest cable',
    value: most_A,
    limit: cable.capacity_A,
    unit: 'A',
    basis: `${clausesOf(job.site.rules).capacity}, with ambient and grouping factors: the electrician checks against the edition in force`,
    sentence: `Cable ${cable.id} carries ${carried} at most and may carry ${allowed} where it is hottest: ${stretchText(cable.stretches[cable.worstStretch]!)}.${beyond === null ? '' : ` ${beyond}`}`,
    remedies: [...(over ? thickerCable(sized) : []), ...(beyond === null ? [] : [fewerTogether])],
    ...workedOut(capacityWorking(cable, most_A, sized)),
  });
}

const tooThin = ({ area_mm2, length_mm }: Cable): boolean =>
  area_mm2 < (length_mm <= leastArea.short_mm ? leastArea.short_mm2 : leastArea.fixed_mm2) - 1e-9;

function crossSection({ cables, products, job: { site } }: Sized): Check[] {
  const thin = cables.filter((cable) => cable.kind !== 'link' && tooThin(cable));
  if (thin.length === 0) return [];
  return [
    reaching({
      id: 'cable-area',
      question: 'cables',
      status: 'watch',
      place: { cable: thin[0]!.id, field: 'cables.entry' },
      title: 'Conductor area of site-run cable',
      value: products.cable.area_mm2,
      limit: leastArea.fixed_mm2,
      unit: 'mm²',
      basis: `IEC 60364-7-715: 1.5 mm², or 1 mm² in flexible cable up to 3 m (secondary)${site.rules === 'NEC' ? `; to be held against ${clausesOf('NEC').lighting}` : ''}`,
      sentence: `${naming(
        'Cable',
        thin.map((c) => c.id),
      )} ${thin.length === 1 ? 'has' : 'have'} ${square(products.cable.area_mm2)} conductors; where such a cable counts as fixed wiring, 1.5 mm² is asked for, or 1 mm² up to 3 m.`,
      remedies: [remedy('cables.entry', 'Ask the electrician, or take the thicker cable.')],
    }),
  ];
}

/** Cables with more cores than they are sold with. */
function cores({ cables, products }: Sized): Check[] {
  const unsold = cables.filter(({ soldCoreCount }) => soldCoreCount === null);
  if (unsold.length === 0) return [];
  const most = worst(unsold, ({ conductorCount }) => conductorCount);
  const isTrunk = most.kind === 'trunk';
  const { name, coreCounts } = isTrunk ? products.trunk : products.cable;
  const ids = unsold.map(({ id }) => id);
  return [
    limited({
      id: 'cable-cores',
      question: 'cables',
      status: 'fails',
      place: { cable: most.id, field: isTrunk ? 'cables.trunk.entry' : 'cables.entry' },
      title: 'Cores of a cable',
      value: most.conductorCount,
      limit: Math.max(...coreCounts),
      unit: '',
      basis: 'the numbers of cores the cable is sold with, as entered or typical of the trade',
      sentence: `${naming('cable', ids).replace(/^c/, 'C')} ${ids.length === 1 ? 'needs' : 'need'} ${counted(most.conductorCount, 'core')}${ids.length === 1 ? '' : ' at most'}, and ${name} is sold with ${listing(coreCounts.map(String))}.`,
      remedies: [
        remedy(
          isTrunk ? 'cables.trunk.data.coreCounts' : 'cables.data.coreCounts',
          'Take a cable that is sold with as many cores, and enter with how many.',
        ),
      ],
    }),
  ];
}

function fuses(sized: Sized): Check[] {
  const none = sized.cables.filter((cable) => cable.protectedBy === 'nothing');
  if (none.length === 0) return [];
  return [
    {
      id: 'cable-fuse',
      question: 'cables',
      status: 'fails',
      place: { cable: none[0]!.id, field: 'cables.entry' },
      title: 'Protection of each cable',
      value: none.length,
      limit: 0,
      margin: -none.length,
      unit: '',
      basis: `${clausesOf(sized.job.site.rules).overload}: Ib ≤ In ≤ Iz`,
      sentence: `No standard fuse lies between what ${naming(
        'cable',
        none.map((c) => c.id),
      )} ${none.length === 1 ? 'carries and may carry' : 'carry and may carry'}.`,
      remedies: thickerCable(sized),
    },
  ];
}

/** When a fuse opens, and when a driver limits. */
function opening({ fuse: id }: Cable, { installation }: Sized): string {
  const fuses = installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  const fuse = fuses.find((each) => each.id === id);
  const byFuse = fuse
    ? `${fuse.id} (${fuse.name}, ${fuse.standard}) opens within 5 s from ${amps(fuse.opens_A)}, `
    : '';
  return `${byFuse}drivers limit at 1.05 to ${limitOverRating} times their rated current (memory)`;
}

function farShorts(sized: Sized): Check[] {
  const { cables, job } = sized;
  const unnoticed = cables.filter((cable) => !cable.farShortNoticed);
  if (unnoticed.length === 0) return [];
  const cable = worst(unnoticed, (c) => c.farShort_A);
  const isFused = unnoticed.some(({ fuse_A }) => fuse_A !== null);
  return [
    {
      id: 'far-short',
      question: 'cables',
      status: 'watch',
      place: { cable: cable.id, field: 'cables.entry' },
      title: 'Undetected far-end short circuit',
      value: unnoticed.length,
      limit: 0,
      margin: -unnoticed.length,
      unit: '',
      basis: `${clausesOf(job.site.rules).shortCircuit}; ${opening(cable, sized)}`,
      sentence: `A short at the far end of what ${naming(
        'cable',
        unnoticed.map((c) => c.id),
      )} ${unnoticed.length === 1 ? 'feeds' : 'feed'} would draw about ${amps(cable.farShort_A)}: too little to ${isFused ? 'open the fuse or to ' : ''}stop the driver, so it could sit there warm.`,
      remedies: [
        remedy('cables.entry', 'Take a thicker cable.'),
        ...(job.cables.fuses !== 'electronic' && isFused
          ? [remedy('cables.fuses', 'Take electronic channels for fuses: they open at less current.')]
          : []),
        remedy(
          'drivers.entry',
          `Take a driver that gives less current, so that ${isFused ? 'a smaller fuse will do' : 'such a short stops it'}.`,
        ),
      ],
    },
  ];
}

/** Checks of the extra-low-voltage cables: current, conductor area, fuse, far short. */
export function cableFindings(sized: Sized): Check[] {
  return [capacity(sized), ...crossSection(sized), ...cores(sized), ...fuses(sized), ...farShorts(sized)];
}
