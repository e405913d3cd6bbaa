import { luminousEfficacyOfRadiation_lm_per_W } from '../constants.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { LightIssue } from './issues.ts';
import type { LitSection } from './section.ts';
import { sectionIssues } from './section-rules.ts';
import { openingShare, seenLuminance_cd_per_m2, solveSection } from './solved-section.ts';

/** What a maker wants to see, and the strip now in the job. */
export interface Wish {
  readonly section: LitSection;
  /** Luminance of what the eye meets, at the darkest place of the run. */
  readonly wanted_cd_per_m2: number;
  /** Light at the darkest place of the run as a share of nominal, from the solved circuit; 1 where unknown. */
  readonly lowestLight: number;
  /** Watts per metre of the strip now in the job; its lumens are those of the section. */
  readonly watts_per_m: number;
}

/** Strip that gives the wanted brightness, beside the one now in the job. */
export interface WantedStrip {
  readonly flux_lm_per_m: number;
  /** At the lumens per watt of the strip now in the job. */
  readonly watts_per_m: number;
  /** Heat of strip and trapped light together: `watts - lumens out/315`. */
  readonly heat_W_per_m: number;
  readonly given: {
    readonly seen_cd_per_m2: number;
    readonly flux_lm_per_m: number;
    readonly watts_per_m: number;
    readonly heat_W_per_m: number;
  };
  /** Level at which the strip now in the job gives just that, above 1 when it is too weak. */
  readonly level: number;
  /** Watts and heat the wanted strip does without; negative when it has to be stronger. */
  readonly savedWatts_per_m: number;
  readonly savedHeat_W_per_m: number;
}

/**
 * Lumens and watts per metre that give a wanted luminance at the darkest place, `F = F_now*wanted/(seen_now*lowest)`:
 * light is linear, so one solved section answers.
 *
 * Volts lost in copper, driver load and heat all go down with `level`, nearly in proportion.
 *
 * @param wish wanted luminance above zero, lowest light above 0 (a warm strip may give a
 *   little over 1), watts above zero, flux of the section above zero.
 * @returns strip wanted, strip given, the dimmer level between them, and what is saved.
 * Refuses: whatever the section refuses; no-light-seen.
 * @throws RangeError outside those ranges.
 * Source: linearity of radiosity; heat `watts - lumens out/315`, 315 lm/W of light plus or minus 15 (CIE 015:2018
 * reference spectra, worked out). Check: `tests/light/wanted.test.ts` (the answer put back gives the wish).
 */
export function wantedStrip(wish: Wish): Outcome<WantedStrip, LightIssue> {
  const { section, wanted_cd_per_m2, lowestLight, watts_per_m } = wish;
  const { flux_lm_per_m } = section.strip;
  const positive = wanted_cd_per_m2 > 0 && watts_per_m > 0 && flux_lm_per_m > 0;
  if (!positive || !(lowestLight > 0 && lowestLight <= 1.5)) {
    throw new RangeError('wanted luminance, watts and lumens must be positive, lowest light above 0');
  }
  const issues = sectionIssues(section);
  if (issues.length > 0) return refused(...issues);
  const solved = solveSection(section);
  const seen_cd_per_m2 = seenLuminance_cd_per_m2(solved) * lowestLight;
  if (!(seen_cd_per_m2 > 0)) return refused(nothingSeen(seen_cd_per_m2));
  const level = wanted_cd_per_m2 / seen_cd_per_m2;
  const heat_W_per_m =
    watts_per_m - (openingShare(solved) * flux_lm_per_m) / luminousEfficacyOfRadiation_lm_per_W;
  return found({
    flux_lm_per_m: level * flux_lm_per_m,
    watts_per_m: level * watts_per_m,
    heat_W_per_m: level * heat_W_per_m,
    given: { seen_cd_per_m2, flux_lm_per_m, watts_per_m, heat_W_per_m },
    level,
    savedWatts_per_m: (1 - level) * watts_per_m,
    savedHeat_W_per_m: (1 - level) * heat_W_per_m,
  });
}

function nothingSeen(seen_cd_per_m2: number): LightIssue {
  return {
    code: 'no-light-seen',
    place: { field: 'section.reflectance' },
    quantities: { seen_cd_per_m2 },
    sentence:
      'No strip can give this brightness: what the eye meets through the slot sends no light back. Give the back a lighter finish, or close the slot with a sheet.',
  };
}

/** A strip of the catalogue, as far as light goes. */
export interface CatalogueStrip {
  readonly id: string;
  readonly flux_lm_per_m: number;
  readonly watts_per_m: number;
}

/** How one strip of the catalogue meets the wish. */
export interface StripChoice {
  readonly id: string;
  readonly enough: boolean;
  /** Dimmer level that gives just the wanted light; 1 when it is too weak. */
  readonly level: number;
  /** Drawn at that level, taking light to go with power as it does under pulsed dimming. */
  readonly watts_per_m: number;
  readonly fullWatts_per_m: number;
}

/**
 * Strips of a catalogue set against the wanted lumens: those that reach it first, least full watts first among them
 * (driver and cable are sized for full watts), then the too weak ones, strongest first.
 *
 * @param catalogue entries with positive lumens and watts. @param flux_lm_per_m wanted, above zero.
 * Check: `tests/light/wanted.test.ts`.
 */
export function stripChoices(catalogue: readonly CatalogueStrip[], flux_lm_per_m: number): StripChoice[] {
  if (!(flux_lm_per_m > 0)) throw new RangeError('wanted lumens per metre must be positive');
  const choices = catalogue.map((strip) => {
    const enough = strip.flux_lm_per_m >= flux_lm_per_m;
    const level = enough ? flux_lm_per_m / strip.flux_lm_per_m : 1;
    const { id, watts_per_m: fullWatts_per_m } = strip;
    return { id, enough, level, watts_per_m: level * fullWatts_per_m, fullWatts_per_m };
  });
  const flux = new Map(catalogue.map((strip) => [strip.id, strip.flux_lm_per_m]));
  return choices.sort((a, b) => {
    if (a.enough !== b.enough) return a.enough ? -1 : 1;
    if (a.enough) return a.fullWatts_per_m - b.fullWatts_per_m;
    return (flux.get(b.id) ?? 0) - (flux.get(a.id) ?? 0);
  });
}
