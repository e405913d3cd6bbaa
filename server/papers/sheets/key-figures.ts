import type { Sizing } from '../../../src/answer/sizing.ts';
import { levelsOf } from '../../../src/index.ts';
import type { Job } from '../../../src/job/job.ts';
import { apart, candelas, figure, rough, shown } from '../shown.ts';
import { behindShortly } from '../wall-behind.ts';

/** A figure that is looked for first: large, with what it is below. */
export interface Tile {
  readonly value: string;
  readonly says: string;
}

/** A name and its value. */
export type Pair = readonly [name: string, value: string];

const count = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

const whole = (value: number): string => figure(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1);

/** Watts and amps of drivers: one decimal below ten, whole watts above. */
const watts = (value: number): string => `${figure(value, value < 10 ? 1 : 0)} W`;
const amps = (value: number): string => `${figure(value, value < 10 ? 2 : 1)} A`;

/** The figures a maker and an electrician look for first. */
export function tiles(job: Job, { setOut, drivers, set_V }: Sizing): Tile[] {
  const { breaker } = drivers;
  return [
    { value: String(setOut.slots.length), says: setOut.slots.length === 1 ? 'slot' : 'slots' },
    {
      value: `${figure(setOut.strip_m, 1)} m`,
      says: `of strip from ${count(setOut.reels.length, 'reel', 'reels')}`,
    },
    { value: String(drivers.drivers.length), says: drivers.drivers.length === 1 ? 'driver' : 'drivers' },
    { value: `${whole(set_V)} V DC`, says: 'at the strip; SELV where the driver is marked so' },
    {
      value: amps(drivers.input_A),
      says: `${watts(drivers.input_W)} from mains of ${whole(job.site.mains_V)} V`,
    },
    {
      value: `${breaker.loads.length} × ${breaker.name}`,
      says: `${breaker.loads.length === 1 ? 'circuit-breaker' : 'circuit-breakers'}, at most ${breaker.most} on ${breaker.loads.length === 1 ? 'it' : 'each'}`,
    },
  ];
}

/** Cables by their type, such as 60 of 2 × 0.75 mm² fine-wire. */
function cablesText({ cables }: Sizing): string {
  const names = [...new Set(cables.map(({ name }) => name))];
  return names.map((name) => `${cables.filter((each) => each.name === name).length} of ${name}`).join(', ');
}

/** Fuses by their rating, such as 15 × 2 A, and what protects the cables that have none. */
function fusesText({ cables, installation }: Sizing): string {
  const fuses = installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  const ratings = [...new Set(fuses.map(({ rating_A }) => rating_A))].toSorted((a, b) => a - b);
  const counts = ratings.map(
    (rating) => `${fuses.filter(({ rating_A }) => rating_A === rating).length} × ${rating} A`,
  );
  const held = cables.filter(({ protectedBy }) => protectedBy === 'driver').length;
  const bare = cables.filter(({ protectedBy }) => protectedBy === 'nothing').length;
  return [
    ...counts,
    ...(held > 0 ? [`${count(held, 'cable', 'cables')} held by the limit of their driver`] : []),
    ...(bare > 0
      ? [`${count(bare, 'cable', 'cables')} without protection yet, see the protection schedule`]
      : []),
  ].join(', ');
}

/** The largest drop there can be, and what it is without tolerances. */
function dropText(job: Job, { circuit }: Sizing): string {
  const most = ({ band, drop }: (typeof circuit.runs)[number]): number => band?.drop.greatest ?? drop;
  const worst = circuit.runs.reduce((a, b) => (most(b) > most(a) ? b : a));
  const [drop, limit] = apart(100 * most(worst), 100 * job.site.dropLimit, 1);
  const usual = `${shown(worst.drop_V, 2)} V in run ${worst.run}, ${shown(100 * worst.drop, 1)} %`;
  return worst.band
    ? `${usual}; ${drop} % in the worst case, limit ${limit} %`
    : `${usual}, limit ${limit} %`;
}

/** What the drivers deliver, at which level, and on average under a limit of the dimmer. */
function loadText({ circuit, conditions }: Sizing): string {
  const at = { full: 'at full', working: 'under the limit of the dimmer', mix: 'in the worst mix' }[
    circuit.level
  ];
  const average = `, ${watts(circuit.average_W)} on average under the limit of the dimmer`;
  const isPulsed = conditions.length > 0 && circuit.level === 'full';
  return `${watts(circuit.supply_W)} delivered by the drivers ${at}${isPulsed ? average : ''}`;
}

/** Brightness at the levels of each zone; of the wall, where all slots are dimmed alike. */
function brightnessPairs({ light: { zones, full_cd_per_m2 }, products: { strip } }: Sizing): Pair[] {
  const percent = (level: number): string => levelsOf([level], strip.channels);
  return zones.map(({ name, levels, luminance_cd_per_m2, wanted_cd_per_m2, lowest_cd_per_m2, ofWidth }) => {
    const whose = zones.length === 1 ? '' : `${name}: `;
    const lowest =
      levels.lowest === null || lowest_cd_per_m2 === null
        ? ''
        : `, ${candelas(lowest_cd_per_m2)} at the lowest of ${percent(levels.lowest)}`;
    return [
      'Brightness',
      `${whose}${candelas(luminance_cd_per_m2)} at the working level of ${levelsOf(levels.working, strip.channels)}, wanted ${figure(wanted_cd_per_m2)} cd/m²${lowest}; ${candelas(ofWidth?.full_cd_per_m2 ?? full_cd_per_m2)} at full`,
    ];
  });
}

/** What the warm strip gives of the light on its data sheet, where that says what it loses. */
const warmPairs = ({ light: { warm } }: Sizing): Pair[] =>
  warm === undefined
    ? []
    : [
        [
          'Light of the warm strip',
          `${Math.round(100 * warm.fluxShare)} % of its data sheet at full, at ${figure(warm.strip_degC, 0)} °C; counted in every brightness`,
        ],
      ];

/** What the wall gives the room, where the job asks for it. Answers issued earlier have none of it. */
function roomPairs({ roomLight }: Sizing): Pair[] {
  if (!roomLight || roomLight.points.length === 0) return [];
  const { wall, points, doubts = [] } = roomLight;
  return [
    [
      'Light into the room',
      `${rough(wall.working_lm)} lm at the working level, ${rough(wall.full_lm)} lm at full`,
    ],
    ...points.map(({ name, working, wanted_lx }, i): Pair => {
      const { maintained_lx, band_lx } = working;
      const wanted = wanted_lx === null ? '' : `, wanted ${figure(wanted_lx, wanted_lx < 10 ? 1 : 0)} lx`;
      return [
        name === '' ? `Place ${i + 1} in the room` : name,
        `${rough(maintained_lx)} lx maintained, ${rough(band_lx.least)} to ${rough(band_lx.greatest)} lx${wanted}`,
      ];
    }),
    ...doubts.map((doubt): Pair => ['Doubt about the lux', doubt]),
  ];
}

/** Each place with how many drivers it holds, or how many places where these are many. */
function placesText({ drivers }: Sizing): string {
  if (drivers.places.length > 4) return `${drivers.places.length}, see the sheet of driver places`;
  return drivers.places.map((each) => `${each.name} (${each.driverCount})`).join(', ');
}

/** What an electrician looks for. */
export function electricianPairs(job: Job, sizing: Sizing): Pair[] {
  const { drivers, cables } = sizing;
  const longest = cables.reduce((a, b) => (b.length_mm > a.length_mm ? b : a));
  const total_m = cables.reduce((sum, { length_mm }) => sum + length_mm, 0) / 1000;
  return [
    ...(job.site.note === '' ? [] : [['Note of the maker', job.site.note] as const]),
    ['Drivers', `${drivers.drivers.length} × ${drivers.drivers[0]?.name ?? '–'}`],
    ['Driver places', placesText(sizing)],
    ['Load', loadText(sizing)],
    ['Cables', `${cablesText(sizing)}; ${figure(total_m, total_m < 100 ? 1 : 0)} m to cut`],
    ['Longest cable', `${longest.id}, ${figure(longest.length_mm)} mm`],
    ['Fuses', fusesText(sizing)],
    ['Largest drop', dropText(job, sizing)],
  ];
}

/** By the warm end of its band, as the checks are. */
function warmestText({ heat }: Sizing): string {
  if (heat.unknown !== null) return 'not known, see the section';
  const margin = (each: (typeof heat.temperatures)[number]): number =>
    each.limit_degC === null ? Infinity : each.limit_degC - each.high_degC;
  const { name, high_degC, limit_degC } = heat.temperatures.reduce((a, b) => (margin(b) < margin(a) ? b : a));
  if (limit_degC === null) return `${name}, up to ${shown(high_degC, 0)} °C`;
  const [high, limit] = apart(high_degC, limit_degC);
  return `${name}, up to ${high} °C, limit ${limit} °C`;
}

/** What the maker looks for. */
export function makerPairs(job: Job, sizing: Sizing): Pair[] {
  const { setOut, section, products } = sizing;
  const widths = [...new Set(setOut.slots.map(({ width_mm }) => width_mm))].sort((a, b) => a - b);
  return [
    ['Panel', `${whole(job.panel.width_mm)} × ${whole(job.panel.height_mm)} mm`],
    ['Slots', `${setOut.slots.length}, ${widths.map(whole).join(' and ')} mm wide`],
    ['Strip', products.strip.name],
    [
      'Depth',
      `${whole(section.depth_mm)} mm, ${whole(section.depth_mm + job.section.tolerance_mm)} mm with the tolerance, of ${whole(section.available_mm)} mm available`,
    ],
    ['Behind the backing', behindShortly(job, sizing)],
    ['Nearest its limit', warmestText(sizing)],
    ...brightnessPairs(sizing),
    ...warmPairs(sizing),
    ...roomPairs(sizing),
  ];
}
