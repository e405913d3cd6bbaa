import type { Piece, Run, SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { mm } from '../words.ts';
import type { SetOutIssue } from './issues.ts';

/** Counts are floors of quotients that may miss a whole number by rounding; this much is given back. */
const countSlack = 1e-9;

/**
 * Whole cut units in a length: `floor(length * units per metre)`, never longer than what is available. Units per
 * metre and not a rounded unit length are stored, because 24 a metre is 48 in 2,000 mm and 41.7 mm gives 47.
 */
export function wholeUnits(length_mm: number, unitsPerMetre: number): number {
  return Math.floor((length_mm * unitsPerMetre) / 1000 + countSlack);
}

/** Length of whole cut units in mm. */
export function unitsLength_mm(unitCount: number, unitsPerMetre: number): number {
  return (unitCount * 1000) / unitsPerMetre;
}

const tooShort = (slot: SlotLine, unit_mm: number, endCap_mm: number): SetOutIssue => ({
  code: 'slot-too-short',
  place: { slot: slot.id, field: 'slots' },
  quantities: { available_mm: slot.length_mm - 2 * endCap_mm, unit_mm },
  sentence: `Slot ${slot.id} is ${slot.length_mm.toFixed(0)} mm long${endCap_mm > 0 ? `, less ${mm(endCap_mm)} for the profile’s cap at each end,` : ''} and one cut unit of this strip is ${unit_mm.toFixed(1)} mm: lengthen the slot or choose a strip with a shorter cut unit.`,
});

const unitTooLong = (unit_mm: number, reel_mm: number): SetOutIssue => ({
  code: 'unit-longer-than-reel',
  place: { field: 'strip.data.reel_mm' },
  quantities: { unit_mm, reel_mm },
  sentence: `One cut unit (${mm(unit_mm)}) is longer than a reel (${mm(reel_mm)}): check both against the data sheet.`,
});

/** Units of each piece of a run: full reels first, the rest last, so joints are fewest. */
function pieceUnits(unitCount: number, unitsPerReel: number): number[] {
  const full = Math.floor(unitCount / unitsPerReel);
  const rest = unitCount - full * unitsPerReel;
  return [...Array<number>(full).fill(unitsPerReel), ...(rest > 0 ? [rest] : [])];
}

const letter = (i: number): string =>
  i < 26 ? String.fromCharCode(65 + i) : `${letter(Math.floor(i / 26) - 1)}${letter(i % 26)}`;

function piecesOf(run: string, unitCounts: readonly number[], unitsPerMetre: number): Piece[] {
  return unitCounts.map((unitCount, i) => ({
    id: `${run}-${letter(i)}`,
    run,
    unitCount,
    length_mm: unitsLength_mm(unitCount, unitsPerMetre),
    reel: '',
  }));
}

function jointLines(unitCounts: readonly number[]): number[] {
  let line = 0;
  return unitCounts.slice(0, -1).map((units) => {
    line += units;
    return line;
  });
}

const shareAtStart = { start: 0, middle: 0.5, finish: 1 } as const;

/**
 * The run of strip in one slot: as many whole units as the slot holds, cut from reels with the fewest joints;
 * what is left over is dark, split over both ends unless the strip is anchored at one, beside what the cap at each end of a
 * profile takes. Zone, reels and feed points
 * are filled in later. Refuses a slot shorter than one unit and a unit longer than a reel, by name.
 */
export function runInSlot(
  slot: SlotLine,
  strip: StripData,
  anchor: Job['strip']['anchor'],
  endCap_mm = 0,
): Outcome<Run, SetOutIssue> {
  const unit_mm = unitsLength_mm(1, strip.unitsPerMetre);
  const room_mm = slot.length_mm - 2 * endCap_mm;
  const unitCount = wholeUnits(room_mm, strip.unitsPerMetre);
  if (unitCount < 1) return refused(tooShort(slot, unit_mm, endCap_mm));
  const unitsPerReel = wholeUnits(strip.reel_mm, strip.unitsPerMetre);
  if (unitsPerReel < 1) return refused(unitTooLong(unit_mm, strip.reel_mm));
  const strip_mm = unitsLength_mm(unitCount, strip.unitsPerMetre);
  const darkStart_mm = endCap_mm + Math.max(0, room_mm - strip_mm) * shareAtStart[anchor];
  const units = pieceUnits(unitCount, unitsPerReel);
  const at = (s_mm: number): readonly [number, number] => [
    slot.x0_mm + ((slot.x1_mm - slot.x0_mm) * s_mm) / slot.length_mm,
    slot.y0_mm + ((slot.y1_mm - slot.y0_mm) * s_mm) / slot.length_mm,
  ];
  const [x0_mm, y0_mm] = at(darkStart_mm);
  const [x1_mm, y1_mm] = at(darkStart_mm + strip_mm);
  return found({
    id: slot.id,
    slot: slot.id,
    zone: null,
    unitCount,
    strip_mm,
    darkStart_mm,
    darkFinish_mm: Math.max(0, slot.length_mm - strip_mm - darkStart_mm),
    ...{ x0_mm, y0_mm, x1_mm, y1_mm },
    pieces: piecesOf(slot.id, units, strip.unitsPerMetre),
    jointLines: jointLines(units),
    feedPoints: [],
  });
}
