const table: Record<string, number> = { 0.5: 8, 0.75: 12, 1: 15, 1.5: 16.5, 2.5: 23, 4: 30 };
export function protect(area: number, degC: number, grouped: number, A: number) {
  const base = table[area] ?? 12 * area ** 0.7;
  const capacity_A = base * Math.sqrt(Math.max(0, (70 - degC) / 40)) * (grouped > 1 ? 0.65 : 1);
  const fuse_A = [1, 2, 3, 4, 5, 7.5, 10, 15, 20].find((x) => x >= 1.25 * A && x <= capacity_A) ?? null;
  return { capacity_A, fuse_A };
}
export function pocketAir(
  room: number,
  place: { width_mm: number; height_mm: number; depth_mm: number },
  loss: number,
) {
  const area =
    (2 *
      (place.width_mm * place.height_mm +
        place.height_mm * place.depth_mm +
        place.width_mm * place.depth_mm)) /
    1e6;
  return room + loss / (3 * area);
}
export const heatLimits = { timber_degC: 60, glue_degC: 50, touchedWood_degC: 60 };
