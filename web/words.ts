import { unitText } from './format.ts';

/** How the words of the job document are written on the page, where the bare word would leave a maker guessing. */
const byField: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'Feed arrangement': {
    start: 'at the start',
    finish: 'at the finish',
    both: 'at both ends',
    between: 'between the ends',
    crossed: 'crossed: plus at one end, minus at the other',
  },
  'Cable layout': {
    radial: 'one cable to each feed point',
    trunk: 'a trunk with taps',
    ring: 'a ring: a trunk that comes back',
    'run to run': 'on from run to run',
  },
  'Cable way': { head: 'along the head', foot: 'along the foot' },
  'Strip position': {
    backing: 'on the backing, facing the slot',
    front: 'on the inner face of the front, lighting the backing',
    side: 'on the side of the cavity',
  },
  'Strip law': {
    resistor: 'resistor in each cut unit',
    regulated: 'regulated current in each cut unit',
  },
  'Behind the backing': {
    insulation: 'insulation: no heat goes that way',
    'inner wall': 'an inner wall with a room behind it',
  },
  'Drivers, cables and heat sized for': { 'all on': 'everything fully on', levels: 'the levels above' },
  'Slot cover': { open: 'open slot' },
};

/** The words for one choice of a field. */
export function choiceText(label: string, word: string | number, unit: string): string {
  if (typeof word === 'number') return `${word} ${unitText(unit)}`.trim();
  return byField[label]?.[word] ?? word;
}

/** What the rails of a strip can be worked out from. */
export const railSources = [
  ['longest run', 'Longest run'],
  ['measured volts', 'Two volts'],
  ['copper', 'Copper'],
] as const;

/** What a maker means by a brightness; the middle of each band of the light references (judgement). */
export const brightnesses = [
  { words: 'Evening glow', wanted_cd_per_m2: 30, upTo_cd_per_m2: 75 },
  { words: 'Feature in a lit room', wanted_cd_per_m2: 200, upTo_cd_per_m2: 300 },
  {
    words: 'Holds its own against daylight',
    wanted_cd_per_m2: 600,
    upTo_cd_per_m2: Number.POSITIVE_INFINITY,
  },
] as const;

/** The words for a brightness: `an evening glow`. */
export function brightnessText(wanted_cd_per_m2: number): string {
  if (wanted_cd_per_m2 <= brightnesses[0].upTo_cd_per_m2) return 'an evening glow';
  if (wanted_cd_per_m2 <= brightnesses[1].upTo_cd_per_m2) return 'a feature in a lit room';
  return 'bright enough to hold its own against daylight';
}

/** The words and the shape of each status of a finding; never the colour alone. */
export const statusText = {
  fails: { one: 'Fails', many: 'fail' },
  watch: { one: 'Watch', many: 'to watch' },
  passes: { one: 'Passes', many: 'pass' },
  note: { one: 'Note', many: 'to note' },
} as const;
