import { circle, corners, lettering, line, type Mark, outline, type Point } from '../ink/mark.ts';

/** Circuit-breaker on an upright conductor, after IEC 60617 (switch with a cross); joins at 0 and 10 mm below. */
export function breakerSymbol([x, y]: Point): Mark[] {
  const cross = 0.9;
  return [
    line('CIRCUIT', [x, y], [x, y - 2.5]),
    line('CIRCUIT', [x - cross, y - 2.5 + cross], [x + cross, y - 2.5 - cross]),
    line('CIRCUIT', [x - cross, y - 2.5 - cross], [x + cross, y - 2.5 + cross]),
    line('CIRCUIT', [x - 2.2, y - 3], [x, y - 7.5]),
    line('CIRCUIT', [x, y - 7.5], [x, y - 10]),
  ];
}

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
    lettering({ layer: 'LETTERING', at: [x + 1, y + 0.6], text: String(count), em: 2.3 }),
  ];
}
