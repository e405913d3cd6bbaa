import type { StripLaw } from './strip-law.ts';

/** A constant-voltage output. Each is isolated from every other: what leaves its plus comes back to its minus. */
interface Source {
  readonly id: string;
  readonly set_V: number;
}

/** A junction of cables, one terminal for each rail that reaches it; one for all returns where it has one minus. */
interface Tap {
  readonly id: string;
  readonly hasOneMinus?: boolean;
}

/** One colour of a strip, with its own return rail and its own dimming. */
export interface Channel {
  readonly id: string;
  /** Return rail at 20 degC. */
  readonly returnRail_ohm_per_m: number;
  readonly law: StripLaw;
  /** Share of time the channel is on, 0 to 1: its currents are averages over the dimming period. */
  readonly level: number;
  /** Part of the run's light that is this channel's at nominal, 0 to 1; all channels alike unless given. */
  readonly lightShare?: number;
  /**
   * Forward volts of each of these lamps above the data sheet's, as bins differ; 0 unless given. The resistor
   * stays as designed, so lamps of fewer volts draw more.
   */
  readonly lampShift_V?: number;
}

/** Two pieces joined at a cut line; the resistance stands once in each rail. */
export interface Joint {
  readonly cutLine: number;
  readonly contact_ohm: number;
}

/**
 * Strip of `unitCount` cut units. Cut lines count from 0 (start) to `unitCount` (finish); each unit's load sits
 * at its middle. A pad at a joint lies between its two halves.
 */
export interface Run {
  readonly id: string;
  readonly unitCount: number;
  readonly unitLength_m: number;
  /** Positive rail at 20 degC, shared by all channels. */
  readonly positiveRail_ohm_per_m: number;
  readonly channels: readonly Channel[];
  /** Temperature of lamps and rail copper. */
  readonly strip_degC: number;
  readonly joints: readonly Joint[];
}

/** Where a conductor ends. */
export type Terminal =
  | { readonly source: string }
  | { readonly tap: string }
  | { readonly run: string; readonly cutLine: number };

/** One conductor, at its own temperature; `contact_ohm` counts once for each end that is a pad of a run. */
export interface Conductor {
  readonly from: Terminal;
  readonly to: Terminal;
  readonly length_m: number;
  readonly ohm_per_m: number;
  readonly contact_ohm: number;
  /** In series besides its copper: connectors, a fuse, a dimmer; 0 unless given. */
  readonly series_ohm?: number;
}

interface ReturnConductor extends Conductor {
  readonly channel: string;
}

/** A cable: the positive conductor and one return for each channel it serves. They may land apart (crossed). */
export interface Cable {
  readonly id: string;
  readonly positive: Conductor;
  readonly returns: readonly ReturnConductor[];
}

/** Everything that decides volts and amps. */
export interface CircuitDescription {
  readonly sources: readonly Source[];
  readonly taps: readonly Tap[];
  readonly runs: readonly Run[];
  readonly cables: readonly Cable[];
}

/** Ohms of a conductor from end to end. */
export function conductor_ohm({
  from,
  to,
  length_m,
  ohm_per_m,
  contact_ohm,
  series_ohm = 0,
}: Conductor): number {
  const padCount = ('run' in from ? 1 : 0) + ('run' in to ? 1 : 0);
  return length_m * ohm_per_m + padCount * contact_ohm + series_ohm;
}

/** All conductors of a cable, the positive first. */
export function conductorsOf(cable: Cable): readonly Conductor[] {
  return [cable.positive, ...cable.returns];
}

/** A cable whose conductors lie side by side from one place to another. */
export function pairedCable(of: {
  readonly id: string;
  readonly channels: readonly string[];
  readonly from: Terminal;
  readonly to: Terminal;
  readonly length_m: number;
  readonly ohm_per_m: number;
  readonly contact_ohm: number;
}): Cable {
  return crossedCable({ ...of, positiveTo: of.to, returnTo: of.to });
}

/** A cable whose positive lands on one place and whose returns land on another, all of the same length. */
export function crossedCable(of: {
  readonly id: string;
  readonly channels: readonly string[];
  readonly from: Terminal;
  readonly positiveTo: Terminal;
  readonly returnTo: Terminal;
  readonly length_m: number;
  readonly ohm_per_m: number;
  readonly contact_ohm: number;
}): Cable {
  const conductor = {
    from: of.from,
    length_m: of.length_m,
    ohm_per_m: of.ohm_per_m,
    contact_ohm: of.contact_ohm,
  };
  return {
    id: of.id,
    positive: { ...conductor, to: of.positiveTo },
    returns: of.channels.map((channel) => ({ ...conductor, to: of.returnTo, channel })),
  };
}
