import type { Driver } from '../answer/drivers.ts';
import { class2_W } from '../clauses.ts';
import { driverChoices, modelField, modelOf } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { apart, percent, watts } from '../words.ts';
import { breaker } from './breaker-findings.ts';
import { type Check, limited, reaching, remedy, type Sized, sheet, worst } from './context.ts';
import { ambient, caseTemperature } from './driver-heat-findings.ts';
import { current, lightlyLoaded, load, loadInEveryCase } from './driver-load-findings.ts';
import { placeField } from './driver-remedies.ts';

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
