import type { Remedy } from '../answer/findings.ts';
import type { HeatAnswer } from '../answer/heat.ts';
import { doubtful_lm_per_W } from '../job/luminous-bound.ts';
import { apart, degrees, mm, percent, wattsPerMetre } from '../words.ts';
import { type Check, limited, remedy, type Sized, worst } from './context.ts';
import { coolerBuildUp } from './heat-remedies.ts';
import { depthWorking, heatLeftWorking, temperatureWorking } from './heat-workings.ts';
import { workedOut } from './working.ts';

type Temperature = HeatAnswer['temperatures'][number];

/** A band is worth printing where its ends differ once rounded; its warm end is what is held against the limit. */
function bandOf({ value_degC, low_degC, high_degC }: Temperature, limit_degC: number): string {
  const [high, limit] = apart(degrees, high_degC, limit_degC);
  const low = degrees(low_degC);
  return low === high
    ? `About ${degrees(value_degC)}; the limit is ${limit}.`
    : `About ${degrees(value_degC)}, calculated between ${low} and ${high}; the limit is ${limit}.`;
}

/** The limits that do not decide, in words: those passed as well, and those further off. */
function besides({ high_degC }: Temperature, others: Temperature['limits']): string {
  const said = (passed: boolean): string[] =>
    others.filter((o) => high_degC > o.limit_degC === passed).map((o) => degrees(o.limit_degC));
  const [over, under] = [said(true), said(false)];
  const parts = [
    ...(over.length > 0 ? [`${over.join(' and ')} ${over.length === 1 ? 'is' : 'are'} passed as well`] : []),
    ...(under.length > 0 ? [`${under.join(' and ')} ${under.length === 1 ? 'is' : 'are'} further off`] : []),
  ];
  return parts.length > 0 ? ` Of the other limits here ${parts.join(', and ')}.` : '';
}

function statusOf({ high_degC }: Temperature, limit: Temperature['limits'][number]): Check['status'] {
  if (high_degC <= limit.limit_degC) return 'passes';
  return limit.beyond === 'caution' ? 'watch' : 'fails';
}

/** The check of one temperature by the warm end of its band; none where no limit applies. */
export function temperatureFinding(item: Temperature): Check[] {
  const [limit, ...others] = item.limits;
  if (!limit) return [];
  const status = statusOf(item, limit);
  const own = status === 'passes' || limit.remedy === null ? [] : [remedy(null, limit.remedy)];
  return [
    limited({
      id: `heat-${item.id}`,
      question: 'heat',
      status,
      place: { field: 'section.cavity_mm' },
      title: item.name,
      value: item.high_degC,
      limit: limit.limit_degC,
      unit: '°C',
      basis: limit.basis,
      sentence: `${bandOf(item, limit.limit_degC)}${besides(item, others)}`,
      remedies: own,
    }),
  ];
}

const workedTemperature = (item: Temperature, sized: Sized): Check[] =>
  temperatureFinding(item).map((check) => ({ ...check, ...workedOut(temperatureWorking(item, sized)) }));

/**
 * What cools the build-up goes with the temperature furthest over its limit; the others over theirs point to it, so
 * that the same advice is given once.
 */
function advisedOnce(checks: readonly Check[], sized: Sized): Check[] {
  const over = checks.filter(({ status }) => status === 'fails' || status === 'watch');
  if (over.length === 0) return [...checks];
  const gravest = over.some(({ status }) => status === 'fails')
    ? over.filter(({ status }) => status === 'fails')
    : over;
  const first = worst(gravest, ({ margin }) => -margin!);
  const cooler = coolerBuildUp(sized);
  return checks.map((check) => {
    if (!over.includes(check)) return check;
    const own = check.remedies!;
    const remedies = check === first ? [...own, ...cooler] : own;
    const pointer = check === first ? '' : ` What cools the build-up stands with “${first.title}”.`;
    const field = cooler[0]!.field!;
    return { ...check, remedies, place: { field }, sentence: `${check.sentence}${pointer}` };
  });
}

/**
 * What is not known does not pass: it is a warning, without a number or a margin. What fails as an upright slot would
 * stays failed. Why it is not known is said in full of the first, and the others point to it.
 */
function notKnown(check: Check, unknown: string): Check {
  if (check.status === 'fails') return { ...check, sentence: `${check.sentence} ${unknown}` };
  const { working: _, ...judged } = check;
  return {
    ...judged,
    status: 'watch',
    ...{ value: null, margin: null },
    sentence: `${unknown} As an upright slot it would be: ${check.sentence}`,
  };
}

function trapped(sized: Sized): Check {
  const { heat, light } = sized;
  const share = heat.strip_W_per_m === 0 ? 0 : heat.heat_W_per_m / heat.strip_W_per_m;
  return {
    id: 'heat-left',
    question: 'heat',
    status: 'note',
    place: { field: 'strip.entry' },
    title: 'Heat left in the build-up',
    value: heat.heat_W_per_m,
    limit: null,
    margin: null,
    unit: 'W/m',
    basis:
      'a watt of white light is 315 lm (CIE LED illuminants), of coloured light at most 683 lm; light that stays in is heat',
    sentence: `Of ${wattsPerMetre(heat.strip_W_per_m)} electrical, ${wattsPerMetre(heat.heat_W_per_m)} (${percent(share)}) stay as heat; ${percent(light.outFraction)} of the light gets out of the slot.`,
    ...workedOut(heatLeftWorking(sized)),
  };
}

/** More light than strip on sale gives is a figure to look up again, and heat does not count on it. */
function efficacy({ products }: Sized): Check[] {
  const given = products.strip.channels.map(({ lumens_per_m, watts_per_m }) => lumens_per_m / watts_per_m);
  const most = Math.max(...given);
  if (most <= doubtful_lm_per_W) return [];
  const i = given.indexOf(most);
  return [
    limited({
      id: 'strip-efficacy',
      question: 'heat',
      status: 'watch',
      place: { field: `strip.data.channels[${i + 1}].lumens_per_m` },
      title: 'Light of the strip for its watts',
      value: most,
      limit: doubtful_lm_per_W,
      unit: 'lm/W',
      basis: `the best strips sold give about ${doubtful_lm_per_W} lm/W (common practice, from memory)`,
      sentence: `Channel "${products.strip.channels[i]!.name}" is to give ${Math.round(most)} lm for each watt; the best strips sold give about ${doubtful_lm_per_W}. Check lumens and watts on the data sheet. Heat is worked out as if it gave ${doubtful_lm_per_W}, brightness with the lumens entered.`,
    }),
  ];
}

function life({ heat }: Sized): Check {
  return {
    id: 'life',
    question: 'heat',
    status: 'note',
    place: { field: 'strip.lifeTests' },
    title: 'Life of the strip',
    value: heat.life.hours,
    limit: null,
    margin: null,
    unit: 'h',
    basis: 'IES TM-21-11, reported no further than its cap allows (secondary)',
    sentence: heat.life.sentence,
  };
}

/** Where the millimetres over can come from, as far as there are so many. */
function shallower({ job: { section } }: Pick<Sized, 'job'>): Remedy[] {
  return [
    remedy('section.backing.thickness_mm', 'Take a thinner backing.'),
    remedy('section.front.thickness_mm', 'Take a thinner front.'),
    remedy(
      'section.cavity_mm',
      `Make the cavity shallower than ${mm(section.cavity_mm)}, if the LEDs do not then show as hot spots.`,
    ),
  ];
}

/** The check of the depth, which rests on the layers of the build-up alone. */
export function depthFinding(sized: Pick<Sized, 'section' | 'job'>): Check {
  const { section, job } = sized;
  const worst_mm = section.depth_mm + job.section.tolerance_mm;
  const over = worst_mm > section.available_mm + 1e-9;
  const [used, available] = apart(mm, worst_mm, section.available_mm);
  return limited({
    id: 'depth',
    question: 'depth',
    status: over ? 'fails' : 'passes',
    place: { field: 'section.cavity_mm' },
    title: 'Depth of the build-up',
    value: worst_mm,
    limit: section.available_mm,
    unit: 'mm',
    basis: 'the depth available as measured, and the tolerance in the job',
    sentence: `${available} are available; ${mm(section.depth_mm)} are used, ${used} with the tolerance.${over ? ` Take ${mm(worst_mm - section.available_mm)} off.` : ''}`,
    remedies: over ? shallower(sized) : [],
    working: depthWorking(worst_mm, sized),
  });
}

/** What is warmer than calculated where the air in a profile moves: its cover, and the face within reach it is part of. */
const warmedByAir = new Set(['heat-cover-inside', 'heat-cover-outside']);

/** Where the model is no longer on the safe side nothing passes. */
function withMovingAir(check: Check, { heat, job }: Sized): Check {
  const isWarmer =
    warmedByAir.has(check.id) || (check.id === 'heat-face' && job.section.strip === 'recessed');
  if (heat.profile?.airMoves !== true || !isWarmer || check.status !== 'passes') return check;
  return {
    ...check,
    status: 'watch',
    sentence: `${check.sentence} The air in the profile is calculated as still, and at these temperatures it moves: the cover becomes warmer than this. Measure a sample.`,
  };
}

/** Checks of temperatures against their limits, using the warm end of each band, and of the depth. */
export function heatFindings(sized: Sized): Check[] {
  const temperatures = sized.heat.temperatures
    .flatMap((item) => workedTemperature(item, sized))
    .map((check) => withMovingAir(check, sized));
  const { unknown } = sized.heat;
  const advised = advisedOnce(temperatures, sized);
  const why = (i: number): string => (i === 0 ? unknown! : `Not known, as said of “${advised[0]!.title}”.`);
  return [
    ...(unknown === null ? advised : advised.map((check, i) => notKnown(check, why(i)))),
    trapped(sized),
    ...efficacy(sized),
    life(sized),
    depthFinding(sized),
  ];
}
