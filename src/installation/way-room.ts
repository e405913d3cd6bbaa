import type { Stretch } from '../answer/cables.ts';

/**
 * Diameter of so many like cores laid up together over that of one: the assembly factors of IEC 60502-1, annex A (from
 * memory); from 8 cores on its larger figures.
 */
const laidUp = [1, 2, 2.16, 2.42, 2.7, 3, 3, 3.45, 3.8, 4, 4, 4.16] as const;

/**
 * Outside diameter of a cable of so many cores, `D2 k(n)/k(2)`: that of two cores, by how thick the bundle is. A sheath
 * grows less than its cores, so that more than two come out a little thick; a single core counts as one without a sheath.
 * @param twoCores_mm outside diameter with two cores, above 0
 * @param coreCount whole, 1 to 12; another throws `RangeError`
 * Check: `tests/installation/way-room.test.ts` (circles in a circle: 3 take 1 + 2/sqrt(3), 4 take 1 + sqrt(2), 7 take 3).
 */
export function outsideDiameter_mm(twoCores_mm: number, coreCount: number): number {
  const factor = laidUp[coreCount - 1];
  if (factor === undefined) throw new RangeError(`no cable of ${coreCount} cores`);
  return (twoCores_mm * factor) / laidUp[1];
}

/** A cable as it takes room. */
export interface CableInWay {
  readonly id: string;
  readonly outer_mm: number;
  readonly stretches: readonly Pick<Stretch, 'in' | 'from' | 'to'>[];
}

/** Where most cable lies side by side in a cable way. */
export interface FullestSpot {
  readonly x_mm: number;
  readonly y_mm: number;
  /** Cross-sections of all cables there, sheath included. */
  readonly area_mm2: number;
  /** What lies there, once for each time it passes. */
  readonly cables: string[];
}

/** A cable over a part of a way. */
interface Lying {
  readonly id: string;
  readonly area_mm2: number;
  readonly y_mm: number;
  readonly low_mm: number;
  readonly high_mm: number;
}

const lyingInWay = ({ id, outer_mm, stretches }: CableInWay): Lying[] =>
  stretches
    .filter((stretch) => stretch.in === 'way')
    .map(({ from, to }) => ({
      id,
      area_mm2: (Math.PI / 4) * outer_mm ** 2,
      y_mm: from.y_mm,
      low_mm: Math.min(from.x_mm, to.x_mm),
      high_mm: Math.max(from.x_mm, to.x_mm),
    }));

const sumOf_mm2 = (lying: readonly Lying[]): number => lying.reduce((sum, { area_mm2 }) => sum + area_mm2, 0);

/**
 * The spot of the cable ways through which most cable passes, by cross-section: it is where a stretch begins, just
 * beyond it; the first of equals. Null where nothing lies in a way.
 * Check: `tests/installation/way-room.test.ts`, by hand and at every half millimetre.
 */
export function fullestSpot(cables: readonly CableInWay[]): FullestSpot | null {
  const lying = cables.flatMap(lyingInWay);
  const spots = lying.map(({ low_mm, y_mm }) => {
    const there = lying.filter((one) => one.y_mm === y_mm && one.low_mm <= low_mm && one.high_mm > low_mm);
    return { x_mm: low_mm, y_mm, area_mm2: sumOf_mm2(there), there };
  });
  const [first] = spots.toSorted((a, b) => b.area_mm2 - a.area_mm2 || a.y_mm - b.y_mm || a.x_mm - b.x_mm);
  if (first === undefined) return null;
  const { there, ...spot } = first;
  return { ...spot, cables: there.map(({ id }) => id) };
}
