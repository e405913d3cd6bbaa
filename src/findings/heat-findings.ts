import type { Finding, HeatAnswer } from '../answer/sizing.ts';
import { degrees, mm, percent, wattsPerMetre } from '../words.ts';
import { limited, type Sized } from './context.ts';

type Temperature = HeatAnswer['temperatures'][number];

type Limit = Temperature['limits'][number];

const severity = { caution: 0, refuse: 1, breach: 2 } as const;

/** The gravest limit that the warm end of the band passes; else the lowest there is. */
function decidingLimit({ limits, high_degC }: Temperature): Limit | undefined {
  const passed = limits.filter((limit) => high_degC > limit.limit_degC);
  return passed.toSorted((a, b) => severity[b.beyond] - severity[a.beyond])[0] ?? limits[0];
}

/** A band is worth printing where its ends differ once rounded. */
function bandOf({ value_degC, low_degC, high_degC }: Temperature): string {
  const [low, high] = [degrees(low_degC), degrees(high_degC)];
  return low === high
    ? `About ${degrees(value_degC)}`
    : `About ${degrees(value_degC)}, reckoned between ${low} and ${high}`;
}

function temperature(item: Temperature): Finding[] {
  const limit = decidingLimit(item);
  if (!limit) return [];
  const passed = item.high_degC > limit.limit_degC;
  const status = !passed ? 'passes' : limit.beyond === 'caution' ? 'watch' : 'fails';
  return [
    limited({
      id: `heat-${item.id}`,
      question: 'heat',
      status,
      place: { field: 'section' },
      title: item.name,
      value: item.high_degC,
      limit: limit.limit_degC,
      unit: '°C',
      basis: limit.basis,
      sentence: `${bandOf(item)}; the limit is ${degrees(limit.limit_degC)}.${passed ? ` ${limit.remedy}` : ''}`,
    }),
  ];
}

function trapped({ heat, light }: Sized): Finding {
  const share = heat.strip_W_per_m === 0 ? 0 : heat.heat_W_per_m / heat.strip_W_per_m;
  return {
    id: 'heat-left',
    question: 'heat',
    status: 'note',
    place: { field: 'section' },
    title: 'Heat left in the build-up',
    value: heat.heat_W_per_m,
    limit: null,
    margin: null,
    unit: 'W/m',
    basis: 'efficacy of radiation 315 lm/W (CIE LED illuminants); light that stays in is heat',
    sentence: `Of ${wattsPerMetre(heat.strip_W_per_m)} electrical, ${wattsPerMetre(heat.heat_W_per_m)} (${percent(share)}) stay as heat; ${percent(light.outFraction)} of the light gets out of the slot.`,
  };
}

function life({ heat }: Sized): Finding {
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

function depth({ section, job }: Sized): Finding {
  const worst_mm = section.depth_mm + job.section.tolerance_mm;
  const over = worst_mm > section.available_mm + 1e-9;
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
    sentence: `${mm(section.available_mm)} are available; ${mm(section.depth_mm)} are used, ${mm(worst_mm)} with the tolerance.${over ? ` Take ${mm(worst_mm - section.available_mm)} off: a thinner backing or front, or a shallower cavity if the dots allow.` : ''}`,
  });
}

/** Checks of temperatures against their limits, using the warm end of each band, and of the depth. */
export function heatFindings(sized: Sized): Finding[] {
  return [...sized.heat.temperatures.flatMap(temperature), trapped(sized), life(sized), depth(sized)];
}
