import { demoPrices } from './demo-prices.ts';
import type { Job } from './job.ts';
import { newJob } from './new-job.ts';
import { outlineOf, type Panel } from './panels.ts';
import { newProfile } from './profile-catalogue.ts';
import type { Segment } from './slots.ts';
import type { StripData } from './strip.ts';
import { newZone } from './zone.ts';

/** A job to try things on; every name and measure in it is invented. */
export interface DemoJob {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly job: Job;
}

const demoBase = (): Job => ({ ...newJob(), prices: demoPrices() });

function windowSeat(): Job {
  const base = demoBase();
  return {
    ...base,
    title: {
      ...base.title,
      job: 'Window seat, back panel',
      client: 'Practice Rooms Ltd',
      place: 'First floor, rehearsal room 2',
      maker: 'Larch & Bevel, joiners',
      drawnBy: 'M. Ostrow',
      documentNumber: 'LB-0412',
      date: '2026-10-06',
    },
    panel: { width_mm: 1620, height_mm: 1150 },
    slots: {
      from: 'generator',
      axis: 'upright',
      width_mm: 18,
      left_mm: 110,
      right_mm: 110,
      foot_mm: 90,
      head_mm: 90,
      spacing: { by: 'count', count: 6 },
    },
    section: {
      ...base.section,
      available_mm: 42,
      cavity_mm: 20,
      front: { material: 'ash', thickness_mm: 12 },
      cover: 'open',
      strip: 'front',
      stripOffset_mm: 24,
      backFinish: 'maple or birch',
      sideFinish: 'maple or birch',
      frontFinish: 'maple or birch',
    },
    strip: { ...base.strip, entry: '12V-2.4W' },
    drivers: {
      ...base.drivers,
      entry: '12V-20W',
      data: { control: 'mains phase' },
      places: [
        {
          ...base.drivers.places[0]!,
          name: 'Seat box',
          x_mm: 60,
          y_mm: -180,
          width_mm: 700,
          height_mm: 160,
          depth_mm: 300,
        },
      ],
    },
    dimming: { ...base.dimming, control: 'driver', levels: [0.36] },
    light: { ...base.light, wanted_cd_per_m2: 150, viewing_mm: 1500, floor_mm: 0 },
  };
}

/** Slanted slots climbing beside a flight of stairs, each as long as the ceiling allows. */
function slantedSegments(): Segment[] {
  const slant_mm = 420;
  return Array.from({ length: 28 }, (_, i) => {
    const x0_mm = 180 + i * 190;
    const y0_mm = 140 + i * 62;
    return { x0_mm, y0_mm, x1_mm: x0_mm + slant_mm, y1_mm: y0_mm + 1300 + 160 * Math.sin((Math.PI * i) / 9) };
  });
}

function stairWall(): Job {
  const base = demoBase();
  return {
    ...base,
    title: {
      ...base.title,
      job: 'Stair wall, slanted slots',
      client: 'Municipal Library of Ferrow',
      place: 'Main stair, ground to first floor',
      maker: 'Larch & Bevel, joiners',
      drawnBy: 'M. Ostrow',
      documentNumber: 'LB-0388',
      revision: 'B',
      date: '2026-09-21',
    },
    panel: { width_mm: 5900, height_mm: 3500 },
    slots: { from: 'segments', width_mm: 22, segments: slantedSegments() },
    section: {
      ...base.section,
      available_mm: 50,
      cavity_mm: 26,
      front: { material: 'maple', thickness_mm: 12 },
      batten_mm: 60,
      behind: 'inner wall',
    },
    strip: { ...base.strip, entry: '24V-2.4W', anchor: 'start' },
    cables: { ...base.cables, way: 'foot', wayWidth_mm: 90 },
    drivers: {
      ...base.drivers,
      entry: '24V-60W',
      data: { control: 'DALI' },
      places: [
        {
          ...base.drivers.places[0]!,
          name: 'Under-stair cupboard',
          x_mm: 2400,
          y_mm: -620,
          width_mm: 900,
          height_mm: 560,
          depth_mm: 250,
        },
      ],
    },
    dimming: { ...base.dimming, control: 'driver', levels: [0.2] },
    light: { ...base.light, wanted_cd_per_m2: 220, viewing_mm: 2500, floor_mm: 0 },
  };
}

function foyerWall(): Job {
  const base = demoBase();
  return {
    ...base,
    title: {
      ...base.title,
      job: 'Foyer wall, sixty slots',
      client: 'Harbour Playhouse Trust',
      place: 'Foyer, east wall',
      maker: 'Larch & Bevel, joiners',
      drawnBy: 'T. Quill',
      documentNumber: 'LB-0431',
      date: '2026-11-02',
    },
    panel: { width_mm: 9400, height_mm: 2750 },
    slots: {
      from: 'generator',
      axis: 'upright',
      width_mm: 24,
      left_mm: 120,
      right_mm: 120,
      foot_mm: 150,
      head_mm: 150,
      spacing: { by: 'count', count: 60 },
    },
    section: {
      ...base.section,
      available_mm: 38,
      cavity_mm: 22,
      front: { material: 'walnut', thickness_mm: 12 },
      batten_mm: 40,
    },
    strip: { ...base.strip, entry: '24V-14.4W' },
    cables: { ...base.cables, entry: '0.75mm2', way: 'head', grouped: 6 },
    drivers: {
      ...base.drivers,
      entry: '24V-240W',
      data: { control: '1-10 V' },
      places: [
        {
          ...base.drivers.places[0]!,
          name: 'Left riser',
          x_mm: -250,
          y_mm: 400,
          width_mm: 220,
          height_mm: 1500,
          depth_mm: 110,
        },
        {
          ...base.drivers.places[0]!,
          name: 'Right riser',
          x_mm: 9450,
          y_mm: 400,
          width_mm: 220,
          height_mm: 1500,
          depth_mm: 110,
        },
      ],
    },
    dimming: { ...base.dimming, control: 'driver' },
    light: {
      ...{ wanted_cd_per_m2: 300, viewing_mm: 4000, floor_mm: 0 },
      room: {
        ...{ width_mm: 14000, depth_mm: 6500, height_mm: 3200, reflectance: 0.45, maintenance: 0.8 },
        points: [
          {
            ...{ name: 'Walkway', plane: 'level', distance_mm: 1500, height_mm: 0 },
            ...{ along_mm: null, wanted_lx: null },
          },
          {
            ...{ name: 'Reception desk', plane: 'level', distance_mm: 4500, height_mm: 1050 },
            ...{ along_mm: 3000, wanted_lx: null },
          },
          {
            ...{ name: 'Wall opposite', plane: 'facing wall', distance_mm: 6500, height_mm: 1500 },
            ...{ along_mm: null, wanted_lx: null },
          },
        ],
      },
    },
  };
}

const numbersTo = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, i) => first + i);

/** A quarter of the watts of the two-channel strip of the catalogue; an invented one. */
const weakerTwoWhite: Partial<StripData> = {
  name: '24 V 2 × 2.4 W/m, two-channel white, 240 LEDs/m (demo)',
  channels: [
    { name: 'warm white', cct_K: 2700, lumens_per_m: 215 },
    { name: 'cool white', cct_K: 5000, lumens_per_m: 230 },
  ].map((white) => ({ ...white, watts_per_m: 2.4, lampsInSeries: 6, lampForward_V: 2.9 })),
};

/** Warm to cool white in two zones, on trunks from a cupboard round the corner. */
function readingWall(): Job {
  const base = demoBase();
  const zone = (id: string, name: string, slots: number[]) => newZone({ id, name, slots });
  return {
    ...base,
    title: {
      ...base.title,
      job: 'Reading wall, warm to cool white',
      client: 'Quillmere Bindery',
      place: 'Reading room, north wall',
      maker: 'Larch & Bevel, joiners',
      drawnBy: 'T. Quill',
      documentNumber: 'LB-0440',
      date: '2026-11-23',
    },
    panel: { width_mm: 3840, height_mm: 2300 },
    slots: {
      from: 'generator',
      axis: 'upright',
      width_mm: 22,
      left_mm: 120,
      right_mm: 120,
      foot_mm: 300,
      head_mm: 300,
      spacing: { by: 'count', count: 16 },
    },
    section: {
      ...base.section,
      available_mm: 48,
      cavity_mm: 26,
      front: { material: 'maple', thickness_mm: 12 },
      batten_mm: 60,
      carrier: 'flat aluminium',
      behind: 'inner wall',
    },
    strip: { ...base.strip, entry: '24V-2x9.6W-two-white', data: weakerTwoWhite },
    cables: { ...base.cables, layout: 'trunk', trunk: { entry: '4mm2', data: {} } },
    drivers: {
      ...base.drivers,
      entry: '24V-60W',
      places: [
        {
          ...base.drivers.places[0]!,
          name: 'Corridor cupboard',
          kind: 'remote',
          cable_mm: 5500,
          x_mm: 0,
          y_mm: -640,
          width_mm: 600,
          height_mm: 500,
          depth_mm: 250,
        },
      ],
    },
    dimming: {
      ...base.dimming,
      control: 'dimmer',
      dimmer: { entry: '2x6A-dali', data: {} },
      mixingLimit: 1,
      levels: [0.2, 0.2],
      zones: [
        { ...zone('Z1', 'Reading desk', numbersTo(1, 10)), levels: [0.15, 0.25], lowest: 0.02 },
        {
          ...zone('Z2', 'Armchair', numbersTo(11, 16)),
          ...{ levels: [0.12, 0.02], lowest: 0.01, wanted_cd_per_m2: 120 },
        },
      ],
    },
    light: { ...base.light, wanted_cd_per_m2: 400, viewing_mm: 2500, floor_mm: 0 },
    site: {
      ...base.site,
      note: 'The cupboard is locked: the key is at the front desk. Demo data, no real place.',
    },
  };
}

/** Three panels with a door through the middle one, profiles flush with the face, and the drivers in a cupboard 4 m away. */
function landingWall(): Job {
  const base = demoBase();
  const panel = (id: string, name: string, width_mm: number, slotCount: number): Panel => ({
    ...{ id, name, width_mm, height_mm: 2400, raised_mm: 0, gap_mm: 5, joint: 'in line', slotCount },
  });
  const panels = [
    panel('P1', 'Stair side', 1295, 20),
    panel('P2', 'Over the door', 1000, 4),
    panel('P3', 'Window side', 1295, 20),
  ];
  return {
    ...base,
    title: {
      ...base.title,
      job: 'Landing wall in three panels',
      client: 'Hollin Weir Boathouse',
      place: 'Upper landing',
      maker: 'Larch & Bevel, joiners',
      drawnBy: 'T. Quill',
      documentNumber: 'LB-0451',
      date: '2026-11-30',
    },
    panel: outlineOf(panels),
    panels,
    openings: [
      {
        name: 'Door to the archive',
        ...{ kind: 'opening', cablesPass: false },
        ...{ x_mm: 1420, y_mm: 0, width_mm: 760, height_mm: 2040, rim_mm: 60 },
      },
    ],
    slots: {
      from: 'generator',
      axis: 'upright',
      width_mm: 15,
      left_mm: 50,
      right_mm: 50,
      foot_mm: 100,
      head_mm: 100,
      spacing: { by: 'count', count: 20 },
    },
    section: {
      ...base.section,
      ...{ available_mm: 45, cavity_mm: 22, batten_mm: 30, cover: 'open', strip: 'recessed' },
      profile: {
        ...newProfile('u-12x15'),
        cover: { entry: 'opal', own: null, data: {} },
        fixing: 'pressed or glued in',
      },
    },
    feeds: { ...base.feeds, arrangement: 'finish' },
    cables: { ...base.cables, layout: 'trunk', way: 'head', trunk: { entry: '2.5mm2', data: {} } },
    drivers: {
      ...base.drivers,
      entry: '24V-75W',
      places: [
        {
          ...base.drivers.places[0]!,
          ...{ name: 'Linen cupboard', kind: 'remote', cable_mm: 4000, x_mm: 0, y_mm: 0 },
          ...{ width_mm: 800, height_mm: 500, depth_mm: 250 },
        },
      ],
    },
    dimming: {
      ...base.dimming,
      levels: [0.07],
      zones: [
        newZone({ id: 'Z1', name: 'Stair side and door', slots: numbersTo(1, 24) }),
        newZone({ id: 'Z2', name: 'Window side', slots: numbersTo(25, 44) }),
      ],
    },
    light: { ...base.light, wanted_cd_per_m2: 200, viewing_mm: 2000, floor_mm: 0 },
    site: { ...base.site, note: 'Demo data, no real place.' },
  };
}

export const demoJobs: readonly DemoJob[] = [
  {
    id: 'window-seat',
    title: 'Window seat',
    summary: 'Six short slots at 12 V, one driver in the seat box.',
    job: windowSeat(),
  },
  {
    id: 'stair-wall',
    title: 'Stair wall',
    summary: 'Twenty-eight slanted slots at 24 V, from a drawing.',
    job: stairWall(),
  },
  {
    id: 'foyer-wall',
    title: 'Foyer wall',
    summary:
      'Sixty long slots with too much power, too thin a cable and too little depth: see what "no" looks like.',
    job: foyerWall(),
  },
  {
    id: 'reading-wall',
    title: 'Reading wall',
    summary:
      'Sixteen slots from warm to cool white, in two zones on trunks from a cupboard round the corner, with a limit of the mix.',
    job: readingWall(),
  },
  {
    id: 'landing-wall',
    title: 'Landing wall',
    summary:
      'Three panels with a door through the middle one, 44 slots in profiles, two zones, drivers in a cupboard 4 m away.',
    job: landingWall(),
  },
];
