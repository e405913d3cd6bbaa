import type { AskedStrip } from '../answer/asked.ts';
import { type FittedStrip, fitStrip, type StripDataSheet } from '../circuit/fit.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import type { StripSheet } from '../job/strip-sheet.ts';
import { found, type Outcome, refused } from '../outcome.ts';

/** Dropout of a common regulator (common practice). */
const usualDropout_V = 1;

/** Strip lit on the bench for some minutes (common practice). */
const usualStrip_degC = 40;

function railData(rails: StripSheet['rails']): StripDataSheet['rails'] {
  if (rails.from === 'copper') {
    return { from: 'copper', width_m: rails.width_mm / 1000, weight_oz: rails.weight_oz };
  }
  const length_m = rails.length_mm / 1000;
  if (rails.from === 'longest run') {
    return { from: 'longest run', length_m, ...(rails.drop === undefined ? {} : { dropRatio: rails.drop }) };
  }
  const { from, start_V, finish_V, strip_degC = usualStrip_degC } = rails;
  return { from, length_m, start_V, finish_V, strip_degC };
}

function dataOf(sheet: StripSheet): StripDataSheet {
  const { lampsInSeries, lampForward_V, dropout_V = usualDropout_V } = sheet;
  return {
    nominal_V: sheet.nominal_V,
    watts_per_m: sheet.watts_per_m,
    cutLength_m: sheet.cut_mm / 1000,
    lamps_per_m: sheet.lampsPerMetre,
    rails: railData(sheet.rails),
    ...(lampsInSeries === undefined ? {} : { lampsInSeries }),
    ...(lampForward_V === undefined ? {} : { lampForward_V }),
    ...(sheet.law === 'regulated' ? { dropout_V } : {}),
  };
}

/** The entry of the question that a refusal is about. */
const fieldOfCode: Readonly<Partial<Record<CircuitIssue['code'], string>>> = {
  'lamps-do-not-divide': 'lampsPerMetre',
  'too-few-volts-for-lamps': 'lampsInSeries',
  'does-not-fit': 'rails',
};

/** The field of the job that holds a quantity of the fit. */
const fieldOf: Readonly<Record<FittedStrip['basis'][number]['quantity'], string | null>> = {
  'cut units': 'strip.data.unitsPerMetre',
  'unit watts': 'strip.data.channels[1].watts_per_m',
  'lamps in series': 'strip.data.channels[1].lampsInSeries',
  'forward volts': 'strip.data.channels[1].lampForward_V',
  slope: null,
  'rail resistance': 'strip.data.railPositive_mohm_per_m',
};

/** Without the noise that a change of unit puts on what was entered or rounded. */
const tidy = (x: number): number => Number(x.toPrecision(6));

const milliohm = (rail_ohm_per_m: number): number => tidy(1000 * rail_ohm_per_m);

function stripOf(sheet: StripSheet, { law, unitsPerMetre, rail }: FittedStrip): AskedStrip['data'] {
  const rail_mohm_per_m = milliohm(rail.rail_ohm_per_m);
  return {
    nominal_V: sheet.nominal_V,
    law: sheet.law,
    ...(law.kind === 'regulated' ? { dropout_V: law.dropout_V } : {}),
    unitsPerMetre: tidy(unitsPerMetre),
    lampsPerMetre: sheet.lampsPerMetre,
    railPositive_mohm_per_m: rail_mohm_per_m,
    railReturn_mohm_per_m: rail_mohm_per_m,
    ...(sheet.rails.from === 'longest run' ? { longestRun_mm: sheet.rails.length_mm } : {}),
  };
}

/** What stands in for an entry that was left out, besides what the fit says itself. */
function standIns(sheet: StripSheet): AskedStrip['basis'] {
  const dropout = `${usualDropout_V} V for the regulator, as common ones need.`;
  const warm = `Strip at ${usualStrip_degC} °C while it was measured, as on the bench; 10 K more make it 4 % less.`;
  const isWarm = sheet.rails.from === 'measured volts' && sheet.rails.strip_degC === undefined;
  return [
    ...(sheet.law === 'regulated' && sheet.dropout_V === undefined
      ? [{ field: 'strip.data.dropout_V', from: 'usual value' as const, sentence: dropout }]
      : []),
    ...(isWarm ? [{ field: null, from: 'usual value' as const, sentence: warm }] : []),
  ];
}

/**
 * A strip of one colour worked out from its data sheet: the fields of `strip.data` that follow from it, the
 * resistance of its rails among them, where each comes from, and the proof of the fit.
 *
 * Refuses as `fitStrip`, with the entry to look at. Check: `tests/inverse/strip.test.ts`.
 */
export function askStrip(sheet: StripSheet): Outcome<AskedStrip, CircuitIssue> {
  const fitted = fitStrip(dataOf(sheet));
  if (!fitted.ok) {
    return refused(
      ...fitted.issues.map((issue) => ({
        ...issue,
        place: { field: fieldOfCode[issue.code] ?? 'watts_per_m' },
      })),
    );
  }
  const { law, rail, rails, basis, remarks } = fitted.value;
  return found({
    data: stripOf(sheet, fitted.value),
    channel: {
      watts_per_m: sheet.watts_per_m,
      lampsInSeries: law.lampsInSeries,
      lampForward_V: law.lampForward_V,
    },
    rails: rails.map((one) => ({
      rail_mohm_per_m: milliohm(one.rail_ohm_per_m),
      taken: one === rail,
      drop: one.drop && { ...one.drop, asked_V: tidy(one.drop.asked_V), ratio: tidy(one.drop.ratio) },
      widthOf2oz_mm: tidy(1000 * one.widthOf2oz_m),
    })),
    basis: [
      ...basis.map(({ quantity, from, sentence }) => ({ field: fieldOf[quantity], from, sentence })),
      ...standIns(sheet),
    ],
    remarks: [...remarks],
  });
}
