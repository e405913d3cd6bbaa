import { circle, corners, filled, lettering, line, type Mark, outline, type Point } from '../ink/mark.ts';

/** Fuse on a level conductor, after IEC 60617; 6 mm long. */
export function fuseSymbol([x, y]: Point): Mark[] {
  return [
    outline('CIRCUIT', ...corners({ x0: x + 0.5, y0: y - 0.9, x1: x + 5.5, y1: y + 0.9 })),
    line('CIRCUIT', [x, y], [x + 6, y]),
  ];
}

/** Converter from alternating to direct current, after IEC 60617; 11 mm square, centre left edge at the point. */
export function converterSymbol([x, y]: Point): Mark[] {
  const half = 5.5;
  const wave = Array.from({ length: 13 }, (_, i): Point => {
    const t = i / 12;
    return [x + 1.6 + 3.2 * t, y + 2.9 + 0.9 * Math.sin(2 * Math.PI * t)];
  });
  return [
    outline('CIRCUIT', ...corners({ x0: x, y0: y - half, x1: x + 2 * half, y1: y + half })),
    line('CIRCUIT', [x, y - half], [x + 2 * half, y + half]),
    line('DIMENSIONS', ...wave),
    line('DIMENSIONS', [x + 6.4, y - 2.3], [x + 9.8, y - 2.3]),
    ...[6.4, 7.7, 9].map((dx) => line('DIMENSIONS', [x + dx, y - 3.2], [x + dx + 0.8, y - 3.2])),
  ];
}

/** Lamp at the end of a level conductor, after IEC 60617: a circle with a cross; 4 mm wide. */
export function lampSymbol([x, y]: Point): Mark[] {
  const radius = 1.9;
  const reach = radius * Math.SQRT1_2;
  const cx = x + radius;
  return [
    circle('CIRCUIT', [cx, y], radius),
    line('CIRCUIT', [cx - reach, y - reach], [cx + reach, y + reach]),
    line('CIRCUIT', [cx - reach, y + reach], [cx + reach, y - reach]),
  ];
}

/** So many conductors in a line, after IEC 60617: a stroke and the number. */
export function conductorCount([x, y]: Point, count: number): Mark[] {
  return [
    line('DIMENSIONS', [x - 0.8, y - 1.3], [x + 0.8, y + 1.3]),
    lettering({ layer: 'LETTERING', at: [x + 1, y + 0.6], text: String(count), em: 2.5 }),
  ];
}

/** Circuit-breaker on a level conductor, after IEC 60617 (switch with a cross); 10 mm long. */
export function breakerSymbol([x, y]: Point): Mark[] {
  const cross = 0.9;
  const at = x + 2.5;
  return [
    line('CIRCUIT', [x, y], [at, y]),
    line('CIRCUIT', [at - cross, y + cross], [at + cross, y - cross]),
    line('CIRCUIT', [at - cross, y - cross], [at + cross, y + cross]),
    line('CIRCUIT', [x + 3, y + 2.2], [x + 7.5, y]),
    line('CIRCUIT', [x + 7.5, y], [x + 10, y]),
  ];
}

/** Direct-current converter that can be adjusted, after IEC 60617, for a dimmer; 7 mm square, centre left at the point. */
export function dimmerSymbol([x, y]: Point): Mark[] {
  const half = 3.5;
  const dc = (left: number, up: number): Mark[] => [
    line('DIMENSIONS', [left, up], [left + 2, up]),
    ...[0, 0.8, 1.6].map((dx) => line('DIMENSIONS', [left + dx, up - 0.7], [left + dx + 0.5, up - 0.7])),
  ];
  return [
    outline('CIRCUIT', ...corners({ x0: x, y0: y - half, x1: x + 2 * half, y1: y + half })),
    line('CIRCUIT', [x, y - half], [x + 2 * half, y + half]),
    ...dc(x + 0.7, y + 2.4),
    ...dc(x + 4.1, y - 1.8),
    line('DIMENSIONS', [x - 0.8, y + half + 0.8], [x + 2 * half + 0.8, y - half - 0.8]),
    filled(
      'DIMENSIONS',
      [x + 2 * half + 0.8, y - half - 0.8],
      [x + 2 * half - 0.7, y - half - 0.1],
      [x + 2 * half + 0.1, y - half + 0.7],
    ),
  ];
}

/** Where a conductor branches off one that is not cut. */
export const junction = (at: Point): Mark => circle('CIRCUIT', at, 0.7, true);

/** A line that goes on on another sheet, down or up. */
export function goesOn([x, y]: Point, way: 'down' | 'up'): Mark[] {
  const tip = way === 'down' ? y - 2 : y + 2;
  return [filled('CIRCUIT', [x - 0.8, y], [x + 0.8, y], [x, tip])];
}
