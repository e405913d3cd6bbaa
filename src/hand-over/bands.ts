/** A predicted reading and the band a sound installation is expected to fall in. */
export interface Band {
  readonly predicted: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Copper as bought against the tables: the tables give maxima, flexible conductors of nominal area are 13 to 16 %
 * below them (IEC 60228 against 17.241 ohm mm2/km), lengths on site may be a tenth more.
 */
const copper = { low: 0.85, high: 1.1 } as const;
/** Two made-off contacts, each up to 50 mohm with a clip-on connector (common practice). */
const contacts_ohm = 0.1;
/** Strip watts against the data sheet, either way (common practice). */
const stripPower = 0.1;

/** Band of a loop of copper measured dead: 0.85 to 1.1 times predicted, and two contacts of 50 mohm. */
export function loopBand(predicted_ohm: number): Band {
  return {
    predicted: predicted_ohm,
    low: copper.low * predicted_ohm,
    high: copper.high * predicted_ohm + contacts_ohm,
  };
}

/** Band of the volts of an unloaded output: the driver's tolerance either way. */
export function unloadedBand(given: { readonly set_V: number; readonly tolerance: number }): Band {
  const spread_V = given.set_V * given.tolerance;
  return { predicted: given.set_V, low: given.set_V - spread_V, high: given.set_V + spread_V };
}

/**
 * Band of loaded volts: the driver's tolerance either way, and the drop from the driver between 0.85 and 1.1 times
 * predicted, plus two contacts of 50 mohm at the feed's current.
 *
 * @param given set_V, predicted volts_V at the place, current_A of the feed, tolerance 0 to 0.1
 */
export function loadedBand(given: {
  readonly set_V: number;
  readonly volts_V: number;
  readonly current_A: number;
  readonly tolerance: number;
}): Band {
  const drop_V = Math.max(0, given.set_V - given.volts_V);
  const spread_V = given.set_V * given.tolerance;
  const most_V = copper.high * drop_V + contacts_ohm * given.current_A;
  return {
    predicted: given.volts_V,
    low: given.set_V - spread_V - most_V,
    high: given.set_V + spread_V - copper.low * drop_V,
  };
}

/**
 * Band of a current: the strip's own spread of a tenth, and the driver's tolerance times the strip's gain, the
 * percent of current for each percent of volts.
 *
 * @param given current_A; tolerance 0 to 0.1; gain 0 (regulated) or V/(V - n*Vf) (resistor strip)
 */
export function currentBand(given: {
  readonly current_A: number;
  readonly tolerance: number;
  readonly gain: number;
}): Band {
  const spread = stripPower + given.tolerance * given.gain;
  return {
    predicted: given.current_A,
    low: given.current_A * Math.max(0, 1 - spread),
    high: given.current_A * (1 + spread),
  };
}

/** What decides how strongly a strip's current follows its volts. */
export interface StripGain {
  readonly nominal_V: number;
  readonly law: 'resistor' | 'regulated';
  readonly channels: readonly { readonly lampsInSeries: number; readonly lampForward_V: number }[];
}

/**
 * Relative change of current for a relative change of volts, `V/(V - n*Vf)` of the channel with the least left over
 * its resistor; 0 for a regulated strip. Source: electrical references, sensitivity of a resistor strip (derived:
 * 24 V, n*Vf 18.2 V gives 4.1). Check: `hand-over-gain-*`.
 */
export function currentGain(strip: StripGain): number {
  if (strip.law === 'regulated') return 0;
  const gains = strip.channels.map(
    ({ lampsInSeries, lampForward_V }) => strip.nominal_V / (strip.nominal_V - lampsInSeries * lampForward_V),
  );
  return Math.max(...gains);
}
