import type { DriverData } from '../job/driver.ts';
import { driverChoices, modelOf } from '../job/products.ts';
import { apart, degrees, figures } from '../words.ts';
import { below, type Check, limited, remedy, type Sized, sheet, worst } from './context.ts';
import { airRemedies } from './driver-remedies.ts';
import { airWorking, caseWorking } from './driver-workings.ts';
import { workedOut } from './working.ts';

/** What the two temperatures of the sheet mean: to the first full load, to the second less of it, above that none. */
function airInWords(ambient_degC: number, { fullLoadAmbient_degC, highestAmbient_degC }: DriverData): string {
  const [toRated, rated] = apart(degrees, ambient_degC, fullLoadAmbient_degC);
  const [toHighest, highest] = apart(degrees, ambient_degC, highestAmbient_degC);
  const reached = toHighest.length > toRated.length ? toHighest : toRated;
  const beyond =
    highestAmbient_degC > fullLoadAmbient_degC
      ? `in warmer air it may be loaded less, and above ${highest}, the limit here, not at all`
      : 'in warmer air it may not run';
  return `reaches ${reached}. The driver is rated for full load to ${rated}; ${beyond}.`;
}

/** Air round the warmest driver, against the highest its maker allows; warning above the one full load is rated to. */
export function ambient(sized: Sized): Check {
  const { drivers, products, job } = sized;
  const driver = worst(drivers.drivers, (d) => d.ambient_degC - modelOf(products, d).fullLoadAmbient_degC);
  const { fullLoadAmbient_degC, highestAmbient_degC } = modelOf(products, driver);
  const status = below(driver.ambient_degC, highestAmbient_degC, fullLoadAmbient_degC);
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
    sentence: `The air round ${driver.id} ${airInWords(driver.ambient_degC, modelOf(products, driver))}`,
    remedies: status === 'passes' ? [] : air,
    ...workedOut(airWorking(driver, highestAmbient_degC, sized)),
  });
}

/** Case of the warmest driver against its mark tc; warning within 5 K of it (common practice). */
export function caseTemperature(sized: Sized): Check {
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
    working: caseWorking(driver, sized),
  });
}

function lifeByThumb(ratio: number): string {
  const share = ratio < 0.01 ? 'less than a hundredth of' : `about ${figures(ratio, 2)} times`;
  const times = ratio >= 2 ? 'at least twice' : share;
  return `As a rule of thumb 10 K more halve a driver's life: here it comes to ${times} what its maker states at that mark.`;
}
