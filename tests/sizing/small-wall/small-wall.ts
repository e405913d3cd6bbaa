import type { SectionField } from '../../../src/heat/section-field.ts';
import type { Job } from '../../../src/job/job.ts';
import { newJob } from '../../../src/job/new-job.ts';
import { resolveProducts } from '../../../src/job/resolve.ts';
import { setOutJob } from '../../../src/set-out/set-out.ts';
import type { HeatLaw } from '../../../src/sizing/heat-law.ts';
import type { Prepared } from '../../../src/sizing/prepared.ts';
import { granted } from './granted.ts';

/** A wall small enough to be worked out by hand, without a field of heat or light. */

/** Upright slots of 1,000 mm from 100 mm up, at the given places across: twenty cut units of 50 mm each. */
export function wallOf(xs_mm: readonly number[], change: (job: Job) => void = () => {}): Job {
  const job = newJob();
  job.slots = {
    from: 'segments',
    width_mm: 20,
    segments: xs_mm.map((x_mm) => ({ x0_mm: x_mm, y0_mm: 100, x1_mm: x_mm, y1_mm: 1100 })),
  };
  change(job);
  return job;
}

/** A law by which the strip is warmer than a room of 25 degC by so many kelvins for each watt a metre. */
export function plainLaw(rise_K_per_W_per_m = 0): HeatLaw {
  const straight = { power: 1, bend: 0, warm: 1, cold: 1 };
  const none = { solderPoint: null, tape: null, timber: null, glueLine: null } as const;
  const nor = { cable: null, roomFace: null, sheet: null, stratification: null } as const;
  const cover = { coverInside: null, coverOutside: null } as const;
  return {
    accuracy: 'quick',
    nominal_W_per_m: 2.4,
    room_degC: 25,
    rises: { ...none, ...nor, ...cover, strip: 2.4 * rise_K_per_W_per_m },
    responses: { ...none, ...nor, ...cover, strip: straight },
    field: {} as SectionField,
    notes: [],
  };
}

/** What is fixed before anything electrical is known, light and section left out. */
export function preparedOf(job: Job, law = plainLaw()): Prepared {
  const products = granted(resolveProducts(job));
  const setOut = granted(setOutJob(job, products.strip));
  return { job, products, setOut, law } as Prepared;
}
