import type { Sizing } from '../../src/index.ts';

interface Banded {
  readonly what: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

const each = (
  what: string,
  value: readonly number[],
  low: readonly number[],
  high: readonly number[],
): Banded[] => value.map((v, i) => ({ what: `${what} ${i}`, value: v, low: low[i]!, high: high[i]! }));

function bandedOfRun(run: Sizing['circuit']['runs'][number]): Banded[] {
  const { band } = run;
  if (!band) return [];
  const figures = (['lowest_V', 'drop', 'fall'] as const).map((key) => ({
    what: `${run.run} ${key}`,
    value: run[key],
    ...{ low: band[key].least, high: band[key].greatest },
  }));
  return [
    ...figures,
    ...each(`${run.run} unit_V`, run.unit_V, band.unit_V_least, band.unit_V_greatest),
    ...each(`${run.run} unit_light`, run.unit_light, band.unit_light_least, band.unit_light_greatest),
  ];
}

/** Every number of an answer that has a band of its own. */
export function bandedNumbers(sizing: Sizing): Banded[] {
  const outputs = sizing.drivers.drivers.flatMap((driver) => driver.outputs);
  return [
    ...sizing.heat.temperatures.map((t) => ({
      what: t.id,
      value: t.value_degC,
      low: t.low_degC,
      high: t.high_degC,
    })),
    ...sizing.circuit.runs.flatMap(bandedOfRun),
    ...outputs.flatMap(({ id, watts, band_W }) =>
      band_W ? [{ what: `${id} watts`, value: watts, low: band_W.least, high: band_W.greatest }] : [],
    ),
  ];
}

/** What lies outside its own band by more than rounding. */
export function outsideBand(sizing: Sizing): string[] {
  return bandedNumbers(sizing)
    .filter(({ value, low, high }) => {
      const slack = 1e-7 * Math.max(1, Math.abs(value));
      return !(value >= low - slack && value <= high + slack);
    })
    .map(({ what, value, low, high }) => `${what}: ${value} lies outside ${low} to ${high}`);
}
