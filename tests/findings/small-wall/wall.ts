import type { Cable } from '../../../src/answer/cables.ts';
import type { CircuitAnswer } from '../../../src/answer/circuit.ts';
import type { Condition } from '../../../src/answer/conditions.ts';
import type { Driver, DriverOutput, DriversAnswer } from '../../../src/answer/drivers.ts';
import type { HeatAnswer } from '../../../src/answer/heat.ts';
import type { HungAnswer } from '../../../src/answer/hung.ts';
import type { InstallationAnswer } from '../../../src/answer/installation.ts';
import type { LightAnswer } from '../../../src/answer/light.ts';
import type { RoomLight } from '../../../src/answer/room-light.ts';
import type { Section } from '../../../src/answer/section.ts';
import type { Run, SetOut } from '../../../src/answer/set-out.ts';
import type { Check, Limits, Sized } from '../../../src/findings/context.ts';
import type { Job } from '../../../src/job/job.ts';
import { newJob } from '../../../src/job/new-job.ts';
import type { Products } from '../../../src/job/products.ts';
import { limits } from '../../../src/sizing/limits.ts';

/**
 * A small wall in round numbers, as an answer of the engine would describe it, so that every figure of a finding can be
 * worked out in the head. A panel of 1000 x 1200 mm with three upright slots of 1000 mm at 200, 500 and 800 mm, 24 V strip
 * of 10 W/m cut every 50 mm, a cable for each slot, and two drivers of 60 W: D1 in the plinth, D2 in the riser. Every
 * finding of it passes; tests change single numbers of it. The middle one of three is the worst in most things.
 */
export interface Wall {
  job: Job;
  products: Products;
  section: Section;
  setOut: SetOut;
  cables: Cable[];
  circuit: CircuitAnswer;
  drivers: DriversAnswer;
  installation: InstallationAnswer;
  light: LightAnswer;
  roomLight: RoomLight;
  hung: HungAnswer;
  heat: HeatAnswer;
  conditions: Condition[];
  limits: Limits;
}

function describedJob(): Job {
  const job = newJob();
  job.panel = { width_mm: 1000, height_mm: 1200 };
  const plinth = job.drivers.places[0]!;
  job.drivers.places.push({ ...plinth, name: 'Riser', x_mm: 1100, y_mm: 0, vented: false });
  return job;
}

const cable = {
  ...{ id: 'cable', name: 'Cable of the small wall', area_mm2: 1.5 },
  ...{ conductor_ohm_per_km: 13.3, limit_degC: 70, outer_mm: 8.6, coreCounts: [2], pricesByCores: [] },
  price_cents_per_m: null,
};

const products: Products = {
  strip: {
    id: 'strip',
    name: 'Strip of the small wall',
    nominal_V: 24,
    law: 'resistor',
    dropout_V: 1,
    channels: [
      {
        ...{ name: 'white', watts_per_m: 10, lumens_per_m: 1000 },
        ...{ cct_K: 2700, lampsInSeries: 6, lampForward_V: 2.9 },
      },
    ],
    unitsPerMetre: 20,
    lampsPerMetre: 120,
    width_mm: 10,
    reel_mm: 5000,
    railPositive_mohm_per_m: 80,
    railReturn_mohm_per_m: 80,
    halfAngle_deg: 60,
    longestRun_mm: 5000,
    limit_degC: 75,
    solderRise_K_per_W: 40,
    slope_V: 0.075,
    price_cents: null,
  },
  driver: {
    id: 'driver',
    name: 'Driver of the small wall',
    output_V: 24,
    rated_W: 60,
    outputCount: 1,
    current_A: 2.5,
    tolerance: 0.03,
    efficiency: 0.88,
    powerFactor: 0.93,
    standby_W: 0.5,
    inrush_A: 40,
    inrush_us: 250,
    perBreakerB16: 9,
    ...{ length_mm: 180, width_mm: 45, height_mm: 28, clearance_mm: 20 },
    fullLoadAmbient_degC: 50,
    derating_per_K: 0.025,
    highestAmbient_degC: 70,
    caseLimit_degC: 80,
    ...{ terminalConductors: 1, outputsDimTogether: false, control: 'none' as const },
    price_cents: null,
  },
  furtherDrivers: [],
  cable,
  trunk: cable,
  dimmer: null,
  profile: null,
};

const slotXs_mm = [200, 500, 800];
const slotIds = ['S01', 'S02', 'S03'];
const slotEnds = (i: number) => ({
  ...{ x0_mm: slotXs_mm[i]!, y0_mm: 100, x1_mm: slotXs_mm[i]!, y1_mm: 1100 },
});

/** The feed point of a run at one of its cut lines, 0 to 20. */
export const feedAt = (
  run: string,
  cutLine: number,
  conductors: 'both' | 'positive' | 'return' = 'both',
): Run['feedPoints'][number] => ({
  ...{ id: `${run}-F${cutLine}`, run, cutLine, conductors, x_mm: 0, y_mm: 0 },
  at: cutLine === 0 ? 'start' : cutLine === 20 ? 'finish' : 'between',
});

const setOut: SetOut = {
  slots: slotIds.map((id, i) => ({
    id,
    number: i + 1,
    panel: null,
    ...slotEnds(i),
    length_mm: 1000,
    width_mm: 20,
  })),
  neighbours: [],
  runs: slotIds.map((id, i) => ({
    ...{ id, slot: id, zone: null, unitCount: 20, strip_mm: 1000, ...slotEnds(i) },
    darkStart_mm: [5, 10, 15][i]!,
    darkFinish_mm: [5, 20, 0][i]!,
    pieces: [],
    jointLines: [],
    feedPoints: [feedAt(id, 0)],
  })),
  ...{ reels: [], reelMethod: '', strip_m: 3, jointCount: 0 },
};

/** Each from its driver output straight up to its slot: a part in its place, and one in the panel where it is warmest. */
const cables: Cable[] = slotIds.map((run, i) => {
  const id = `C0${i + 1}`;
  const output = i === 2 ? 'D2.1' : 'D1.1';
  const from = { kind: 'output' as const, id: output };
  const to = { kind: 'pad' as const, run, cutLine: 0, feedPoint: `${run}-F0` };
  const length_mm = [2000, 3000, 3001][i]!;
  const current_A = [0.6, 0.5, 0.3][i]!;
  const flow = { current_A, drop_V: 0.1, loss_W: 0.1, contacts_W: 0.01, loop_ohm: 0.1 };
  const foot = { x_mm: slotXs_mm[i]!, y_mm: -900 };
  const hole = { ...foot, y_mm: -100 };
  const pad = { ...foot, y_mm: 100 };
  const route = [foot, hole, pad];
  const serves = [to.feedPoint];
  return {
    ...{ id, kind: 'feed', name: '', output, from, to, conductors: 'both', serves, ...flow },
    legs: [{ id, from, to, serves, way_mm: 1000, length_mm, cores_A: [current_A, current_A], ...flow }],
    ...{ cores: [], soldCoreCount: 2, spareCoreCount: 0, conductorCount: 2 },
    stretches: [
      { in: 'place', from: foot, to: hole, length_mm: 800, togetherCount: 2, air_degC: 30 },
      { in: 'panel', from: hole, to: pad, length_mm: 200, togetherCount: 1, air_degC: 40 },
    ],
    ...{
      panels: [],
      route,
      way_mm: 1000,
      tails_mm: 600,
      length_mm,
      area_mm2: 1.5,
      outer_mm: 8.6,
      design_A: current_A,
    },
    ...{
      capacity_A: [9, 5, 9][i]!,
      rating: { table_A: [9, 5, 9][i]!, ambientFactor: 1, groupingFactor: 1, sizeFactor: 1 },
      worstStretch: 1,
      capacityNote: null,
      fuse: `F${i + 1}`,
      fuse_A: 1,
      fuseOpens: true,
    },
    ...{ protectedBy: 'fuse', farShort_A: [4, 3, 5][i]!, farShortNoticed: true },
  };
});

const circuit: CircuitAnswer = {
  runs: slotIds.map((run, i) => ({
    run,
    driver: i === 0 ? 'D1' : 'D2',
    output: i === 0 ? 'D1.1' : 'D2.1',
    ...{ feed_A: [], pads: [], unit_V: [], unit_A: [], unit_light: [], channels: [] },
    lowest_V: [23.4, 23.2, 23.6][i]!,
    lowestUnit: 19,
    highest_V: [23.9, 23.95, 23.8][i]!,
    drop_V: [0.48, 0.72, 0.24][i]!,
    drop: [0.02, 0.03, 0.01][i]!,
    fall: [0.05, 0.08, 0.03][i]!,
    neighbour: [0.02, 0.05, 0.04][i]!,
    ...{ watts: 10, copper_W: 0.1, worst_W_per_m: 10, strip_degC: 40, band: null },
  })),
  ...{
    level: 'full',
    stripTemperature: 'worked out',
    supply_W: 42,
    average_W: 42,
    lamps_W: 30,
    stripCopper_W: 1,
    cable_W: 1,
    dimmer_W: 0,
  },
  ...{ unaccounted_A: 0, imbalance_W: 0, iterationCount: 1, tolerances: '' },
};

const output = (id: string, watts: number): DriverOutput => ({
  ...{ id, runs: [], watts, current_A: watts / 24, usable_W: 48, load: watts / 48, band_W: null },
});

const driver = (id: string, place: Job['drivers']['places'][number], watts: number): Driver => ({
  ...{
    id,
    name: '24 V 60 W driver',
    model: 0,
    place: place.name,
    x_mm: place.x_mm,
    y_mm: place.y_mm,
    rated_W: 60,
    derating: 1,
  },
  outputs: [output(`${id}.1`, watts)],
  derated_degC: id === 'D1' ? 40 : 44,
  ambient_degC: id === 'D1' ? 40 : 44,
  case_degC: id === 'D1' ? 60 : 66,
  ...{ lifeRatio: 1.5, watts, average_W: watts, input_W: watts, input_A: 0.2, loss_W: 4 },
});

const driversIn = (places: Job['drivers']['places']): DriversAnswer => ({
  drivers: [driver('D1', places[0]!, 30), driver('D2', places[1]!, 18)],
  places: places.map(({ name }) => ({
    ...{ name, driverCount: 1, fits: true, fitNote: 'Room for 4.', cases: [], without: [] },
    ...{ loss_W: 4, air_degC: 40 },
  })),
  sharing: {
    ...{ driverCount: 2, price_cents: null, isProved: true, gap: 0, leastPrice_cents: null },
    ...{ leastCount: 2, isSideBySide: true, sideBySide: null },
  },
  ...{ method: '', lowerBoundCount: 1, input_W: 50, input_A: 0.3, standby_W: null },
  breaker: {
    ...{ name: 'B16', curve: 'B', rating_A: 16, peak_A: 60, most: '9 drivers' },
    models: [
      {
        ...{ model: 0, name: '24 V 60 W driver', input_A: 0.3, printed: 9, isPrinted: true },
        ...{ bySteady: null, byInrush: null, mostDrivers: 9, formula: '9 on a B16', isInrushPrinted: true },
      },
    ],
    loads: [{ id: 'M1', drivers: ['D1', 'D2'], input_A: 0.4, inrush_A: 80, share: 2 / 9 }],
  },
});

/** 200 cd/m2 are wanted and reached at a working level of 15 %. */
const light: LightAnswer = {
  views: [],
  ...{ seen: 'cover', full_cd_per_m2: 1300, outFraction: 0.25, ripple: 0.001 },
  zones: [
    {
      ...{ zone: null, name: 'the wall', slots: slotIds },
      band_cd_per_m2: { least: 150, greatest: 260 },
      ...{ luminance_cd_per_m2: 200, lowest_cd_per_m2: 200, wanted_cd_per_m2: 200 },
      ...{ band: 'room-feature', level: '' },
      levels: { full: 1, working: [0.15], lowest: 0.15 },
      neededLevels: [0.15],
      ...{ visibility: 0.5, threshold: 0.002, dotsSeen: 'hidden', dots: 'The LEDs do not show.' },
      ...{ neededFlux_lm_per_m: 150, needed_W_per_m: 1.5 },
    },
  ],
  ...{ balance: 0, colourHex: '#ffffff', profile: [] },
  absorbed: { back: 0.3, sides: 0.1, front: 0.3, reveal: 0, sheet: 0.05, cover: 0, profile: 0 },
  ofProfile: null,
  bareLampsSeen: [],
};

type Temperature = HeatAnswer['temperatures'][number];
type Limit = Temperature['limits'][number];

/** A limit of a temperature. */
export const limitAt = (
  limit_degC: number,
  beyond: Limit['beyond'],
  remedy: string | null = null,
): Limit => ({
  ...{ id: `limit-${limit_degC}`, limit_degC, beyond, basis: `the limit of ${limit_degC}`, remedy },
});

/** A temperature with its band and its limits, the deciding one first. */
export const temperature = (
  id: string,
  [low_degC, value_degC, high_degC]: readonly [number, number, number],
  ...its: Limit[]
): Temperature => ({
  ...{ id, name: `The ${id}`, low_degC, value_degC, high_degC, limit_degC: its[0]?.limit_degC ?? null },
  ...{ power: 1, limits: its, x_mm: null, y_mm: null },
});

const heat: HeatAnswer = {
  ...{ method: '', validity: '', unknown: null, strip_W_per_m: 10, heat_W_per_m: 8 },
  stripBand_W_per_m: { least: 9, greatest: 11 },
  temperatures: [
    temperature('solder', [45, 50, 60], limitAt(75, 'breach')),
    temperature('timber', [40, 45, 55], limitAt(60, 'caution'), limitAt(77, 'refuse'), limitAt(90, 'breach')),
    temperature('glue', [35, 40, 45], limitAt(50, 'caution', 'Use a glue with a heat class.')),
  ],
  ...{ paths: [], balance: 0, upperEnd_K: 0, profile: null, field: null },
  life: { hours: 50_000, atLeast: true, sentence: 'At least 50,000 h.' },
};

const section: Section = {
  pitch_mm: 300,
  edge_mm: null,
  layers: [],
  ...{ depth_mm: 40, available_mm: 45, behind: null, profile: null },
};

/** The small wall with some of its numbers changed. */
export function wall(change: (wall: Wall) => void = () => {}): Sized {
  const job = describedJob();
  const installation: InstallationAnswer = {
    blocks: [],
    dimmers: [],
    besidePanels: [],
    taps: [],
    fullestWay: null,
    throughOpenings: [],
  };
  const roomLight: RoomLight = {
    slots: [],
    wall: { full_lm: 0, working_lm: 0 },
    tolerance: { least: 0.8, greatest: 1.2 },
    points: [],
    method: '',
    doubts: [],
  };
  const answer = {
    hung: [],
    ...{ products, section, setOut, cables, circuit, installation, light, roomLight, heat },
    conditions: [],
  };
  const made: Wall = {
    ...structuredClone({ ...answer, job, drivers: driversIn(job.drivers.places) }),
    limits: { ...limits },
  };
  change(made);
  return made;
}

/** The finding of that name, its margin read to nine decimals, and the fields its remedies lead to. */
export function told(checks: readonly Check[], id: string) {
  const check = checks.find((each) => each.id === id);
  if (!check) throw new RangeError(`no finding ${id} among ${checks.map((each) => each.id).join(', ')}`);
  const { margin } = check;
  return {
    ...check,
    margin: margin === null ? null : Math.round(1e9 * margin) / 1e9 + 0,
    fields: (check.remedies ?? []).map(({ field }) => field),
    advice: (check.remedies ?? []).map(({ sentence }) => sentence),
  };
}

/** Whether there is a finding of that name. */
export const isTold = (checks: readonly Check[], id: string): boolean =>
  checks.some((each) => each.id === id);
