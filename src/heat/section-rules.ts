import { type HeatIssue, heatIssue } from './issues.ts';
import { mm, slack_m } from './lengths.ts';
import { profileIssues } from './profile-rules.ts';
import {
  cavityWidth_m,
  type Profile,
  type SectionDescription,
  type SectionLoads,
} from './section-description.ts';

/** Room the strip (with its aluminium flat) needs on the surface it is stuck to, from end to end. */
function mountedSpan_m(section: SectionDescription): { from: number; to: number } {
  const { strip } = section;
  const half = Math.max(strip.width_m, strip.carrier?.width_m ?? 0) / 2;
  return { from: strip.offset_m - half, to: strip.offset_m + half };
}

function openingIssues(section: SectionDescription): HeatIssue[] {
  const { slotWidth_m, pitch_m, battenWidth_m, sheet, front } = section;
  const issues: HeatIssue[] = [];
  if (slotWidth_m >= pitch_m)
    issues.push(
      heatIssue(
        'slot-wider-than-pitch',
        { slotWidth_m, pitch_m },
        `The slot (${mm(slotWidth_m)}) is as wide as the distance from slot to slot (${mm(pitch_m)}). Make the slot narrower or the slots further apart.`,
        { field: 'slotWidth' },
      ),
    );
  else if (slotWidth_m + battenWidth_m > pitch_m + slack_m)
    issues.push(
      heatIssue(
        'batten-meets-slot',
        { slotWidth_m, battenWidth_m, pitch_m },
        `Slot and batten together (${mm(slotWidth_m + battenWidth_m)}) are wider than the distance from slot to slot (${mm(pitch_m)}). Use a narrower batten or set the slots further apart.`,
        { field: 'battenWidth' },
      ),
    );
  if (sheet !== null && sheet.thickness_m > front.thickness_m + slack_m)
    issues.push(
      heatIssue(
        'sheet-thicker-than-front',
        { sheet_m: sheet.thickness_m, front_m: front.thickness_m },
        `The sheet (${mm(sheet.thickness_m)}) is thicker than the front (${mm(front.thickness_m)}) it lies in. Use a thinner sheet or a thicker front.`,
        { field: 'sheet' },
      ),
    );
  return issues;
}

function carrierIssues(section: SectionDescription): HeatIssue[] {
  const { carrier, width_m, mount } = section.strip;
  if (carrier === null) return [];
  const issues: HeatIssue[] = [];
  const available_m = mount === 'side' ? cavityWidth_m(section) : section.cavityDepth_m;
  if (carrier.width_m < width_m - slack_m)
    issues.push(
      heatIssue(
        'carrier-narrower-than-strip',
        { carrier_m: carrier.width_m, strip_m: width_m },
        `The aluminium flat (${mm(carrier.width_m)}) is narrower than the strip on it (${mm(width_m)}). Use a flat at least as wide as the strip.`,
        { field: 'strip.carrier' },
      ),
    );
  if (carrier.thickness_m >= available_m)
    issues.push(
      heatIssue(
        'carrier-fills-cavity',
        { carrier_m: carrier.thickness_m, available_m },
        `The aluminium flat (${mm(carrier.thickness_m)}) fills the cavity (${mm(available_m)}). Make the cavity deeper or the flat thinner.`,
        { field: 'strip.carrier' },
      ),
    );
  return issues;
}

function mountIssues(section: SectionDescription): HeatIssue[] {
  const { strip } = section;
  const { from, to } = mountedSpan_m(section);
  const onSide = strip.mount === 'side';
  if (onSide && section.battenWidth_m <= 0)
    return [
      heatIssue(
        'side-needs-batten',
        { battenWidth_m: section.battenWidth_m },
        'The strip is on the flank of a batten, and there is no batten. Give the batten a width or mount the strip on the backing.',
        { field: 'strip.mount' },
      ),
    ];
  const low = onSide ? 0 : -cavityWidth_m(section) / 2;
  const high = onSide ? section.cavityDepth_m : cavityWidth_m(section) / 2;
  const issues: HeatIssue[] = [];
  if (from < low - slack_m || to > high + slack_m)
    issues.push(
      heatIssue(
        'strip-wider-than-cavity',
        { from_m: from, to_m: to, low_m: low, high_m: high },
        `The strip${section.strip.carrier === null ? '' : ' with its aluminium flat'} (${mm(to - from)}) reaches beyond the ${mm(high - low)} there is to stick it to. Move it, use a narrower one, or make the cavity ${onSide ? 'deeper' : 'wider'}.`,
        { field: 'strip' },
      ),
    );
  const halfSlot = section.slotWidth_m / 2;
  if (strip.mount === 'front' && from < halfSlot - slack_m && to > -halfSlot + slack_m)
    issues.push(
      heatIssue(
        'strip-over-slot',
        { from_m: from, to_m: to, slotWidth_m: section.slotWidth_m },
        `The strip on the inner face of the front reaches over the slot (${mm(section.slotWidth_m)} wide). Move it at least ${mm(halfSlot + (to - from) / 2)} from the middle of the slot.`,
        { field: 'strip.offset' },
      ),
    );
  return issues;
}

/** Geometry that cannot be built, each with the sentence that says what to change; empty when it can. */
export function sectionIssues(section: SectionDescription): HeatIssue[] {
  const opening = openingIssues(section);
  if (opening.length > 0) return opening;
  const isProfiled = section.strip.profile !== undefined || section.strip.mount === 'recessed';
  return isProfiled ? profileIssues(section) : [...carrierIssues(section), ...mountIssues(section)];
}

/**
 * The poorest joint between a flat and timber that is worked out, a good millimetre of air: far beyond it a hot strip's
 * radiation is all that ties the metal to the rest, and the field does not settle.
 */
const mostContact_m2K_per_W = 0.05;

const positiveOf = ({
  cover,
  contact_m2K_per_W,
  insideEmissivity,
  outsideEmissivity,
  ...sizes
}: Profile) => ({
  ...sizes,
  ...(cover === null ? {} : { cover_m: cover.thickness_m, coverConductivity: cover.conductivity_W_per_mK }),
});

/** @throws RangeError for numbers no section can have: a caller's mistake, not a maker's. */
export function demandSection(section: SectionDescription, loads: SectionLoads): void {
  const { front, backing, strip, sheet } = section;
  const { profile } = strip;
  const positive: Record<string, number> = {
    pitch_m: section.pitch_m,
    slotHeight_m: section.slotHeight_m,
    cavityDepth_m: section.cavityDepth_m,
    front_m: front.thickness_m,
    frontConductivity: front.conductivity_W_per_mK,
    backing_m: backing.thickness_m,
    backingConductivity: backing.conductivity_W_per_mK,
    stripWidth_m: strip.width_m,
    room_K: section.room_K,
    airFactor: section.cavityAir.factor,
    ...(sheet === null ? {} : { sheet_m: sheet.thickness_m, sheetConductivity: sheet.conductivity_W_per_mK }),
    ...(profile === undefined ? {} : positiveOf(profile)),
  };
  for (const [name, value] of Object.entries(positive))
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} is ${value}`);
  const emissivities = [front.emissivity, backing.emissivity, strip.emissivity, section.batten.emissivity];
  if (sheet !== null) emissivities.push(sheet.emissivity);
  if (profile !== undefined) emissivities.push(profile.insideEmissivity, profile.outsideEmissivity);
  if (profile?.cover) emissivities.push(profile.cover.emissivity);
  for (const value of emissivities)
    if (!(value > 0 && value <= 1)) throw new RangeError(`emissivity ${value}`);
  const watts = [loads.strip_W_per_m, ...Object.values(loads.facesAbsorbed_W_per_m ?? {})];
  const joint = strip.carrier?.contact_m2K_per_W ?? 0;
  if (!(joint <= mostContact_m2K_per_W)) throw new RangeError(`contact of ${joint} m2K/W`);
  const contacts = [strip.contact_m2K_per_W, joint, profile?.contact_m2K_per_W ?? 0];
  const lengths = [section.slotWidth_m, section.battenWidth_m, ...contacts];
  for (const value of [...watts, ...lengths])
    if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`negative or endless number ${value}`);
}
