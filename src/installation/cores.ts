import type { CableEnd, Core } from '../answer/cables.ts';

/** Colours of direct current, plus and minus: IEC 60445:2021 (from memory). Local practice comes first. */
const marks = { plus: 'red', minus: 'white' } as const;

type Rail = Core['rail'];

/** A channel of the strip, for a return of its own; null for a strip of one channel. */
interface Conductor {
  readonly rail: Rail;
  readonly channel: string | null;
}

const signs: Readonly<Record<Rail, string>> = { plus: 'plus', minus: 'minus' };

/** A cable that leaves a run for the next leaves it at an end, since run to run asks for runs fed at one. */
function padText({ feedPoint, run, cutLine }: Extract<CableEnd, { kind: 'pad' }>): string {
  return feedPoint ?? `${run} ${cutLine === 0 ? 'start' : 'finish'}`;
}

/** The terminal a conductor is made off to, as it is marked on the wall: "D1.1 plus", "B1.1 way 3 plus", "S07-F1 warm white". */
function terminalText(end: CableEnd, { rail, channel }: Conductor): string {
  const of = channel ?? signs[rail];
  switch (end.kind) {
    case 'pad':
      return `${padText(end)} ${of}`;
    case 'block':
      return end.way === null ? `${end.id} in, ${of}` : `${end.id} way ${end.way} ${of}`;
    case 'dimmer':
      return `${end.id} ${end.side}, ${of}`;
    case 'output':
      return `${end.id} ${signs[rail]}`;
    default:
      return `${end.id} ${of}`;
  }
}

/** Conductors of a cable in the order of its cores: plus, then a minus for each channel. */
function conductorsOf(conductors: 'both' | 'positive' | 'return', channels: readonly string[]): Conductor[] {
  const plus: Conductor = { rail: 'plus', channel: null };
  const returns = channels.map(
    (channel): Conductor => ({
      rail: 'minus',
      channel: channels.length > 1 ? channel : null,
    }),
  );
  return [...(conductors === 'return' ? [] : [plus]), ...(conductors === 'positive' ? [] : returns)];
}

/** Colour of plus and of a single minus; numbers for the minus of each of several channels. */
function markOf({ rail, channel }: Conductor, number: number): string {
  return channel === null ? marks[rail] : String(number);
}

export interface CoresToName {
  readonly conductors: 'both' | 'positive' | 'return';
  /** Names of the channels of the strip. */
  readonly channels: readonly string[];
  readonly from: CableEnd;
  readonly to: CableEnd;
  /** Whether all channels come home to one minus where the cable begins. */
  readonly fromOneMinus: boolean;
  /** Numbers of cores the cable is sold with. */
  readonly sold: readonly number[];
  /** Current of each conductor in the order plus, then each channel; those the cable does not have are left out. */
  readonly currents_A: readonly number[];
}

interface NamedCores {
  readonly cores: Core[];
  /** The least that is sold and enough; null where it is not sold with so many. */
  readonly soldCoreCount: number | null;
  readonly spareCoreCount: number;
}

/**
 * The cores of a cable, each with its mark and the terminal at either end, with how many it is bought, and how many of those
 * are left over. Check: `tests/installation/cores.test.ts`.
 */
export function coresOf(given: CoresToName): NamedCores {
  const conductors = conductorsOf(given.conductors, given.channels);
  const cores = conductors.map((conductor, i) => ({
    number: i + 1,
    mark: markOf(conductor, i + 1),
    ...conductor,
    from: terminalText(given.from, given.fromOneMinus ? { ...conductor, channel: null } : conductor),
    to: terminalText(given.to, conductor),
    current_A: given.currents_A[i]!,
  }));
  const enough = given.sold.filter((count) => count >= cores.length);
  const soldCoreCount = enough.length === 0 ? null : Math.min(...enough);
  return { cores, soldCoreCount, spareCoreCount: (soldCoreCount ?? cores.length) - cores.length };
}
