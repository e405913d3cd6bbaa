import { found, type Outcome, refused } from '../outcome.ts';
import { airAt } from './air.ts';
import { type HeatIssue, heatIssue } from './issues.ts';
import { carried_W_per_K, stackFlow_m3_per_s } from './openings.ts';
import { roomResistance_m2K_per_W } from './section-description.ts';

/** One face of a pocket. */
export interface PocketFace {
  readonly name: string;
  readonly area_m2: number;
  /** Of the solid alone; null where insulation lets nothing through. */
  readonly resistance_m2K_per_W: number | null;
}

/** A driver in a pocket. */
interface PocketDriver {
  readonly name: string;
  /** Watts in less watts out. */
  readonly loss_W: number;
  /** Surface that gives off heat. */
  readonly case_m2: number;
}

/** A pocket or cupboard with drivers in it. */
export interface PocketDescription {
  readonly faces: readonly PocketFace[];
  readonly drivers: readonly PocketDriver[];
  /** Vents low and high, or closed. */
  readonly vents: { readonly low_m2: number; readonly high_m2: number; readonly rise_m: number } | null;
  readonly room_K: number;
}

/** A pocket in balance. */
export interface PocketBalance {
  /** Air round the drivers: what a derating curve calls ambient. */
  readonly air_K: number;
  readonly drivers: readonly { readonly name: string; readonly case_K: number }[];
  readonly throughFaces_W: readonly { readonly name: string; readonly heat_W: number }[];
  readonly byAir_W: number;
  readonly flow_m3_per_s: number;
  readonly loss_W: number;
  /** Heat in less heat out, over heat in. */
  readonly balance: number;
}

/** From a driver's case to the air round it, 8 to 10 with radiation; the low end (handbook, from memory). */
const caseCoefficient_W_per_m2K = 8;
/** No pocket is calculated warmer than this. */
export const hottestPocket_K = 470;

/** Heat that crosses a face per kelvin, both films as ISO 6946 inside. */
function faceConductance_W_per_K(face: PocketFace): number {
  if (face.resistance_m2K_per_W === null) return 0;
  return face.area_m2 / (face.resistance_m2K_per_W + 2 * roomResistance_m2K_per_W);
}

function ventFlow_m3_per_s(pocket: PocketDescription, air_K: number): number {
  if (pocket.vents === null) return 0;
  return stackFlow_m3_per_s({ ...pocket.vents, inside_K: air_K, outside_K: pocket.room_K });
}

function byAir_W(pocket: PocketDescription, air_K: number): number {
  const mean = airAt((air_K + pocket.room_K) / 2);
  return carried_W_per_K(ventFlow_m3_per_s(pocket, air_K), mean) * (air_K - pocket.room_K);
}

/**
 * Air in a driver pocket from `sum P = sum U*A*(T - Troom) + rho*cp*Q(T)*(T - Troom)`, `1/U = 0.13 + R + 0.13`, and each
 * case over it by `P/(h*A)`, h 8 W/(m2K). One temperature for all the air of the pocket.
 *
 * @param pocket faces, drivers with their losses, vents (free areas) or none, room_K
 * @returns temperatures, watts by path and the balance; refused where heat has no way out
 * Holds for a pocket small enough to be one temperature; with vents of a few millimetres friction makes it hotter.
 * Source: heat balance with ISO 6946 films (secondary) and ASHRAE stack flow (secondary).
 * Check: closed form and energy in `tests/heat/pocket.test.ts`; flow by `heat-stack-*`.
 */
export function solvePocket(pocket: PocketDescription): Outcome<PocketBalance, HeatIssue> {
  const loss_W = pocket.drivers.reduce((sum, driver) => sum + driver.loss_W, 0);
  if (!(loss_W >= 0 && Number.isFinite(loss_W))) throw new RangeError(`drivers lose ${loss_W} W`);
  const conductance = pocket.faces.reduce((sum, face) => sum + faceConductance_W_per_K(face), 0);
  const out = (air_K: number): number => conductance * (air_K - pocket.room_K) + byAir_W(pocket, air_K);
  if (out(hottestPocket_K) < loss_W)
    return refused(
      heatIssue(
        'pocket-has-no-way-out',
        { loss_W, conductance_W_per_K: conductance },
        `The drivers lose ${loss_W.toFixed(1)} W and the pocket lets almost none of it out. Give it a face to the room, vents low and high, or put the drivers elsewhere.`,
      ),
    );
  let [low, high] = [pocket.room_K, hottestPocket_K];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (out(middle) < loss_W) low = middle;
    else high = middle;
  }
  const air_K = (low + high) / 2;
  return found({
    air_K,
    drivers: pocket.drivers.map(({ name, loss_W: own, case_m2 }) => ({
      name,
      case_K: air_K + own / (caseCoefficient_W_per_m2K * case_m2),
    })),
    throughFaces_W: pocket.faces.map((face) => ({
      name: face.name,
      heat_W: faceConductance_W_per_K(face) * (air_K - pocket.room_K),
    })),
    byAir_W: byAir_W(pocket, air_K),
    flow_m3_per_s: ventFlow_m3_per_s(pocket, air_K),
    loss_W,
    balance: loss_W === 0 ? 0 : (loss_W - out(air_K)) / loss_W,
  });
}
