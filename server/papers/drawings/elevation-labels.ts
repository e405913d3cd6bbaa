import type { Cable, FeedPoint, Run, Sizing, SlotLine } from '../../../src/sizing.ts';
import { textWidth } from '../ink/lettering.ts';
import { lettering, type Mark } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { squarePitch_mm } from './square-pitch.ts';

/** Room for labels beside the slots, mm of the paper. */
const ems_mm = [2.5, 2.3, 2, 1.8] as const;
const gap_mm = 0.35;
const capital = 0.73;

/** The cable that lands at a feed point: the last on the way from the driver. */
export function landingCable(feedPoint: FeedPoint, cables: readonly Cable[]): Cable | undefined {
  return cables.findLast((cable) => cable.to.includes(feedPoint.id));
}

/** How feed points are labelled: the em that fits between the slots, and every how many slots. */
export interface LabelPlan {
  readonly em_mm: number;
  readonly every: number;
}

/** The largest lettering that fits between slots; where none does, every second, third, ... slot is labelled. */
export function labelPlan(slots: readonly SlotLine[], perPaper: number): LabelPlan {
  const widest_mm = Math.max(...slots.map((slot) => slot.width_mm));
  const free = (squarePitch_mm(slots, Infinity) - widest_mm) / perPaper;
  const em = ems_mm.find((each) => capital * each + 2 * gap_mm <= free);
  if (em !== undefined) return { em_mm: em, every: 1 };
  const em_mm = ems_mm.at(-1)!;
  return { em_mm, every: Math.ceil((capital * em_mm + 2 * gap_mm) / Math.max(free, 0.1)) };
}

const sign = { both: '', positive: ' (+)', return: ' (−)' } as const;

/** Feed point, cable and, where the slot is long enough, the coordinates. */
function labelText(feedPoint: FeedPoint, slot: SlotLine, sizing: Sizing, em: number): string {
  const cable = landingCable(feedPoint, sizing.cables);
  const short = `${feedPoint.id}${sign[feedPoint.conductors]}${cable ? `  ${cable.id}` : ''}`;
  const long = `${short}  x ${shown(feedPoint.x_mm, 0)}  y ${shown(feedPoint.y_mm, 0)}`;
  const shares = sizing.setOut.runs.filter((run) => run.slot === slot.id).flatMap((run) => run.feedPoints);
  const room = (slot.length_mm * 0.94) / Math.max(1, shares.length);
  return textWidth(long, em) <= room ? long : short;
}

/** The label of a feed point, beside its slot and read along it. */
export function feedLabel(
  feedPoint: FeedPoint,
  slot: SlotLine,
  sizing: Sizing,
  plan: LabelPlan,
  perPaper: number,
): Mark {
  const em = plan.em_mm * perPaper;
  const along = [(slot.x1_mm - slot.x0_mm) / slot.length_mm, (slot.y1_mm - slot.y0_mm) / slot.length_mm];
  // Read from below or from the right: never upside down.
  const backwards = along[0]! < -1e-9 || (Math.abs(along[0]!) <= 1e-9 && along[1]! < 0);
  const [tx, ty] = backwards ? [-along[0]!, -along[1]!] : [along[0]!, along[1]!];
  const away = slot.width_mm / 2 + gap_mm * perPaper + capital * em;
  const inward = {
    start: backwards ? 'right' : 'left',
    finish: backwards ? 'left' : 'right',
    between: 'middle',
  };
  return lettering({
    layer: 'CABLE_REFS',
    at: [feedPoint.x_mm + ty * away, feedPoint.y_mm - tx * away],
    text: labelText(feedPoint, slot, sizing, em),
    em,
    align: inward[feedPoint.at] as 'left' | 'middle' | 'right',
    angle_deg: (Math.atan2(ty, tx) * 180) / Math.PI,
  });
}

/** References of the cables that no feed point's label names: trunks and their parts. */
export function trunkLabels(sizing: Sizing, runs: readonly Run[], em: number): Mark[] {
  const landing = new Set(
    runs.flatMap((run) => run.feedPoints.map((each) => landingCable(each, sizing.cables)?.id)),
  );
  return sizing.cables
    .filter((cable) => !landing.has(cable.id) && cable.route.length > 1)
    .map((cable) => {
      const spans = cable.route.slice(1).map((to, i) => ({ from: cable.route[i]!, to }));
      const length = ({ from, to }: (typeof spans)[number]): number =>
        Math.hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm);
      const { from, to } = spans.toSorted((a, b) => length(b) - length(a))[0]!;
      const level = Math.abs(to.x_mm - from.x_mm) > Math.abs(to.y_mm - from.y_mm);
      const fits = textWidth(cable.id, em) < length({ from, to });
      return lettering({
        layer: 'CABLE_REFS',
        at: [(from.x_mm + to.x_mm) / 2, (from.y_mm + to.y_mm) / 2 + 0.3 * em],
        text: cable.id,
        em,
        align: level && fits ? 'middle' : 'left',
        angle_deg: level && !fits ? 90 : 0,
      });
    });
}
