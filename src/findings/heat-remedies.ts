import type { Remedy } from '../answer/findings.ts';
import { mm, percent, wattsPerMetre } from '../words.ts';
import { remedy, type Sized } from './context.ts';

/** Strip that would do is worth naming where it draws this much less. */
const worthNaming = 0.95;

/** Both at full: what the wanted brightness takes there, and what the strip is rated at. */
function fewerWatts({ light, products }: Sized): Remedy {
  const now = products.strip.channels.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);
  const needed = Math.max(...light.zones.map((zone) => zone.needed_W_per_m));
  return needed < worthNaming * now
    ? remedy(
        'strip.entry',
        `Take strip with fewer watts per metre: ${wattsPerMetre(needed)} of this kind would give the brightness wanted at full, and this strip has ${wattsPerMetre(now)}.`,
      )
    : remedy(
        'strip.entry',
        `Take strip with fewer watts per metre than ${wattsPerMetre(now)}: one with more lumens per watt, or for less brightness.`,
      );
}

/** An aluminium flat where there is none, or a wider one where the bay has room. */
function carrier({ job, section: { pitch_mm }, products }: Sized): Remedy[] {
  const { section } = job;
  if (products.profile !== null)
    return [remedy('section.profile.entry', 'Take a larger profile: more of it gives off heat.')];
  const along_mm = section.strip === 'side' ? section.cavity_mm : pitch_mm - section.batten_mm;
  if (section.carrier === 'none')
    return along_mm > products.strip.width_mm && section.cavity_mm > 2 * section.carrierThickness_mm
      ? [remedy('section.carrier', 'Put the strip on an aluminium flat.')]
      : [];
  const room_mm = along_mm - section.carrierWidth_mm;
  return room_mm < 10
    ? []
    : [
        remedy(
          'section.carrierWidth_mm',
          `Take a wider aluminium flat: it is ${mm(section.carrierWidth_mm)} wide in a bay of ${mm(along_mm)}.`,
        ),
      ];
}

/** A slot further from the edge of the panel, where the section is that of the outermost one. */
function margin({ job: { slots }, section: { edge_mm, pitch_mm } }: Sized): Remedy[] {
  if (edge_mm === null) return [];
  return [
    remedy(
      slots.from === 'generator' ? 'slots.left_mm' : 'slots',
      `Set the outermost slots further in: the panel ends ${mm(Math.abs(edge_mm))} from the middle of one, and from ${mm(pitch_mm / 2)} on its edge makes nothing warmer.`,
    ),
  ];
}

function openings({ job: { section } }: Sized): Remedy[] {
  return [
    ...(section.cover === 'open' || section.strip === 'recessed'
      ? []
      : [
          remedy(
            'section.cover',
            'Leave the slot open, where nobody can look at the bare LEDs or reach into it.',
          ),
        ]),
    ...(section.behind !== 'insulation'
      ? []
      : [
          remedy(
            'section.behind',
            'Where an inner wall with a room behind it stands behind the backing instead of insulation, say so: heat leaves that way.',
          ),
        ]),
  ];
}

/** Last of all: a limit that somebody has to keep for as long as the wall stands. */
function limitedDimmer({ job: { dimming }, light }: Sized): Remedy[] {
  const highest = Math.max(...light.zones.flatMap(({ levels }) => levels.working));
  if (dimming.sizeFor === 'levels' || highest >= 1) return [];
  return [
    remedy(
      'dimming.sizeFor',
      `Last of all, limit the dimmer to ${percent(highest)} for good: then that limit is a condition on every paper.`,
    ),
  ];
}

/**
 * What makes a build-up cooler, the best first: fewer watts of strip, then an aluminium flat, then other ways out for the
 * heat, and a limit on the dimmer last. Only what is not done yet and can be done in this job; a deeper cavity is
 * not among it, because it hardly helps.
 */
export function coolerBuildUp(sized: Sized): Remedy[] {
  return [
    fewerWatts(sized),
    ...carrier(sized),
    ...margin(sized),
    ...openings(sized),
    ...limitedDimmer(sized),
  ];
}
