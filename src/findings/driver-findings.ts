import type { Driver, DriverOutput, OnBreaker } from '../answer/drivers.ts';
import type { Remedy } from '../answer/findings.ts';
import { class2_W } from '../clauses.ts';
import { driverChoices, modelField, modelOf } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { amps, apart, counted, degrees, figures, naming, percent, watts } from '../words.ts';
import { below, type Check, limited, reaching, remedy, type Sized, sheet, worst } from './context.ts';
import { airRemedies, largerDriver, placeField, smallerDriver } from './driver-remedies.ts';

/** Below this share of rated load the power factor of common drivers falls off (memory). */
const poorlyLoaded = 0.3;

interface Loaded {
  readonly driver: Driver;
  readonly output: DriverOutput;
}

const outputsOf = (drivers: readonly Driver[]): Loaded[] =>
  drivers.flatMap((driver) => driver.outputs.map((output) => ({ driver, output })));

function load(sized: Sized): Check {
  const { drivers, job } = sized;
  const { driver, output } = worst(outputsOf(drivers.drivers), (o) => o.output.load);
  const over = output.load > 1 + 1e-9;
  const [carried, usable] = apart(watts, output.watts, output.usable_W);
  return limited({
    id: 'driver-load',
    question: 'drivers',
    status: over ? 'fails' : 'passes',
    place: { driver: driver.id, field: modelField(driver, 'entry') },
    title: 'Load on the busiest driver output',
    value: output.watts,
    limit: output.usable_W,
    unit: 'W',
    basis: `rated watts, derated for the air round the driver, less a reserve of ${percent(job.drivers.reserve)} (reserve: common practice)`,
    sentence: `Output ${output.id} carries ${carried} of ${usable} usable.`,
    remedies: over ? largerDriver(sized, driver, output.watts) : [],
  });
}

/** The reserve is there for tolerances, so their worst combination is held against rated watts without it. */
function loadInEveryCase(sized: Sized): Check[] {
  const { drivers } = sized;
  const banded = outputsOf(drivers.drivers).flatMap(({ driver, output }) =>
    output.band_W
      ? [{ driver, output, most_W: output.band_W.greatest, limit_W: driver.rated_W * driver.derating }]
      : [],
  );
  if (banded.length === 0) return [];
  const { driver, output, most_W, limit_W } = worst(banded, (o) => o.most_W / o.limit_W);
  const over = most_W > limit_W;
  const [most, limit] = apart(watts, most_W, limit_W);
  return [
    limited({
      id: 'driver-load-worst',
      question: 'drivers',
      status: over ? 'fails' : 'passes',
      place: { driver: driver.id, field: 'drivers.reserve' },
      title: 'Load in the worst combination of tolerances',
      value: most_W,
      limit: limit_W,
      unit: 'W',
      basis: 'rated watts, derated, without the reserve, which is there for this',
      sentence: `With every tolerance at its worst, output ${output.id} carries ${most} of ${limit}.`,
      remedies: over
        ? [remedy('drivers.reserve', 'Keep a larger reserve.'), ...largerDriver(sized, driver, output.watts)]
        : [],
    }),
  ];
}

function current(sized: Sized): Check {
  const { drivers, products } = sized;
  const limitOf_A = (of: Driver): number => modelOf(products, of).current_A;
  const { driver, output } = worst(
    outputsOf(drivers.drivers),
    (o) => o.output.current_A / limitOf_A(o.driver),
  );
  const limit_A = limitOf_A(driver);
  const status = below(output.current_A, limit_A);
  const [given, limit] = apart(amps, output.current_A, limit_A);
  return limited({
    id: 'driver-current',
    question: 'drivers',
    status,
    place: { driver: driver.id, field: modelField(driver, 'entry') },
    title: 'Current from the busiest driver output',
    value: output.current_A,
    limit: limit_A,
    unit: 'A',
    basis: sheet(driverChoices(sized.job)[driver.model]!.data, 'current_A', 'driver'),
    sentence: `Output ${output.id} gives ${given}; it is limited to ${limit}.`,
    remedies: status === 'passes' ? [] : largerDriver(sized, driver, output.watts),
  });
}

function room(sized: Sized): Check[] {
  const { drivers, job } = sized;
  return drivers.places.map((place, i) => {
    const field = placeField(sized, i);
    return {
      id: `driver-fit-${i + 1}`,
      question: 'drivers',
      status: place.fits ? 'passes' : 'fails',
      place: { field },
      title: `Room for drivers in ${place.name}`,
      value: place.driverCount,
      limit: null,
      margin: null,
      unit: '',
      basis: `case size and clearance: ${sheet((driverChoices(job).find(({ data }) => data.length_mm === undefined) ?? job.drivers).data, 'length_mm', 'driver')}; place as measured in the job`,
      sentence: place.fitNote,
      remedies: place.fits
        ? []
        : [
            remedy(field, `Enlarge ${place.name}.`),
            remedy('drivers.places', 'Add another place for drivers.'),
            remedy('drivers.entry', 'Choose drivers with smaller cases.'),
          ],
    };
  });
}

function ambient(sized: Sized): Check {
  const { drivers, products, job } = sized;
  const driver = worst(drivers.drivers, (d) => d.ambient_degC - modelOf(products, d).fullLoadAmbient_degC);
  const { fullLoadAmbient_degC, highestAmbient_degC } = modelOf(products, driver);
  const status = below(driver.ambient_degC, highestAmbient_degC, fullLoadAmbient_degC);
  const [reached, rated] = apart(degrees, driver.ambient_degC, fullLoadAmbient_degC);
  const air = airRemedies(sized, driver);
  return limited({
    id: 'driver-ambient',
    question: 'drivers',
    status,
    place: { driver: driver.id, field: air[0]!.field! },
    title: 'Air round the warmest driver',
    value: driver.ambient_degC,
    limit: highestAmbient_degC,
    unit: '°C',
    basis: `ta: ${sheet(driverChoices(job)[driver.model]!.data, 'highestAmbient_degC', 'driver')}; air from a heat balance of the driver place`,
    sentence: `The air round ${driver.id} reaches ${reached}; full load is rated to ${rated}.`,
    remedies: status === 'passes' ? [] : air,
  });
}

function caseTemperature(sized: Sized): Check {
  const { drivers, products, job } = sized;
  const driver = worst(drivers.drivers, (d) => d.case_degC - modelOf(products, d).caseLimit_degC);
  const { caseLimit_degC } = modelOf(products, driver);
  const status = below(driver.case_degC, caseLimit_degC, caseLimit_degC - 5);
  const [reached, limit] = apart(degrees, driver.case_degC, caseLimit_degC);
  const air = airRemedies(sized, driver);
  return limited({
    id: 'driver-case',
    question: 'drivers',
    status,
    place: { driver: driver.id, field: air[0]!.field! },
    title: 'Case of the warmest driver',
    value: driver.case_degC,
    limit: caseLimit_degC,
    unit: '°C',
    basis: `tc as marked on the case: ${sheet(driverChoices(job)[driver.model]!.data, 'caseLimit_degC', 'driver')}; kept 5 K below it for life's sake (common practice)`,
    sentence: `The case of ${driver.id} reaches about ${reached}; its mark is tc ${limit}. ${lifeByThumb(driver.lifeRatio)}`,
    remedies:
      status === 'passes' ? [] : [...air, remedy('drivers.reserve', 'Load it less: keep a larger reserve.')],
  });
}

function lifeByThumb(ratio: number): string {
  const share = ratio < 0.01 ? 'less than a hundredth of' : `about ${figures(ratio, 2)} times`;
  const times = ratio >= 2 ? 'at least twice' : share;
  return `As a rule of thumb 10 K more halve a driver's life: here it comes to ${times} what its maker states at that mark.`;
}

/** How many drivers there are against what one breaker starts together; of several models, what part of it they take. */
function breaker({ drivers }: Sized): Check {
  const { breaker, drivers: all } = drivers;
  const [first, ...others] = breaker.models;
  return others.length === 0 ? breakerOfOne(drivers, first!) : breakerOfSeveral(breaker, all.length);
}

type Breaker = Sized['drivers']['breaker'];

const breakerCheck = ({ name }: Breaker) =>
  ({
    id: 'breaker-inrush',
    question: 'drivers',
    place: { field: 'site.breakerCurve' },
    title: `Drivers on one ${name} circuit-breaker`,
  }) as const;

function breakerOfOne(
  { breaker, drivers: all }: Sized['drivers'],
  { mostDrivers, formula }: OnBreaker,
): Check {
  const over = all.length > mostDrivers;
  return limited({
    ...breakerCheck(breaker),
    status: over ? 'watch' : 'passes',
    value: all.length,
    limit: mostDrivers,
    unit: '',
    basis: formula,
    sentence: over
      ? `${counted(all.length, 'driver')} switched on together may trip one ${breaker.name} breaker, which holds ${mostDrivers}.`
      : `Up to ${mostDrivers} of these drivers may start together on one ${breaker.name} breaker; the job has ${all.length}.`,
    remedies: over ? startRemedies(breaker) : [],
  });
}

function breakerOfSeveral(breaker: Breaker, driverCount: number): Check {
  const { loads, models, most, name } = breaker;
  const over = loads.length !== 1;
  const share = loads.length === 0 ? null : loads.reduce((sum, load) => sum + load.share, 0);
  return {
    ...breakerCheck(breaker),
    status: over ? 'watch' : 'passes',
    value: share,
    limit: 1,
    margin: share === null ? null : 1 - share,
    unit: 'ratio',
    basis: `each driver takes one over the number of its model (common practice); ${models.map((each) => `${each.name}: ${each.formula}`).join('; ')}`,
    sentence: over
      ? `${counted(driverCount, 'driver')} switched on together may trip one ${name} breaker, which holds ${most}.`
      : `One ${name} breaker may start ${most} together; the drivers of the job take ${percent(share!)} of that.`,
    remedies: over ? startRemedies(breaker) : [],
  };
}

function startRemedies({ loads }: Breaker): Remedy[] {
  return [
    loads.length > 0
      ? remedy(
          null,
          `The electrician spreads them over ${counted(loads.length, 'breaker')}, or fits an inrush limiter.`,
        )
      : remedy('site.breakerCurve', 'Ask the electrician for another breaker, or for an inrush limiter.'),
  ];
}

/** Models of which the job takes more than there are. */
function stock({ job, drivers }: Sized): Check[] {
  const { also } = job.drivers;
  return driverChoices(job).flatMap(({ stock: limit }, model) => {
    const taken = drivers.drivers.filter((driver) => driver.model === model);
    if (limit === null || taken.length <= limit) return [];
    const field = modelField({ model }, 'stock');
    return limited({
      id: `driver-stock-${model + 1}`,
      question: 'drivers',
      status: 'watch',
      place: { driver: taken[0]!.id, field },
      title: `Drivers at hand: ${taken[0]!.name}`,
      value: taken.length,
      limit,
      unit: '',
      basis: 'the number at hand, as entered',
      sentence: `The job takes ${taken.length} of the ${taken[0]!.name}, and ${limit} ${limit === 1 ? 'is' : 'are'} at hand: no other sharing out does with what there is.`,
      remedies: [
        remedy(field, `Get ${taken.length - limit} more, and enter how many there are then.`),
        ...(also.length < 8 ? [remedy('drivers.also', 'Allow a further driver model.')] : []),
      ],
    });
  });
}

function lightlyLoaded(sized: Sized): Check[] {
  const { drivers, products } = sized;
  const isOneModel = products.furtherDrivers.length === 0;
  const light = drivers.drivers.filter((d) => d.watts < poorlyLoaded * d.rated_W);
  if (light.length === 0) return [];
  const smaller = isOneModel ? smallerDriver(sized) : undefined;
  const whole = `${naming(
    'Driver',
    light.map((d) => d.id),
  )} ${light.length === 1 ? 'carries' : 'carry'} less than ${percent(poorlyLoaded)} of the ${isOneModel ? `${watts(products.driver.rated_W)} ` : 'watts '}${light.length === 1 ? 'it is' : 'they are'} made for, where efficiency and power factor fall off.`;
  const fullest_W = Math.max(...drivers.drivers.map((d) => d.watts));
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
      sentence: smaller
        ? whole
        : !isOneModel
          ? `${whole} None smaller of those the job allows would do here: nothing has to change.`
          : `${whole} The job has drivers of one type, and the fullest, with ${watts(fullest_W)}, needs this size: nothing has to change.`,
      remedies: smaller
        ? [
            remedy(
              'drivers.entry',
              `Take one of ${watts(smaller.rated_W)}, such as ${smaller.name}: the fullest driver here carries ${watts(fullest_W)}.`,
            ),
          ]
        : [],
    },
  ];
}

/** A sheet that promises less than the market asks for is worth a second look. */
function efficiency({ products, drivers, limits }: Sized): Check[] {
  const inUse = [...new Set(drivers.drivers.map(({ model }) => model))];
  const poor = inUse
    .map((model) => ({ model, sheet: modelOf(products, { model }) }))
    .map((each) => ({ ...each, least: limits.leastEfficiency(each.sheet.rated_W) }))
    .filter(({ sheet, least }) => sheet.efficiency < least);
  if (poor.length === 0) return [];
  const { model, sheet: driver, least } = worst(poor, (each) => each.least - each.sheet.efficiency);
  return [
    reaching({
      id: 'driver-efficiency',
      question: 'drivers',
      status: 'watch',
      place: { field: modelField({ model }, 'entry') },
      title: 'Efficiency of the driver',
      value: driver.efficiency,
      limit: least,
      unit: 'ratio',
      basis: 'Regulation (EU) 2019/2020, Annex II, separate control gear at full load (memory)',
      sentence: `The driver turns ${percent(driver.efficiency)} of what it takes from the mains into output; ${percent(least)} is the least asked of one this size in the EU. The rest is heat in the driver place.`,
      remedies: [remedy(modelField({ model }, 'data.efficiency'), 'Check the figure on its data sheet.')],
    }),
  ];
}

/** Never passed, because whether a driver is a Class 2 source is on its label; an output that may give more is none. */
function class2({ job, products, drivers }: Sized): Check[] {
  const set_V = setVoltage_V(job, products);
  const most_W = class2_W(job.site.rules, set_V);
  if (most_W === null || drivers.drivers.length === 0) return [];
  const givesOf_W = (of: Pick<Driver, 'model'>): number => {
    const { rated_W, current_A } = modelOf(products, of);
    return Math.min(rated_W, current_A * set_V);
  };
  const strongest = worst(drivers.drivers, givesOf_W);
  const gives_W = givesOf_W(strongest);
  const field = modelField(strongest, 'entry');
  const [given, limit] = apart(watts, gives_W, most_W);
  const over = gives_W > most_W * (1 + 1e-9);
  return [
    limited({
      id: 'class-2-output',
      question: 'drivers',
      status: over ? 'watch' : 'note',
      place: { field },
      title: 'Output of a driver as a Class 2 source',
      value: gives_W,
      limit: most_W,
      unit: 'W',
      basis: `NEC, chapter 9, tables 11(A) and 11(B) (from memory): 5 A up to 20 V, 100 VA above`,
      sentence: over
        ? `An output of this driver can give ${given}, and a Class 2 source ${limit} at most: it is none, however little it is loaded, and the electrician wires it by the rules for other circuits.`
        : `An output of this driver can give ${given}, no more than the ${limit} of a Class 2 source. Whether it is listed as one is on its label.`,
      remedies: over
        ? [remedy(field, `Choose drivers marked Class 2, of ${limit} or less to an output.`)]
        : [],
    }),
  ];
}

/** Checks of drivers: load, current, room, air, case, breaker, stock, class of the output. */
export function driverFindings(sized: Sized): Check[] {
  return [
    load(sized),
    ...loadInEveryCase(sized),
    current(sized),
    ...room(sized),
    ambient(sized),
    caseTemperature(sized),
    breaker(sized),
    ...stock(sized),
    ...lightlyLoaded(sized),
    ...class2(sized),
    ...efficiency(sized),
  ];
}
