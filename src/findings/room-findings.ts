import type { Remedy } from '../answer/findings.ts';
import type { RoomPointLight } from '../answer/room-light.ts';
import { lux, mm, wattsPerMetre } from '../words.ts';
import { type Check, reaching, remedy, type Sized } from './context.ts';

type Wanted = RoomPointLight & { readonly wanted_lx: number };

const isWanted = (point: RoomPointLight): point is Wanted => point.wanted_lx !== null;

/** Where a place is, for people: "on the floor, 1,000 mm from the wall". */
function where({ plane, distance_mm, height_mm }: RoomPointLight): string {
  const surface =
    plane === 'facing wall'
      ? `on a wall facing it, ${mm(height_mm)} up`
      : height_mm === 0
        ? 'on the floor'
        : `on a level surface ${mm(height_mm)} up`;
  return `${surface}, ${mm(distance_mm)} from the lit wall`;
}

/** What is judged: the maintained light itself, or the least of its band where it is enough only by the figure. */
const judged_lx = ({ maintained_lx, band_lx }: Wanted['working'], falls: boolean): number =>
  falls ? maintained_lx : band_lx.least;

/** The levels that give it, where all slots and channels go by one. */
function levelNeeded({ light }: Sized, times: number): string {
  const levels = light.zones.flatMap((zone) => zone.levels.working);
  return levels.length === 1 ? ` to ${Math.ceil(100 * times * levels[0]!)} %` : '';
}

/** What gives more light: the levels where full is enough, else more strip, in any case other lamps. */
function moreLight(sized: Sized, { working, full, wanted_lx }: Wanted, falls: boolean): Remedy[] {
  const { job, products } = sized;
  const otherLamps = remedy(
    'light.room.points',
    'Light the room by other lamps as well: they are not counted here.',
  );
  const [now_lx, atFull_lx] = [judged_lx(working, falls), judged_lx(full, falls)];
  if (now_lx > 0 && atFull_lx >= wanted_lx)
    return [
      remedy('dimming.levels[1]', `Raise the working level${levelNeeded(sized, wanted_lx / now_lx)}.`),
      otherLamps,
    ];
  const rated_W_per_m = products.strip.channels.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);
  const more = `Choose about ${wattsPerMetre((rated_W_per_m * wanted_lx) / atFull_lx)} of this kind of strip, run at full.`;
  return [
    ...(atFull_lx > 0 ? [remedy('strip.entry', more)] : []),
    ...(job.section.cover === 'opal acrylic'
      ? [remedy('section.cover', 'Take light opal acrylic, which lets more through.')]
      : []),
    otherLamps,
  ];
}

function wanted(sized: Sized, point: Wanted, i: number): Check {
  const { maintained_lx, band_lx } = point.working;
  const falls = maintained_lx < point.wanted_lx;
  const { doubts } = sized.roomLight;
  const mayFall = band_lx.least < point.wanted_lx;
  const status = falls ? 'fails' : mayFall || doubts.length > 0 ? 'watch' : 'passes';
  const called = point.name === '' ? `place ${i + 1}` : point.name;
  return reaching({
    id: `room-${i + 1}`,
    question: 'light',
    status,
    place: { field: `light.room.points[${i + 1}].wanted_lx` },
    title: `Light at ${called}`,
    value: maintained_lx,
    limit: point.wanted_lx,
    unit: 'lx',
    basis:
      'the light wanted in the job, maintained; slots as matt faces, bounced light as in an integrating sphere, no other lamps',
    sentence: `At the working level about ${lux(maintained_lx)} reach ${called}, ${where(point)}; ${lux(point.wanted_lx)} are wanted. Strip, finishes and sheets leave it between ${lux(band_lx.least)} and ${lux(band_lx.greatest)}${status === 'watch' && mayFall ? ', so that it may fall short' : ''}.${doubts.map((doubt) => ` ${doubt}`).join('')}`,
    remedies: falls || mayFall ? moreLight(sized, point, falls) : [],
  });
}

/** Checks of the light wanted in the room: only where the job wants some. */
export const roomFindings = (sized: Sized): Check[] =>
  sized.roomLight.points.flatMap((point, i) => (isWanted(point) ? [wanted(sized, point, i)] : []));
