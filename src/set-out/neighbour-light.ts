import type { Neighbour, Run, SlotLine } from '../answer/set-out.ts';

interface LitRun {
  readonly run: Run;
  /** Light of each unit, relative to nominal. */
  readonly light: readonly number[];
}

/** Square across from a place on a slot, the place met on another: how far along that one, from its start. */
function metOn(seen: Neighbour, slot: SlotLine, beside: SlotLine): (at_mm: number) => number {
  const ux = (slot.x1_mm - slot.x0_mm) / slot.length_mm;
  const uy = (slot.y1_mm - slot.y0_mm) / slot.length_mm;
  const [x0_mm, y0_mm] = [slot.x0_mm - beside.x0_mm, slot.y0_mm - beside.y0_mm];
  const vx = (beside.x1_mm - beside.x0_mm) / beside.length_mm;
  const vy = (beside.y1_mm - beside.y0_mm) / beside.length_mm;
  const sign = seen.side === 'left' ? 1 : -1;
  const widening = (seen.toDistance_mm - seen.fromDistance_mm) / (seen.to_mm - seen.from_mm);
  return (at_mm) => {
    const left_mm = sign * (seen.fromDistance_mm + (at_mm - seen.from_mm) * widening);
    return (x0_mm + at_mm * ux - left_mm * uy) * vx + (y0_mm + at_mm * uy + left_mm * ux) * vy;
  };
}

/** Largest relative difference between the units of a run and those met across from them; null where none are met. */
function difference(
  seen: Neighbour,
  a: LitRun,
  b: LitRun,
  slots: ReadonlyMap<string, SlotLine>,
): number | null {
  const [slot, beside] = [slots.get(seen.slot)!, slots.get(seen.beside)!];
  const metAt_mm = metOn(seen, slot, beside);
  const unitA_mm = a.run.strip_mm / a.run.unitCount;
  const unitB_mm = b.run.strip_mm / b.run.unitCount;
  let largest: number | null = null;
  for (let i = 0; i < a.light.length; i++) {
    const light = a.light[i]!;
    const at_mm = a.run.darkStart_mm + (i + 0.5) * unitA_mm;
    if (at_mm < seen.from_mm || at_mm > seen.to_mm) continue;
    const other = b.light[Math.floor((metAt_mm(at_mm) - b.run.darkStart_mm) / unitB_mm)];
    if (other === undefined) continue;
    const brighter = Math.max(light, other);
    largest = Math.max(largest ?? 0, brighter > 0 ? Math.abs(light - other) / brighter : 0);
  }
  return largest;
}

const larger = (a: number | null, b: number | null): number | null =>
  a === null || b === null ? (a ?? b) : Math.max(a, b);

/**
 * Largest difference of light between each run and those in the slots beside it, unit against the unit square across
 * from it, as a ratio of the brighter; null where no strip lies across. What two slots differ by is said of both.
 * Check: `tests/set-out/neighbours.test.ts`.
 */
export function neighbourDifferences(
  runs: readonly LitRun[],
  slots: readonly SlotLine[],
  neighbours: readonly Neighbour[],
): (number | null)[] {
  const runOf = new Map(runs.map((lit) => [lit.run.slot, lit]));
  const slotOf = new Map(slots.map((slot) => [slot.id, slot]));
  const most = new Map<string, number | null>();
  for (const seen of neighbours) {
    const found = difference(seen, runOf.get(seen.slot)!, runOf.get(seen.beside)!, slotOf);
    for (const id of [seen.slot, seen.beside]) most.set(id, larger(most.get(id) ?? null, found));
  }
  return runs.map(({ run }) => most.get(run.slot) ?? null);
}
