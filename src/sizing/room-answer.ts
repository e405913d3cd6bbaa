import type { RoomLight, RoomPointLight } from '../answer/room-light.ts';
import type { Run, SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import { cornersOfWall } from '../job/panels.ts';
import type { Room, RoomPoint } from '../job/room.ts';
import { forWidth } from '../job/slot-widths.ts';
import { levelsOfZone } from '../job/zone-levels.ts';
import { lightTolerances, type Ratios } from '../light/light-band.ts';
import { bouncedLight_lx, directLight_lx, type LitOpening } from '../light/room-light.ts';
import { slotEdges } from '../light/section.ts';
import type { PlaneElement, Vector3 } from '../numeric/element-factor.ts';
import { undimmed } from './channels.ts';
import { circuitLight } from './dimming-of-job.ts';
import { lightBandOf } from './light-answer.ts';
import { fullFlux_lm_per_m, levelShare, litSectionOfJob } from './light-of-job.ts';
import type { Prepared } from './prepared.ts';
import type { Settled } from './settle.ts';

/** A run as the room meets it. */
interface Lit {
  readonly slot: string;
  readonly full_lm: number;
  readonly working_lm: number;
  readonly corners: readonly Vector3[];
  readonly area_m2: number;
}

/** The lit part of a slot in the plane of the wall: as long as its strip, as wide as the slot or the mouth in it, in metres. */
function litCorners({ x0_mm, y0_mm, x1_mm, y1_mm }: Run, width_m: number, floor_mm: number): Vector3[] {
  const length = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm);
  const [nx, ny] = [((y0_mm - y1_mm) / length) * (width_m / 2), ((x1_mm - x0_mm) / length) * (width_m / 2)];
  const at = (x_mm: number, y_mm: number, side: 1 | -1): Vector3 => [
    x_mm / 1000 + side * nx,
    (y_mm + floor_mm) / 1000 + side * ny,
    0,
  ];
  return [at(x0_mm, y0_mm, 1), at(x1_mm, y1_mm, 1), at(x1_mm, y1_mm, -1), at(x0_mm, y0_mm, -1)];
}

/** Every run with the light it sends out: that of the strip at the volts solved, times what leaves the slot. */
function litRuns({ job, products, setOut, light }: Prepared, { solution }: Settled): Lit[] {
  const { strip } = products;
  const mouths = new Map<number, number>();
  const mouthOf_m = (width_mm: number): number => {
    const known = mouths.get(width_mm);
    if (known !== undefined) return known;
    const { left_m, right_m } = slotEdges(litSectionOfJob(forWidth(job, width_mm), products, setOut));
    mouths.set(width_mm, right_m - left_m);
    return right_m - left_m;
  };
  const widths = new Map(setOut.slots.map(({ id, width_mm }) => [id, width_mm]));
  return setOut.runs.map((run, i) => {
    const mouth_m = mouthOf_m(widths.get(run.slot)!);
    const each = undimmed(solution.runs[i]!.light, circuitLight(job, products, run.zone));
    const share = each.reduce((sum, one) => sum + one, 0) / each.length;
    const length_m = run.strip_mm / 1000;
    const { fluxShare = 1, ofWidth = light } =
      light.zones.find(({ slots }) => slots.includes(run.slot)) ?? {};
    const sheet_lm = fullFlux_lm_per_m(strip) * ofWidth.outFraction * share * length_m;
    return {
      slot: run.slot,
      full_lm: sheet_lm * (light.warm?.fluxShare ?? 1),
      working_lm: sheet_lm * fluxShare * levelShare(strip, levelsOfZone(job, run.zone).levels),
      corners: litCorners(run, mouth_m, job.light.floor_mm),
      area_m2: length_m * mouth_m,
    };
  });
}

const roomArea_m2 = ({ width_mm, depth_mm, height_mm }: Room): number =>
  (2 * (width_mm * depth_mm + width_mm * height_mm + depth_mm * height_mm)) / 1e6;

/** Reflectance of a room is known to a tenth (judgement). */
const roomReflectance = 0.1;
const whitest = 0.95;

type Level = 'full_lm' | 'working_lm';

/** Lux at a place with the wall at one level. */
function illuminance(
  element: PlaneElement,
  {
    runs,
    room,
    tolerance,
  }: { readonly runs: readonly Lit[]; readonly room: Room; readonly tolerance: Ratios },
  level: Level,
): RoomPointLight['working'] {
  const openings: LitOpening[] = runs.map((run) => ({ ...run, flux_lm: run[level] }));
  const flux_lm = runs.reduce((sum, run) => sum + run[level], 0);
  const area_m2 = roomArea_m2(room);
  const bounced = (reflectance: number): number => bouncedLight_lx(flux_lm, { area_m2, reflectance });
  const direct_lx = directLight_lx(element, openings);
  const { reflectance, maintenance } = room;
  const darker = bounced(Math.max(0, reflectance - roomReflectance));
  const lighter = bounced(Math.min(whitest, reflectance + roomReflectance));
  return {
    direct_lx,
    bounced_lx: bounced(reflectance),
    maintained_lx: maintenance * (direct_lx + bounced(reflectance)),
    band_lx: {
      least: maintenance * tolerance.least * (direct_lx + darker),
      greatest: maintenance * tolerance.greatest * (direct_lx + lighter),
    },
  };
}

/** A place as the engine has it: metres from the lower left corner of the panel's foot on the floor, out into the room. */
function elementOf({ plane, distance_mm, height_mm }: RoomPoint, along_mm: number): PlaneElement {
  return {
    at: [along_mm / 1000, height_mm / 1000, distance_mm / 1000],
    normal: plane === 'level' ? [0, 1, 0] : [0, 0, -1],
  };
}

function pointLight(point: RoomPoint, job: Job, asked: Parameters<typeof illuminance>[1]): RoomPointLight {
  const { name, plane, distance_mm, height_mm, wanted_lx } = point;
  const along_mm = point.along_mm ?? job.panel.width_mm / 2;
  const element = elementOf(point, along_mm);
  return {
    ...{ name, plane, distance_mm, height_mm, along_mm, wanted_lx },
    working: illuminance(element, asked, 'working_lm'),
    full: illuminance(element, asked, 'full_lm'),
  };
}

function ofSlot({ id }: SlotLine, runs: readonly Lit[]): RoomLight['slots'][number] {
  const own = runs.filter(({ slot }) => slot === id);
  return { slot: id, ...sums(own) };
}

const sums = (runs: readonly Lit[]): RoomLight['wall'] => ({
  full_lm: runs.reduce((sum, run) => sum + run.full_lm, 0),
  working_lm: runs.reduce((sum, run) => sum + run.working_lm, 0),
});

const percent = (share: number): string => `${Math.round(100 * share)} %`;

const method = `each slot an evenly bright matt face; light the room reflects even over all its faces, as in an integrating sphere; nothing stands in the way, and no other lamp is on. The band: strip ${percent(lightTolerances.flux)}, sheets ${percent(lightTolerances.transmittance)}, finishes ${lightTolerances.reflectance} and the room ${roomReflectance} of reflectance either way, all at once`;

const turned =
  'The wall turns a corner, and the lux are those of a wall that goes straight on: past the corner they are not what will be met.';
const inView =
  'LEDs can be seen through the slots, so that light leaves them in beams and not evenly to all sides: straight ahead there is more than given here, to the side less.';

/** What the even matt faces of a flat wall leave out. */
const doubtsOf = ({ job, light }: Prepared): string[] => [
  ...(cornersOfWall(job).length > 0 ? [turned] : []),
  ...(light.bareLampsSeen.length > 0 ? [inView] : []),
];

/**
 * What the wall gives the room: the lumens of the strip at the volts solved, times the share that leaves the slot, slot by
 * slot, and the light at every place the job asks for, new and maintained, with its band.
 * Check: `tests/sizing/room-of-job.test.ts`.
 */
export function roomAnswer(prepared: Prepared, settled: Settled): RoomLight {
  const { job, setOut } = prepared;
  const runs = litRuns(prepared, settled);
  const tolerance = lightBandOf(litSectionOfJob(job, prepared.products, setOut)).leaving;
  const { room } = job.light;
  return {
    slots: setOut.slots.map((slot) => ofSlot(slot, runs)),
    wall: sums(runs),
    tolerance,
    points:
      room === null ? [] : room.points.map((point) => pointLight(point, job, { runs, room, tolerance })),
    method,
    doubts: room === null ? [] : doubtsOf(prepared),
  };
}
