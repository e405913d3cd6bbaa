import type { Cable, CircuitDescription, Conductor, Run } from '../circuit/description.ts';

/** What a site may have otherwise than planned, one standard deviation each, as ratios. */
interface SiteSpreads {
  /** Volts of a driver; each output has its own. */
  readonly volts: number;
  /** Watts of the strip, all alike, as of one batch. */
  readonly watts: number;
  /** Copper of the cables against the tables, all alike, and copper of the strip. */
  readonly copper: number;
  /** Length of a cable, each its own. */
  readonly length: number;
}

/**
 * Spreads of a site: the driver's tolerance as a uniform band, half of it over root 3; strip watts 5 %; copper 0.85
 * to 1.1 of the tables as a uniform band (the bands of the test sheet); lengths 3 % beside that (common practice).
 */
export const siteSpreads = (driverTolerance: number): SiteSpreads => ({
  volts: driverTolerance / Math.sqrt(3),
  watts: 0.05,
  copper: 0.25 / Math.sqrt(12),
  length: 0.03,
});

/** One thing a site may have otherwise; `of` is an output for volts, a cable for length, empty for the rest. */
export interface Unknown {
  readonly kind: 'volts' | 'watts' | 'cable copper' | 'strip copper' | 'length';
  readonly of: string;
  readonly spread: number;
}

/** Everything a site with these outputs and cables may have otherwise, in the order its values are given in. */
export function unknownsOf(
  outputs: readonly string[],
  cables: readonly string[],
  spreads: SiteSpreads,
): Unknown[] {
  return [
    ...outputs.map((of) => ({ kind: 'volts' as const, of, spread: spreads.volts })),
    { kind: 'watts', of: '', spread: spreads.watts },
    { kind: 'cable copper', of: '', spread: spreads.copper },
    { kind: 'strip copper', of: '', spread: spreads.copper },
    ...cables.map((of) => ({ kind: 'length' as const, of, spread: spreads.length })),
  ];
}

/** Ratios to the plan. */
export interface SiteRatios {
  readonly watts: number;
  readonly strip: number;
  readonly volts: (output: string) => number;
  readonly cable: (id: string) => number;
}

/** The ratios of a site whose unknowns are so many standard deviations off; those not given are as planned. */
export function ratiosAt(site: readonly number[], unknowns: readonly Unknown[]): SiteRatios {
  const ratios = new Map(
    unknowns.map(({ kind, of, spread }, k) => [`${kind} ${of}`, 1 + spread * (site[k] ?? 0)]),
  );
  const ratio = (kind: Unknown['kind'], of = ''): number => ratios.get(`${kind} ${of}`) ?? 1;
  return {
    watts: ratio('watts'),
    strip: ratio('strip copper'),
    volts: (output) => ratio('volts', output),
    cable: (id) => ratio('cable copper') * ratio('length', id),
  };
}

function runAt(run: Run, { watts, strip }: SiteRatios): Run {
  return {
    ...run,
    positiveRail_ohm_per_m: run.positiveRail_ohm_per_m * strip,
    channels: run.channels.map((channel) => ({
      ...channel,
      returnRail_ohm_per_m: channel.returnRail_ohm_per_m * strip,
      law: { ...channel.law, unit_W: channel.law.unit_W * watts },
    })),
  };
}

function cableAt(cable: Cable, ratio: number): Cable {
  const changed = <C extends Conductor>(conductor: C): C => ({
    ...conductor,
    ohm_per_m: conductor.ohm_per_m * ratio,
  });
  return { ...cable, positive: changed(cable.positive), returns: cable.returns.map(changed) };
}

/** A circuit as it is on the site; only the cables named are of cable copper. */
export function circuitAt(
  description: CircuitDescription,
  ratios: SiteRatios,
  cables: ReadonlySet<string>,
): CircuitDescription {
  return {
    ...description,
    sources: description.sources.map(({ id, set_V }) => ({ id, set_V: set_V * ratios.volts(id) })),
    runs: description.runs.map((run) => runAt(run, ratios)),
    cables: description.cables.map((cable) =>
      cables.has(cable.id) ? cableAt(cable, ratios.cable(cable.id)) : cable,
    ),
  };
}
