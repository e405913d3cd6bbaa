import type { AskedDrivers, AskedLayouts } from '../../src/answer/asked.ts';
import type { Job } from '../../src/job/job.ts';
import { driverChoices } from '../../src/job/products.ts';
import { choiceText } from '../words.ts';
import type { Proposal } from './proposals.ts';

type DriversRow = AskedDrivers['rows'][number];
type LayoutRow = AskedLayouts['rows'][number];

/** The models of a row as the job's drivers; what the job says of one of them already, it keeps. */
function withModels(job: Job, { models }: DriversRow): Job {
  const own = driverChoices(job);
  const [first, ...also] = models.map(({ entry, control }) => {
    const { data, stock } = own.find((each) => each.entry === entry) ?? {
      data: control === null ? {} : { control },
      stock: null,
    };
    return { entry, data, stock };
  });
  return first ? { ...job, drivers: { ...job.drivers, ...first, also } } : job;
}

/** The drivers of a row; nothing for one the job is refused with. */
export function driversProposal(row: DriversRow): Proposal | undefined {
  if (row.driverCount === null) return undefined;
  return {
    what: row.name,
    fields: ['drivers.entry', 'drivers.data', 'drivers.also', 'drivers.stock'],
    edit: (job) => withModels(job, row),
  };
}

/** The layout of a row, for the wall or for its zone; nothing for one the job is refused with. */
export function layoutRowProposal(
  { zone, zoneName, layout, cable_m }: LayoutRow,
  at: Job,
): Proposal | undefined {
  if (cable_m === null) return undefined;
  const index = at.dimming.zones.findIndex(({ id }) => id === zone);
  const name = choiceText('layout', layout, '');
  return {
    what: zoneName === null ? name : `${name} in zone ${zoneName}`,
    fields: [zone === null ? 'cables.layout' : `dimming.zones[${index + 1}].layout`],
    edit: (job) =>
      zone === null
        ? { ...job, cables: { ...job.cables, layout } }
        : {
            ...job,
            dimming: {
              ...job.dimming,
              zones: job.dimming.zones.map((each) =>
                each.id === zone && (each.layout ?? job.cables.layout) !== layout
                  ? { ...each, layout }
                  : each,
              ),
            },
          },
  };
}
