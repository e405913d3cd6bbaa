import type { LightIssue } from './issues.ts';
import { placedProfile } from './profile.ts';
import { type LitSection, slotEdges } from './section.ts';

const mm = (length_m: number): string => `${Math.round(length_m * 10_000) / 10} mm`;

function requirePositive(section: LitSection): void {
  const { width_m, depth_m, slotWidth_m, strip } = section;
  const { inside_m = 1, wallHeight_m = 1 } = section.profile ?? {};
  const lengths = { width_m, depth_m, slotWidth_m, inside_m, wallHeight_m, lampPitch_m: strip.lampPitch_m };
  for (const [name, value] of Object.entries(lengths)) {
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${name} must be a positive length, not ${value}`);
  }
  if (!(strip.flux_lm_per_m >= 0)) throw new RangeError('flux must not be negative');
  if (!(section.reveal.depth_m >= 0)) throw new RangeError('reveal depth must not be negative');
}

function requireShares(section: LitSection): void {
  const { reflectance, reveal, sheet, profile } = section;
  const shares = [reflectance.back, reflectance.sides, reflectance.front, reveal.reflectance];
  if (sheet) shares.push(sheet.transmittance, sheet.reflectance);
  if (profile) shares.push(profile.baseReflectance, profile.wallReflectance, profile.outsideReflectance);
  if (profile?.cover) shares.push(...Object.values(profile.cover));
  if (!shares.every((share) => share >= 0 && share <= 1)) {
    throw new RangeError('reflectances and transmittance must lie between 0 and 1');
  }
}

function slotIssues(section: LitSection): LightIssue[] {
  const { left_m, right_m } = slotEdges(section);
  const slack = 1e-9;
  if (left_m >= -slack && right_m <= section.width_m + slack) return [];
  return [
    {
      code: 'slot-outside-section',
      place: { field: 'slotWidth_m' },
      quantities: { left_m, right_m, width_m: section.width_m },
      sentence: `The slot (${mm(left_m)} to ${mm(right_m)}) reaches beyond the cavity behind it, which is ${mm(section.width_m)} wide. Make the slot narrower, move it towards the middle, or move the battens apart.`,
    },
  ];
}

function profileIssues(section: LitSection): LightIssue[] {
  const placed = placedProfile(section);
  if (placed === null || section.strip.mount === 'recessed') return coverIssues(section);
  const { outer } = placed;
  const { width_m, depth_m } = section;
  const isInside = outer.x0 >= 0 && outer.x1 <= width_m && outer.y0 >= 0 && outer.y1 < depth_m;
  if (isInside) return coverIssues(section);
  return [
    {
      code: 'profile-outside-section',
      place: { field: 'profile' },
      quantities: { x0_m: outer.x0, x1_m: outer.x1, y0_m: outer.y0, y1_m: outer.y1, width_m, depth_m },
      sentence: `The profile reaches beyond the cavity, which is ${mm(width_m)} wide and ${mm(depth_m)} deep. Move it, take a smaller one, or make the cavity larger.`,
    },
  ];
}

function coverIssues({ profile }: LitSection): LightIssue[] {
  const cover = profile?.cover;
  if (!cover || cover.transmittance + cover.reflectance <= 1 + 1e-12) return [];
  const { transmittance, reflectance } = cover;
  return [
    {
      code: 'cover-gains-light',
      place: { field: 'profile.cover' },
      quantities: { transmittance, reflectance },
      sentence:
        'The cover of the profile would send out more light than it gets: what it lets through and what it reflects add up to more than all of it. Lower one of the two.',
    },
  ];
}

function mountIssues({ strip, endless, width_m }: LitSection): LightIssue[] {
  if (strip.mount !== 'side' || !endless) return [];
  return [
    {
      code: 'side-mount-without-side',
      place: { field: 'strip.mount' },
      quantities: { width_m },
      sentence:
        'The strip is to sit on a side of the cavity, but no battens close this cavity. Add battens, or put the strip on the back or on the inner face of the front.',
    },
  ];
}

function stripIssues({ strip, width_m, depth_m, slotWidth_m, slotOffset_m }: LitSection): LightIssue[] {
  const { offset_m } = strip;
  const face_m = strip.mount === 'side' ? depth_m : width_m;
  if (Math.abs(offset_m) >= face_m / 2) {
    return [
      {
        code: 'strip-outside-face',
        place: { field: 'strip.offset_m' },
        quantities: { offset_m, face_m },
        sentence: `The strip is ${mm(Math.abs(offset_m))} from the middle of a face that is only ${mm(face_m)} across. Move it closer to the middle.`,
      },
    ];
  }
  if (strip.mount !== 'front' || Math.abs(offset_m - slotOffset_m) > slotWidth_m / 2) return [];
  return [
    {
      code: 'strip-in-slot',
      place: { field: 'strip.offset_m' },
      quantities: { offset_m, slotOffset_m, slotWidth_m },
      sentence: `The strip is on the inner face of the front, but there the slot is open. Move the strip more than ${mm(slotWidth_m / 2)} from the middle of the slot.`,
    },
  ];
}

function sheetIssues({ sheet }: LitSection): LightIssue[] {
  if (!sheet || sheet.transmittance + sheet.reflectance <= 1 + 1e-12) return [];
  const { transmittance, reflectance } = sheet;
  return [
    {
      code: 'sheet-gains-light',
      place: { field: 'sheet' },
      quantities: { transmittance, reflectance },
      sentence:
        'The sheet would send out more light than it gets: what it lets through and what it reflects add up to more than all of it. Lower one of the two; opal sheet loses another 5 to 10 percent.',
    },
  ];
}

/**
 * Everything that stops a section from being worked out, in the order a maker would put it right.
 *
 * @throws RangeError for lengths that are not positive or shares outside 0 to 1.
 */
export function sectionIssues(section: LitSection): LightIssue[] {
  requirePositive(section);
  requireShares(section);
  const mount = mountIssues(section);
  const held = section.profile === undefined ? stripIssues(section) : profileIssues(section);
  const strip = mount.length > 0 ? mount : held;
  return [...slotIssues(section), ...strip, ...sheetIssues(section)];
}
