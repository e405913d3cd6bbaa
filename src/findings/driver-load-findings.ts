import type { Driver, DriverOutput } from '../answer/drivers.ts';
import { driverChoices, modelField, modelOf } from '../job/products.ts';
import { amps, apart, naming, percent, watts } from '../words.ts';
import { below, type Check, limited, remedy, type Sized, sheet, worst } from './context.ts';
import { largerDriver, smallerDriver } from './driver-remedies.ts';
import { loadWorking, worstLoadWorking } from './driver-workings.ts';
import { workedOut } from './working.ts';

/** Below this share of rated load the power factor of common drivers falls off (memory). */
const poorlyLoaded = 0.3;

interface Loaded {
  readonly driver: Driver;
  readonly output: DriverOutput;
}

const outputsOf = (drivers: readonly Driver[]): Loaded[] =>
  drivers.flatMap((driver) => driver.outputs.map((output) => ({ driver, output })));

/** Watts of the busiest output against what is usable of its driver: rated, derated, less the reserve. */
export function load(sized: Sized): Check {
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
    ...workedOut(loadWorking({ driver, output }, sized)),
  });
}

/** The reserve is there for tolerances, so their worst combination is held against rated watts without it. */
export function loadInEveryCase(sized: Sized): Check[] {
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
      ...workedOut(worstLoadWorking({ driver, output }, { most_W, limit_W }, sized)),
    }),
  ];
}

/** Amps of the busiest output against what its driver gives. */
export function current(sized: Sized): Check {
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

/** Drivers that carry less than three tenths of their rated watts; a smaller one that would do is named. */
export function lightlyLoaded(sized: Sized): Check[] {
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
