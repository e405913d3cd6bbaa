/** CIE 1931 chromaticity. */
export interface Chromaticity {
  readonly x: number;
  readonly y: number;
}

/**
 * Chromaticity of a black body, by the cubic fit of Kim and others (`t = 1000/T`).
 *
 * @param temperature_K correlated colour temperature, 1667 to 25 000 K.
 * @throws RangeError outside that range.
 * Source: Kim et al., cubic fit of the Planckian locus (secondary copy).
 * Check: `colour-*` in `reference/light.checks.ts`.
 */
export function planckianChromaticity(temperature_K: number): Chromaticity {
  if (!(temperature_K >= 1667 && temperature_K <= 25_000)) {
    throw new RangeError(`colour temperature must lie between 1667 and 25 000 K, not ${temperature_K}`);
  }
  const t = 1000 / temperature_K;
  const x =
    temperature_K <= 4000
      ? ((-0.2661239 * t - 0.2343589) * t + 0.8776956) * t + 0.17991
      : ((-3.0258469 * t + 2.1070379) * t + 0.2226347) * t + 0.24039;
  if (temperature_K <= 2222)
    return { x, y: ((-1.1063814 * x - 1.3481102) * x + 2.18555832) * x - 0.20219683 };
  if (temperature_K <= 4000)
    return { x, y: ((-0.9549476 * x - 1.37418593) * x + 2.09137015) * x - 0.16748867 };
  return { x, y: ((3.081758 * x - 5.8733867) * x + 3.75112997) * x - 0.37001483 };
}

/** Red, green and blue of a screen as shares of full, before its transfer curve. */
export type LinearRgb = readonly [number, number, number];

/**
 * Linear sRGB of a chromaticity, what the screen cannot show cut off, the largest channel full.
 *
 * Source: IEC 61966-2-1, the matrix from XYZ (secondary copy). Check: `colour-*` in `reference/light.checks.ts`.
 */
export function linearRgb({ x, y }: Chromaticity): LinearRgb {
  const X = x / y;
  const Z = (1 - x - y) / y;
  const red = 3.2406 * X - 1.5372 - 0.4986 * Z;
  const green = -0.9689 * X + 1.8758 + 0.0415 * Z;
  const blue = 0.0557 * X - 0.204 + 1.057 * Z;
  const largest = Math.max(red, green, blue);
  const share = (channel: number): number => Math.max(0, channel) / largest;
  return [share(red), share(green), share(blue)];
}

/** The transfer curve of sRGB: linear share in, encoded share out. */
function encoded(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** `#rrggbb` of linear red, green and blue. */
export function hexColour(rgb: LinearRgb): string {
  const byte = (share: number): string =>
    Math.round(255 * encoded(Math.min(1, Math.max(0, share))))
      .toString(16)
      .padStart(2, '0');
  return `#${rgb.map(byte).join('')}`;
}
