import { uprightLayerResistance_m2K_per_W } from './air-layer.ts';

/** Surface resistances of ISO 6946:2007 Table 1 (2017: Table 7), heat flowing horizontally (secondary). */
export const surfaceResistance_m2K_per_W = { inside: 0.13, outside: 0.04 } as const;

/** One layer of the wall behind a piece. */
export interface WallLayer {
  readonly thickness_m: number;
  /** Null for an unventilated layer of air. */
  readonly conductivity_W_per_mK: number | null;
  /** Of one face of a layer of air; null for an ordinary one. */
  readonly emissivity: number | null;
  /** What bridges it, such as studs: its share of the wall's face, 0 to 1, and its conductivity; null for nothing. */
  readonly bridge: { readonly share: number; readonly conductivity_W_per_mK: number } | null;
}

/** Thermal resistance of layers with the surfaces about them, m2K/W. */
export interface WallResistance {
  /** The mean of the two limits, which is taken. */
  readonly resistance_m2K_per_W: number;
  readonly upper_m2K_per_W: number;
  readonly lower_m2K_per_W: number;
}

/** Limits that differ by more say that the method does not hold (ISO 6946, 6.7.2.1, from memory). */
export const mostLimitRatio = 1.5;

/** A part of a layer, by its share of the wall's face. */
interface Part {
  readonly share: number;
  readonly resistance_m2K_per_W: number;
}

function partsOf({ thickness_m, conductivity_W_per_mK, emissivity, bridge }: WallLayer): Part[] {
  const own =
    conductivity_W_per_mK === null
      ? uprightLayerResistance_m2K_per_W(thickness_m, emissivity)
      : thickness_m / conductivity_W_per_mK;
  if (bridge === null || bridge.share === 0) return [{ share: 1, resistance_m2K_per_W: own }];
  return [
    { share: 1 - bridge.share, resistance_m2K_per_W: own },
    { share: bridge.share, resistance_m2K_per_W: thickness_m / bridge.conductivity_W_per_mK },
  ];
}

function sideBySide_m2K_per_W(parts: readonly Part[]): number {
  if (parts.length === 1) return parts[0]!.resistance_m2K_per_W;
  return 1 / parts.reduce((sum, { share, resistance_m2K_per_W }) => sum + share / resistance_m2K_per_W, 0);
}

/** Resistance of one layer by itself, its bridge side by side with it, m2K/W. Source: ISO 6946, lower limit (secondary). */
export const layerResistance_m2K_per_W = (layer: WallLayer): number => sideBySide_m2K_per_W(partsOf(layer));

/**
 * Thermal resistance of layers by the combined method. Lower limit: every layer made even, `1/R = f1/R1 + f2/R2`, then in
 * series. Upper limit: every way straight through by itself, then side by side by shares of the face; bridges of
 * different layers cross one another, so that their shares multiply. The resistance is the mean of the two.
 *
 * @param layers at least one; thickness and conductivities above 0, shares 0 to below 1
 * @param surfaces_m2K_per_W surface resistances in series with them, both together
 * Not for bridges of metal. Source: ISO 6946:2007 6.2 (2017: 6.7.2), secondary. Check: `heat-wall-*`.
 */
export function wallResistance(layers: readonly WallLayer[], surfaces_m2K_per_W: number): WallResistance {
  const all = layers.map(partsOf);
  const lower = all.reduce((sum, parts) => sum + sideBySide_m2K_per_W(parts), 0) + surfaces_m2K_per_W;
  const ways = all.reduce<Part[]>(
    (before, parts) =>
      before.flatMap((way) =>
        parts.map((part) => ({
          share: way.share * part.share,
          resistance_m2K_per_W: way.resistance_m2K_per_W + part.resistance_m2K_per_W,
        })),
      ),
    [{ share: 1, resistance_m2K_per_W: 0 }],
  );
  const upper = sideBySide_m2K_per_W(
    ways.map(({ share, resistance_m2K_per_W: own }) => ({
      share,
      resistance_m2K_per_W: own + surfaces_m2K_per_W,
    })),
  );
  return { resistance_m2K_per_W: (upper + lower) / 2, upper_m2K_per_W: upper, lower_m2K_per_W: lower };
}
