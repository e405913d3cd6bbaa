import type { Driver, DriverOutput, Finding } from '../answer/sizing.ts';
import { amps, degrees, figures, naming, percent, watts } from '../words.ts';
import { below, limited, reaching, type Sized, worst } from './context.ts';

/** Below this share of rated load the power factor of common drivers falls off (memory). */
const poorlyLoaded = 0.3;

interface Loaded {
  readonly driver: Driver;
  readonly output: DriverOutput;
}

const outputsOf = (drivers: readonly Driver[]): Loaded[] =>
  drivers.flatMap((driver) => driver.outputs.map((output) => ({ driver, output })));

function load({ drivers, job }: Sized): Finding {
  const { driver, output } = worst(outputsOf(drivers.drivers), (o) => o.output.load);
  const over = output.load > 1 + 1e-9;
  return limited({
    id: 'driver-load',
    question: 'drivers',
    status: over ? 'fails' : 'passes',
    place: { driver: driver.id },
    title: 'Load on the busiest driver output',
    value: output.watts,
    limit: output.usable_W,
    unit: 'W',
    basis: `rated watts, derated for the air round the driver, less a reserve of ${percent(job.drivers.reserve)} (reserve: common practice)`,
    sentence: `Output ${output.id} carries ${watts(output.watts)} of ${watts(output.usable_W)} usable.${over ? ' Move a slot to another output, or take a larger driver.' : ''}`,
  });
}

/** The reserve is there for tolerances, so their worst combination is held against rated watts without it. */
function loadInEveryCase({ drivers }: Sized): Finding[] {
  const banded = outputsOf(drivers.drivers).flatMap(({ driver, output }) =>
    output.band_W
      ? [{ driver, output, most_W: output.band_W.greatest, limit_W: driver.rated_W * driver.derating }]
      : [],
  );
  if (banded.length === 0) return [];
  const { driver, output, most_W, limit_W } = worst(banded, (o) => o.most_W / o.limit_W);
  const over = most_W > limit_W;
  return [
    limited({
      id: 'driver-load-worst',
      question: 'drivers',
      status: over ? 'watch' : 'passes',
      place: { driver: driver.id },
      title: 'Load in the worst combination of tolerances',
      value: most_W,
      limit: limit_W,
      unit: 'W',
      basis: 'rated watts, derated, without the reserve, which is there for this',
      sentence: `With every tolerance at its worst, output ${output.id} carries ${watts(most_W)} of ${watts(limit_W)}.${over ? ' Take a larger driver, or measure the strip before the wall is closed.' : ''}`,
    }),
  ];
}

function current({ drivers, products }: Sized): Finding {
  const { driver, output } = worst(outputsOf(drivers.drivers), (o) => o.output.current_A);
  return limited({
    id: 'driver-current',
    question: 'drivers',
    status: below(output.current_A, products.driver.current_A),
    place: { driver: driver.id },
    title: 'Current from the busiest driver output',
    value: output.current_A,
    limit: products.driver.current_A,
    unit: 'A',
    basis: "driver maker's data sheet",
    sentence: `Output ${output.id} gives ${amps(output.current_A)}; it is limited to ${amps(products.driver.current_A)}.`,
  });
}

function room({ drivers, job }: Sized): Finding[] {
  return drivers.places.map((place, i) => ({
    id: `driver-fit-${i + 1}`,
    question: 'drivers',
    status: place.fits ? 'passes' : 'fails',
    place: { field: `drivers.places[${i + 1}]` },
    title: `Room for drivers in ${place.name}`,
    value: place.driverCount,
    limit: null,
    margin: null,
    unit: '',
    basis: "case size and clearance from the driver maker's data sheet; place as measured in the job",
    sentence: place.fits
      ? place.fitNote
      : `${place.fitNote} Enlarge ${job.drivers.places[i]?.name ?? place.name}, add a second place, or choose flatter drivers.`,
  }));
}

function ambient({ drivers, products }: Sized): Finding {
  const driver = worst(drivers.drivers, (d) => d.ambient_degC);
  const { fullLoadAmbient_degC, highestAmbient_degC } = products.driver;
  const status = below(driver.ambient_degC, highestAmbient_degC, fullLoadAmbient_degC);
  return limited({
    id: 'driver-ambient',
    question: 'drivers',
    status,
    place: { driver: driver.id },
    title: 'Air round the warmest driver',
    value: driver.ambient_degC,
    limit: highestAmbient_degC,
    unit: '°C',
    basis: "ta from the driver maker's data sheet; air from a heat balance of the driver place",
    sentence: `The air round ${driver.id} reaches ${degrees(driver.ambient_degC)}; full load is rated to ${degrees(fullLoadAmbient_degC)}.${status === 'passes' ? '' : ' Vent the driver place low and high, enlarge it, or move drivers out of it.'}`,
  });
}

function caseTemperature({ drivers, products }: Sized): Finding {
  const driver = worst(drivers.drivers, (d) => d.case_degC);
  const status = below(driver.case_degC, products.driver.caseLimit_degC, products.driver.caseLimit_degC - 5);
  return limited({
    id: 'driver-case',
    question: 'drivers',
    status,
    place: { driver: driver.id },
    title: 'Case of the warmest driver',
    value: driver.case_degC,
    limit: products.driver.caseLimit_degC,
    unit: '°C',
    basis: "tc marked on the case; kept 5 K below it for life's sake (common practice)",
    sentence: `The case of ${driver.id} reaches about ${degrees(driver.case_degC)}; its mark is tc ${degrees(products.driver.caseLimit_degC)}.${status === 'passes' ? '' : ' Give it more air, or load it less.'} ${lifeByThumb(driver.lifeRatio)}`,
  });
}

function lifeByThumb(ratio: number): string {
  const times = ratio >= 2 ? 'twice' : `${figures(ratio, 2)} times`;
  return `As a rule of thumb 10 K more halve a driver's life: here it comes to about ${times} what its maker states at that mark.`;
}

function breaker({ drivers }: Sized): Finding {
  const { breaker, drivers: all } = drivers;
  const over = all.length > breaker.mostDrivers;
  return limited({
    id: 'breaker-inrush',
    question: 'drivers',
    status: over ? 'watch' : 'passes',
    place: { field: 'site.breakerCurve' },
    title: `Drivers on one ${breaker.name} circuit-breaker`,
    value: all.length,
    limit: breaker.mostDrivers,
    unit: '',
    basis: breaker.formula,
    sentence: over
      ? `${all.length} drivers switched on together may trip one ${breaker.name} breaker, which holds ${breaker.mostDrivers}: the electrician spreads them over ${breaker.breakerCount} breakers, or fits an inrush limiter.`
      : `Up to ${breaker.mostDrivers} of these drivers may start together on one ${breaker.name} breaker; the job has ${all.length}.`,
  });
}

function lightlyLoaded({ drivers }: Sized): Finding[] {
  const light = drivers.drivers.filter((d) => d.watts < poorlyLoaded * d.rated_W);
  if (light.length === 0) return [];
  return [
    {
      id: 'driver-light-load',
      question: 'drivers',
      status: 'note',
      place: { driver: light[0]!.id, field: 'drivers.entry' },
      title: 'Drivers far larger than their load',
      value: Math.min(...light.map((d) => d.watts / d.rated_W)),
      limit: poorlyLoaded,
      margin: null,
      unit: 'ratio',
      basis: 'common practice: efficiency and power factor fall off at low load',
      sentence: `${naming(
        'Driver',
        light.map((d) => d.id),
      )} ${light.length === 1 ? 'carries' : 'carry'} less than ${percent(poorlyLoaded)} of what ${light.length === 1 ? 'it is' : 'they are'} made for: a smaller driver fits more easily and starts with less inrush.`,
    },
  ];
}

/** A sheet that promises less than the market asks for is worth a second look. */
function efficiency({ products, limits }: Sized): Finding[] {
  const { driver } = products;
  const least = limits.leastEfficiency(driver.rated_W);
  if (driver.efficiency >= least) return [];
  return [
    reaching({
      id: 'driver-efficiency',
      question: 'drivers',
      status: 'watch',
      place: { field: 'drivers.entry' },
      title: 'Efficiency of the driver',
      value: driver.efficiency,
      limit: least,
      unit: 'ratio',
      basis: 'Regulation (EU) 2019/2020, Annex II, separate control gear at full load (memory)',
      sentence: `The driver turns ${percent(driver.efficiency)} of what it takes from the mains into output; ${percent(least)} is the least asked of one this size in the EU. Check the figure on its data sheet: the rest is heat in the driver place.`,
    }),
  ];
}

/** Checks of drivers: load, current, room, air, case, breaker. */
export function driverFindings(sized: Sized): Finding[] {
  return [
    load(sized),
    ...loadInEveryCase(sized),
    current(sized),
    ...room(sized),
    ambient(sized),
    caseTemperature(sized),
    breaker(sized),
    ...lightlyLoaded(sized),
    ...efficiency(sized),
  ];
}
