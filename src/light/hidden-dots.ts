import { found, type Outcome, refused } from '../outcome.ts';
import { type DotVerdict, dotVerdict } from './dots.ts';
import type { LightIssue } from './issues.ts';
import { seenRipple } from './profile-light.ts';
import type { LitSection } from './section.ts';
import { sectionIssues } from './section-rules.ts';
import { lampsStraightAhead } from './sight-line.ts';
import { type SolvedSection, solveSection } from './solved-section.ts';

/** From where and how bright the slot is looked at. */
export interface DotView {
  readonly viewingDistance_m: number;
  readonly luminance_cd_per_m2: number;
}

/** Depths and lamp counts searched, in steps a maker can build or buy. */
const depths_mm = { least: 5, most: 200 } as const;
const lamps_per_m = { least: 5, most: 480 } as const;

function verdictOf(solved: SolvedSection, lampPitch_m: number, view: DotView): DotVerdict {
  const { michelson } = seenRipple(solved, null, lampPitch_m);
  return dotVerdict({ michelson, lampPitch_m, ...view });
}

/** A number of millimetres or lamps and what the eye makes of it; null where the section cannot be built so. */
interface Tried {
  readonly number: number;
  readonly verdict: DotVerdict | null;
}

/**
 * Smallest whole number from which on the dots are hidden, looking down from the top by halves and then halving the
 * gap; the top itself, dots showing, when they show there.
 */
function leastHidden(
  range: { readonly least: number; readonly most: number },
  verdictAt: (n: number) => DotVerdict | null,
): Tried {
  const tried = (number: number): Tried => ({ number, verdict: verdictAt(number) });
  let good = tried(range.most);
  let bad = range.least - 1;
  if (good.verdict?.word !== 'hidden') return good;
  while (good.number - bad > 1) {
    const half = Math.floor(good.number / 2);
    const next = tried(bad < range.least && half >= range.least ? half : Math.floor((good.number + bad) / 2));
    if (next.verdict?.word === 'hidden') good = next;
    else bad = next.number;
  }
  return good;
}

/** Refuses sections that cannot be worked out, and slots whose lamps an eye straight in front looks into. */
function viewIssues(section: LitSection, view: DotView): LightIssue[] {
  const issues = sectionIssues(section);
  if (issues.length > 0) return issues;
  if (!lampsStraightAhead(section, view.viewingDistance_m)) return [];
  return [
    {
      code: 'bare-lamps-in-view',
      place: { field: 'section.sheet' },
      quantities: { viewingDistance_m: view.viewingDistance_m },
      sentence:
        'The LEDs themselves are in view through the slot, so they show at any depth and at any spacing. Close the slot with opal sheet, move the strip behind the front, or put it on the inner face of the front.',
    },
  ];
}

/** The section at another depth, a strip on a side keeping its distance from the back. */
function atDepth(section: LitSection, depth_m: number): LitSection {
  const { strip } = section;
  if (strip.mount !== 'side') return { ...section, depth_m };
  const offset_m = strip.offset_m + (section.depth_m - depth_m) / 2;
  return { ...section, depth_m, strip: { ...strip, offset_m } };
}

/**
 * Least depth of the cavity, in whole millimetres, from which the dots stay hidden, strip and slot unchanged.
 *
 * @param section lengths as for `cavityLight`. @param view viewing distance and luminance, both above zero.
 * @returns depth and the verdict there. Depths from 5 to 200 mm are searched.
 * Refuses: whatever the section refuses; bare-lamps-in-view; dots-at-every-depth.
 * Check: `tests/light/wanted.test.ts` (one millimetre less shows, every tried depth above does not).
 */
export function leastDepthHidingDots(
  section: LitSection,
  view: DotView,
): Outcome<{ readonly depth_m: number; readonly verdict: DotVerdict }, LightIssue> {
  const issues = viewIssues(section, view);
  if (issues.length > 0) return refused(...issues);
  const verdictAt = (depth_mm: number): DotVerdict | null => {
    const deeper = atDepth(section, depth_mm / 1000);
    if (sectionIssues(deeper).length > 0) return null;
    return verdictOf(solveSection(deeper), section.strip.lampPitch_m, view);
  };
  const { number, verdict } = leastHidden(depths_mm, verdictAt);
  if (verdict?.word === 'hidden') return found({ depth_m: number / 1000, verdict });
  return refused({
    code: 'dots-at-every-depth',
    place: { field: 'section.depth_m' },
    quantities: { deepest_m: depths_mm.most / 1000, visibility: verdict?.visibility ?? 0 },
    sentence: `The LEDs show even in a cavity ${depths_mm.most} mm deep. Take strip with more LEDs per metre, or close the slot with opal sheet.`,
  });
}

/**
 * Least whole number of lamps per metre from which the dots stay hidden, everything else unchanged.
 *
 * @param section lengths as for `cavityLight`; its own lamp pitch plays no part. @param view as above.
 * @returns lamps per metre and the verdict there. Counts from 5 to 480 are searched.
 * Refuses: whatever the section refuses; bare-lamps-in-view; dots-at-every-pitch.
 * Check: `tests/light/wanted.test.ts`.
 */
export function leastLampsHidingDots(
  section: LitSection,
  view: DotView,
): Outcome<{ readonly lamps_per_m: number; readonly verdict: DotVerdict }, LightIssue> {
  const issues = viewIssues(section, view);
  if (issues.length > 0) return refused(...issues);
  const solved = solveSection(section);
  const verdictAt = (lamps: number): DotVerdict => verdictOf(solved, 1 / lamps, view);
  const { number, verdict } = leastHidden(lamps_per_m, verdictAt);
  if (verdict?.word === 'hidden') return found({ lamps_per_m: number, verdict });
  return refused({
    code: 'dots-at-every-pitch',
    place: { field: 'section.strip.lampPitch_m' },
    quantities: { mostLamps_per_m: lamps_per_m.most, visibility: verdict?.visibility ?? 0 },
    sentence: `The LEDs show even with ${lamps_per_m.most} LEDs per metre. Make the cavity deeper, or close the slot with opal sheet.`,
  });
}
