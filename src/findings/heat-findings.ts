import type { Finding, HeatAnswer } from '../sizing.ts';
import { degrees, mm, percent, wattsPerMetre } from '../words.ts';
import { limited, type Sized } from './context.ts';

type Temperature = HeatAnswer['temperatures'][number];

/** What the limit of each temperature rests on; the values come with the answer. */
const bases: Readonly<Record<string, string>> = {
  strip: "strip maker's data sheet: highest temperature at the measuring point",
  solder: "strip maker's data sheet: highest temperature at the measuring point",
  timber:
    'judgement: timber to 60 °C; ignition by self-heating is reported from 77 °C up (Babrauskas, Gray and Janssens 2007, secondary)',
  glue: 'PVAc glue creeps from 50 to 60 °C (trade literature, secondary)',
  cable: 'PVC cable 70 °C: IEC 60364-5-52 (memory)',
  face: 'touchable wood 60 °C for one minute: EN ISO 13732-1:2006 (memory)',
  tape: 'adhesive tape 80 °C continuous: data sheets (memory)',
};

const remedy =
  'Less watts per metre help most; an aluminium carrier under the strip is next. Depth hardly moves this temperature.';

function temperature(item: Temperature & { limit_degC: number }): Finding {
  const fails = item.high_degC > item.limit_degC;
  const nominal = item.value_degC <= item.limit_degC;
  const status = fails ? (nominal ? 'watch' : 'fails') : 'passes';
  return limited({
    id: `heat-${item.id}`,
    question: 'heat',
    status,
    place: { field: 'section' },
    title: item.name,
    value: item.high_degC,
    limit: item.limit_degC,
    unit: '°C',
    basis: bases[item.id] ?? 'data sheet',
    sentence: `${item.name}: about ${degrees(item.value_degC)}, between ${degrees(item.low_degC)} and ${degrees(item.high_degC)} as the reckoning goes; the limit is ${degrees(item.limit_degC)}.${status === 'passes' ? '' : ` ${remedy}`}`,
  });
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

function depth({ heat, job }: Sized): Finding {
  const worst_mm = heat.depth_mm + job.section.tolerance_mm;
  const over = worst_mm > heat.available_mm + 1e-9;
  return limited({
    id: 'depth',
    question: 'depth',
    status: over ? 'fails' : 'passes',
    place: { field: 'section.cavity_mm' },
    title: 'Depth of the build-up',
    value: worst_mm,
    limit: heat.available_mm,
    unit: 'mm',
    basis: 'the depth available as measured, and the tolerance in the job',
    sentence: `${mm(heat.available_mm)} are available; ${mm(heat.depth_mm)} are used, ${mm(worst_mm)} with the tolerance.${over ? ` Take ${mm(worst_mm - heat.available_mm)} off: a thinner backing or front, or a shallower cavity if the dots allow.` : ''}`,
  });
}

/** Checks of temperatures against their limits, using the warm end of each band, and of the depth. */
export function heatFindings(sized: Sized): Finding[] {
  const limitedOnes = sized.heat.temperatures.filter(
    (t): t is Temperature & { limit_degC: number } => t.limit_degC !== null,
  );
  return [...limitedOnes.map(temperature), trapped(sized), depth(sized)];
}
