import { touchText } from '../src/job/site.ts';
import { unitText } from './format.ts';

/** How the words of the job document are written on the page, where the bare word would leave a maker guessing. */
const byField: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  touch: touchText,
  arrangement: {
    start: 'at the start',
    finish: 'at the finish',
    both: 'at both ends',
    between: 'between the ends',
    chosen: 'at cut lines of your choice',
    crossed: 'crossed: plus at one end, minus at the other',
  },
  layout: {
    radial: 'one cable to each feed point',
    trunk: 'a trunk with taps',
    ring: 'a ring: a trunk that comes back',
    'run to run': 'on from run to run',
  },
  way: { head: 'along the head', foot: 'along the foot' },
  strip: {
    backing: 'on the backing, facing the slot',
    front: 'on the inner face of the front, lighting the backing',
    side: 'on the side of the cavity',
    recessed: 'in a profile that fills the slot',
  },
  anchor: { middle: 'in the middle', start: 'from the start on', finish: 'from the finish on' },
  law: {
    resistor: 'a resistor in each cut unit',
    regulated: 'a regulator in each cut unit',
  },
  behind: {
    insulation: 'insulation: no heat goes that way',
    'inner wall': 'an inner wall with a room behind it',
    layers: 'a wall of layers, listed below',
  },
  beyond: { room: 'a room', outside: 'outside air' },
  sizeFor: {
    'all on': 'full, which any dimmer may reach',
    levels: 'the working level, which the dimmer is made unable to pass',
  },
  cover: { open: 'open slot' },
  plane: { level: 'a floor or a desk, from above', 'facing wall': 'a wall facing the lit one' },
  joint: {
    'in line': 'in line, with a gap',
    'inner corner': 'round an inner corner',
    'outer corner': 'round an outer corner',
  },
  kind: {
    opening: 'a door or a window: nothing passes',
    'keep-out': 'a keep-out: no strip',
    box: 'a box on or beside the panel',
    remote: 'remote, at the end of a cable',
  },
  fuses: {
    cartridge: 'cartridge fuses, 5 × 20 mm',
    blade: 'blade fuses',
    electronic: 'electronic channels',
  },
  terminalsFace: { left: 'to the left', right: 'to the right', up: 'up', down: 'down' },
};

/** The words for one choice of a field, by the field's own name in the document. */
export function choiceText(key: string, word: string | number, unit: string): string {
  if (typeof word === 'number') return `${word} ${unitText(unit)}`.trim();
  return byField[key]?.[word] ?? word;
}

/** What the rails of a strip can be worked out from. */
export const railSources = [
  ['longest run', 'Longest run'],
  ['measured volts', 'Two volts'],
  ['copper', 'Copper'],
] as const;

/** The words and the shape of each status of a finding; never the colour alone. */
export const statusText = {
  fails: { one: 'Fails', many: 'failed' },
  watch: { one: 'Warning', many: 'with a warning' },
  passes: { one: 'Passes', many: 'passed' },
  note: { one: 'Note', many: 'to note' },
} as const;
