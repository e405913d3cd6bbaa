import type { Reel, Run, SetOut, SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { listing } from '../words.ts';
import { feedingOf, feedPointsOf } from './feed-points.ts';
import type { SetOutIssue } from './issues.ts';
import { neighbours } from './neighbours.ts';
import { runInSlot, wholeUnits } from './pieces.ts';
import { cutReels, type ReelKind } from './reels.ts';
import { slotLines } from './slot-lines.ts';

/** Name of the zone a slot is dimmed in (slots are numbered from 1), or null. */
function zoneOf(job: Job, slotNumber: number): string | null {
  return job.dimming.zones.find((zone) => zone.slots.includes(slotNumber))?.name ?? null;
}

function withFeeds(slot: SlotLine, job: Job, strip: StripData, endCap_mm: number): Outcome<Run, SetOutIssue> {
  const run = runInSlot(slot, strip, job.strip.anchor, endCap_mm);
  if (!run.ok) return run;
  const feedPoints = feedPointsOf(run.value, feedingOf(job.feeds, slot.number));
  if (!feedPoints.ok) return feedPoints;
  return found({ ...run.value, zone: zoneOf(job, slot.number), feedPoints: feedPoints.value });
}

/** Numbers of slots that a field names and the wall does not have, in one sentence. */
function numberIssue(field: string, missing: readonly number[], slotCount: number): SetOutIssue {
  const numbers = listing(missing.map(String));
  const isOne = missing.length === 1;
  const sentence = isOne
    ? `There is no slot ${numbers}: the wall has ${slotCount}. Change the number, or remove the entry.`
    : `There are no slots ${numbers}: the wall has ${slotCount}. Change the numbers, or remove them.`;
  const quantities = { slotNumber: missing[0]!, slotCount };
  return { code: 'no-such-slot', place: { field }, quantities, sentence };
}

function numberIssues({ feeds, dimming }: Job, slotCount: number): SetOutIssue[] {
  const named = [
    ...feeds.exceptions.map(({ slot }, i) => [[slot], `feeds.exceptions[${i + 1}].slot`] as const),
    ...dimming.zones.map(({ slots }, i) => [slots, `dimming.zones[${i + 1}].slots`] as const),
  ];
  return named.flatMap(([slots, field]) => {
    const missing = slots.filter((n) => n > slotCount);
    return missing.length === 0 ? [] : [numberIssue(field, missing, slotCount)];
  });
}

type Zone = Job['dimming']['zones'][number];

const twiceText = (n: number, zone: Zone, other: Zone): string =>
  zone === other
    ? `Zone "${zone.name}" names slot ${n} twice: remove one of the two.`
    : `Slot ${n} is in zone "${other.name}" and in zone "${zone.name}": one slot is dimmed with one zone only. Remove it from one.`;

function zoneIssues(job: Job): SetOutIssue[] {
  const seen = new Map<number, Zone>();
  return job.dimming.zones.flatMap((zone, i) =>
    zone.slots.flatMap((n): SetOutIssue[] => {
      const other = seen.get(n);
      seen.set(n, zone);
      if (other === undefined) return [];
      return [
        {
          code: 'slot-in-two-zones',
          place: { field: `dimming.zones[${i + 1}].slots` },
          quantities: { slotNumber: n },
          sentence: twiceText(n, zone, other),
        },
      ];
    }),
  );
}

function reelled(runs: readonly Run[], reels: readonly Reel[]): Run[] {
  const reelOf = new Map(reels.flatMap((reel) => reel.pieces.map((piece) => [piece, reel.id] as const)));
  return runs.map((run) => ({
    ...run,
    pieces: run.pieces.map((piece) => ({ ...piece, reel: reelOf.get(piece.id)! })),
  }));
}

/** The most cut units of all runs and channels together that one job is solved for: some 4 km of common strip. */
const mostUnits = 100_000;

function unitIssues(runs: readonly Pick<Run, 'unitCount'>[], strip: StripData): SetOutIssue[] {
  const channelCount = strip.channels.length;
  const unitCount = channelCount * runs.reduce((sum, run) => sum + run.unitCount, 0);
  if (unitCount <= mostUnits) return [];
  const of = channelCount === 1 ? 'cut units' : `cut units, each with ${channelCount} channels`;
  return [
    {
      code: 'too-many-units',
      place: { field: 'strip.data.unitsPerMetre' },
      quantities: { unitCount, mostUnits, unitsPerMetre: strip.unitsPerMetre, channelCount },
      sentence: `The wall holds ${(unitCount / channelCount).toLocaleString('en-GB')} ${of}, more than one job is calculated for: check the number of cut units per metre (${strip.unitsPerMetre}), or split the wall into several jobs.`,
    },
  ];
}

/** Offcuts in stock that hold a cut unit at all, by their lengths, the longest first. */
function offcutsOf({ strip: { offcuts_mm } }: Job, { unitsPerMetre }: StripData): ReelKind[] {
  const useful = offcuts_mm.filter((length_mm) => wholeUnits(length_mm, unitsPerMetre) > 0);
  return [...new Set(useful)]
    .sort((a, b) => b - a)
    .map((length_mm) => ({
      ...{ length_mm, price_cents: 0 },
      count: useful.filter((other) => other === length_mm).length,
    }));
}

/** Tells slots on one face of the wall: panels with no corner between them. */
function onOneFace(job: Job): (a: SlotLine, b: SlotLine) => boolean {
  let face = 0;
  const faces = new Map<string | null, number>(
    job.panels.map(({ id, joint }, i) => {
      if (i > 0 && joint !== 'in line') face++;
      return [id, face];
    }),
  );
  return (a, b) => faces.get(a.panel) === faces.get(b.panel);
}

/**
 * Slots to runs of whole cut units, their dark ends, joints, feed points and the reels they are cut from.
 * @param endCap_mm what the cap at each end of a profile takes; 0 without one
 * Refuses by name every slot that cannot be built, all at once.
 */
export function setOutJob(job: Job, strip: StripData, endCap_mm = 0): Outcome<SetOut, SetOutIssue> {
  const slots = slotLines(job);
  if (!slots.ok) return slots;
  const runs = slots.value.map((slot) => withFeeds(slot, job, strip, endCap_mm));
  const issues = [
    ...runs.flatMap((run) => (run.ok ? [] : run.issues)),
    ...numberIssues(job, slots.value.length),
    ...zoneIssues(job),
  ];
  if (issues.length > 0) return refused(...issues);
  const good = runs.flatMap((run) => (run.ok ? [run.value] : []));
  const tooMany = unitIssues(good, strip);
  if (tooMany.length > 0) return refused(...tooMany);
  const { reels, method } = cutReels(
    good.flatMap((run) => run.pieces),
    [...offcutsOf(job, strip), { length_mm: strip.reel_mm, price_cents: null, count: null }],
    strip.unitsPerMetre,
  );
  return found({
    slots: slots.value,
    neighbours: neighbours(slots.value, onOneFace(job)),
    runs: reelled(good, reels),
    reels: [...reels],
    reelMethod: method,
    strip_m: good.reduce((sum, run) => sum + run.strip_mm, 0) / 1000,
    jointCount: good.reduce((sum, run) => sum + run.jointLines.length, 0),
  });
}
