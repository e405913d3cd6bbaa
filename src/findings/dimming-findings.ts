import { dimmingFrequency_Hz } from '../job/resolve.ts';
import { candelas, figures, hertz, percent } from '../words.ts';
import { type Check, reaching, sheet } from './context.ts';
import { fieldsOf, idOf, isOnly, type Lit, titled, type Zone } from './lit-zone.ts';

/** The field that changes the frequency: the dimmer where one is chosen. */
const frequencyField = ({ products }: Lit): string =>
  products.dimmer ? 'dimming.dimmer.entry' : 'dimming.pwm_Hz';

/** How fast the strip is switched, against what full-depth switching is to reach; nothing where it is dimmed steadily. */
export function flicker(sized: Lit): Check[] {
  const { job, products, limits, light } = sized;
  const pwm_Hz = dimmingFrequency_Hz(job, products);
  if (pwm_Hz === null) return [];
  const dimmed = light.zones.some(({ levels }) => levels.working.some((level) => level < 1));
  const status =
    pwm_Hz > limits.fullModulationFrom_Hz.noEffect
      ? 'passes'
      : pwm_Hz > limits.fullModulationFrom_Hz.lowRisk
        ? 'watch'
        : 'fails';
  return [
    reaching({
      id: 'flicker',
      question: 'light',
      status,
      place: { field: frequencyField(sized) },
      title: 'Dimming frequency',
      value: pwm_Hz,
      limit: limits.fullModulationFrom_Hz.lowRisk,
      unit: 'Hz',
      basis:
        'IEEE 1789-2015 (memory): full-depth switching, low risk above 1,250 Hz, no observable effect above 3,000 Hz',
      sentence: `${dimmed ? 'The strip is dimmed' : 'When dimmed, the strip is switched'} at ${hertz(pwm_Hz)}.${status === 'passes' ? '' : ' A dimmer that switches faster than 3,000 Hz is the calm choice.'}`,
    }),
  ];
}

/** What a zone asks of the dimmer at its lowest, in words. */
function askedAtLowest(zone: Zone, lowest: number, upsideDown: boolean): string {
  const said = `${figures(100 * lowest)} %`;
  const whose = isOnly(zone) ? 'the job' : zone.lit.name;
  if (upsideDown) return `the lowest level of ${whose}, ${said}, lies above its working level: set it lower`;
  if (lowest === 1) return `${whose} asks for no level below full`;
  return `the lowest level of ${whose} is ${said}, about ${candelas(zone.lit.lowest_cd_per_m2!)}`;
}

interface Reach {
  readonly floor: number;
  readonly who: string;
  readonly basis: string;
  /** At what another one is to reach lower. */
  readonly where: string;
}

/** How low the chosen dimmer goes, or a common one of the frequency; null where nothing is known of what dims. */
function reachOf({ job, products: { dimmer }, limits }: Lit): Reach | null {
  if (dimmer)
    return {
      floor: dimmer.lowestLevel,
      who: 'The dimmer',
      basis: sheet(job.dimming.dimmer?.data ?? {}, 'lowestLevel', 'dimmer'),
      where: '',
    };
  const { pwm_Hz } = job.dimming;
  if (pwm_Hz === null) return null;
  return {
    floor: limits.lowestDimLevel(pwm_Hz),
    who: `At ${hertz(pwm_Hz)} a common dimmer`,
    basis: 'shortest clean pulse of a common dimmer, 5 µs (common practice); its data sheet comes first',
    where: ' at this frequency',
  };
}

/** Whether the lowest level of a zone is one that its dimmer, or a common one of its frequency, reaches. */
export function dimmingFloor(zone: Zone): Check[] {
  const { lowest, working: levels } = zone.lit.levels;
  const reach = reachOf(zone.sized);
  if (reach === null || lowest === null) return [];
  const { floor } = reach;
  const upsideDown = lowest > Math.max(...levels);
  const status = lowest < floor || upsideDown ? 'watch' : 'passes';
  return [
    reaching({
      id: idOf('dimming-floor', zone),
      question: 'light',
      status,
      place: { field: fieldsOf(zone).lowest },
      title: titled('Lowest level', zone),
      value: lowest,
      limit: floor,
      unit: 'ratio',
      basis: reach.basis,
      sentence: `${reach.who} goes down to about ${figures(100 * floor, 2)} % of full, which the eye takes for some ${percent(Math.sqrt(floor))}; ${askedAtLowest(zone, lowest, upsideDown)}.${lowest >= floor ? '' : ` Look for a dimmer that states so low a level${reach.where}, or choose strip with fewer lumens a metre.`}`,
    }),
  ];
}
