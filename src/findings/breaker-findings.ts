import type { OnBreaker } from '../answer/drivers.ts';
import type { Remedy } from '../answer/findings.ts';
import { counted, percent } from '../words.ts';
import { type Check, limited, remedy, type Sized } from './context.ts';
import { breakerWorking } from './driver-workings.ts';
import { workedOut } from './working.ts';

/** How many drivers there are against what one breaker starts together; of several models, what part of it they take. */
export function breaker(sized: Sized): Check {
  const { drivers } = sized;
  const { breaker, drivers: all } = drivers;
  const [first, ...others] = breaker.models;
  return others.length === 0 ? breakerOfOne(sized, first!) : breakerOfSeveral(breaker, all.length);
}

type Breaker = Sized['drivers']['breaker'];

const breakerCheck = ({ name }: Breaker) =>
  ({
    id: 'breaker-inrush',
    question: 'drivers',
    place: { field: 'site.breakerCurve' },
    title: `Drivers on one ${name} circuit-breaker`,
  }) as const;

function breakerOfOne(sized: Sized, model: OnBreaker): Check {
  const { breaker, drivers: all } = sized.drivers;
  const { mostDrivers, formula } = model;
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
    ...workedOut(breakerWorking(model, sized)),
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
