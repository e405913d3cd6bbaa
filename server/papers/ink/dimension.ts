import { textWidth } from './lettering.ts';
import { lettering, line, type Mark, type Point } from './mark.ts';

/** A chain of dimensions along one line. */
export interface DimensionChain {
  readonly axis: 'level' | 'upright';
  /** Where along the axis, in order, in the units of the drawing; at least two. */
  readonly stops: readonly number[];
  /** One text for each span. */
  readonly texts: readonly string[];
  /** Where the dimension line lies across the axis. */
  readonly at: number;
  /** Where the extension lines begin across the axis. */
  readonly from: number;
  /** Where they begin instead at a stop where something stands in their way; none does without it. */
  readonly past?: (stop: number) => number | null;
  /** Millimetres of the piece to one of the paper. */
  readonly perPaper: number;
}

/** Em of dimension figures, mm of the paper; capitals 1.8 mm. */
export const dimension_em = 2.5;

function spanText(
  chain: DimensionChain,
  index: number,
): { along: number; align: 'left' | 'middle' | 'right' } {
  const [a, b] = [chain.stops[index]!, chain.stops[index + 1]!];
  const width = textWidth(chain.texts[index]!, dimension_em * chain.perPaper);
  if (width <= (b - a) * 0.95) return { along: (a + b) / 2, align: 'middle' };
  const gap = 1.2 * chain.perPaper;
  const isLast = index > 0 && index === chain.texts.length - 1;
  return isLast ? { along: b + gap, align: 'left' } : { along: a - gap, align: 'right' };
}

/**
 * Dimension lines with oblique strokes, extension lines and figures above the line, read from below or from the
 * right (ISO 129-1). A figure too wide for its span stands beside the chain.
 */
export function dimensions(chain: DimensionChain): Mark[] {
  const { axis, stops, texts, at, from, perPaper } = chain;
  const point = (along: number, across: number): Point =>
    axis === 'level' ? [along, across] : [across, along];
  const sign = Math.sign(at - from) || 1;
  const stroke = 0.9 * perPaper;
  const extensions = stops.map((stop) =>
    line(
      'DIMENSIONS',
      point(stop, (chain.past?.(stop) ?? from) + sign * perPaper),
      point(stop, at + sign * 1.2 * perPaper),
    ),
  );
  const strokes = stops.map((stop) =>
    axis === 'level'
      ? line('FEED_POINTS', [stop - stroke, at - stroke], [stop + stroke, at + stroke])
      : line('FEED_POINTS', [at - stroke, stop - stroke], [at + stroke, stop + stroke]),
  );
  const figures = texts.map((text, i) => {
    const { along, align } = spanText(chain, i);
    const above = 0.7 * perPaper;
    return lettering({
      layer: 'DIMENSIONS',
      at: axis === 'level' ? [along, at + above] : [at - above, along],
      text,
      em: dimension_em * perPaper,
      align,
      angle_deg: axis === 'level' ? 0 : 90,
    });
  });
  return [
    ...extensions,
    line('DIMENSIONS', point(stops[0]!, at), point(stops.at(-1)!, at)),
    ...strokes,
    ...figures,
  ];
}
