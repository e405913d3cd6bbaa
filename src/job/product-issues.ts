import { figures } from '../words.ts';
import { dimmingIssues } from './dimming-issues.ts';
import type { DriverData } from './driver.ts';
import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';
import { luminousBound } from './luminous-bound.ts';
import type { Products } from './products.ts';
import type { StripData } from './strip.ts';

function voltageIssue(strip: StripData, driver: DriverData, field: string): JobIssue[] {
  if (strip.nominal_V === driver.output_V) return [];
  return [
    {
      code: 'voltage-mismatch',
      place: { field },
      quantities: { strip_V: strip.nominal_V, driver_V: driver.output_V },
      sentence: `The strip is made for ${strip.nominal_V} V and the driver gives ${driver.output_V} V: choose a ${strip.nominal_V} V driver.`,
    },
  ];
}

/** Channels that would give more light than their watts can carry. */
function lightIssues({ channels }: StripData): JobIssue[] {
  return channels.flatMap((channel, i) => {
    const { lumens_per_m, watts_per_m } = channel;
    const { most_lm_per_W, because } = luminousBound(channel);
    const given_lm_per_W = lumens_per_m / watts_per_m;
    if (given_lm_per_W <= most_lm_per_W) return [];
    return [
      {
        code: 'light-without-watts' as const,
        place: { field: `strip.data.channels[${i + 1}].lumens_per_m` },
        quantities: { given_lm_per_W, most_lm_per_W },
        sentence: `Channel "${channel.name}" is to give ${figures(lumens_per_m)} lm/m from ${figures(watts_per_m)} W/m, which is ${Math.round(given_lm_per_W)} lm for each watt; ${because}. Check lumens and watts on the data sheet: both for one metre, fully on.`,
      },
    ];
  });
}

/**
 * Why the products of a job do not go together: a driver of another voltage, levels and a dimmer that do not match the
 * channels, more light than the watts of the strip can carry.
 */
export function productIssues(job: Job, products: Products): JobIssue[] {
  const { strip, driver, furtherDrivers } = products;
  return [
    ...voltageIssue(strip, driver, 'drivers.entry'),
    ...furtherDrivers.flatMap((further, i) => voltageIssue(strip, further, `drivers.also[${i + 1}].entry`)),
    ...dimmingIssues(job, products),
    ...lightIssues(strip),
  ];
}
