import type { DimensionChain } from './dimension-chain.ts';
import { textWidth } from './lettering.ts';
import { type Lettering, lettering, line, type Mark, type Point } from './mark.ts';

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

const pointOf = ({ axis }: DimensionChain, along: number, across: number): Point =>
  axis === 'level' ? [along, across] : [across, along];

/** The extension line and the oblique stroke at a stop. */
function stopMarks(chain: DimensionChain, stop: number): Mark[] {
  const { at, from, perPaper } = chain;
  const point = (along: number, across: number): Point => pointOf(chain, along, across);
  const sign = Math.sign(at - from) || 1;
  const stroke = 0.9 * perPaper;
  return [
    line(
      'DIMENSIONS',
      point(stop, (chain.past?.(stop) ?? from) + sign * perPaper),
      point(stop, at + sign * 1.2 * perPaper),
    ),
    chain.axis === 'level'
      ? line('DIMENSION_STROKES', [stop - stroke, at - stroke], [stop + stroke, at + stroke])
      : line('DIMENSION_STROKES', [at - stroke, stop - stroke], [at + stroke, stop + stroke]),
  ];
}

function figureMark(chain: DimensionChain, index: number): Lettering {
  const { along, align } = spanText(chain, index);
  const above = 0.7 * chain.perPaper;
  return lettering({
    layer: 'DIMENSIONS',
    at: chain.axis === 'level' ? [along, chain.at + above] : [chain.at - above, along],
    text: chain.texts[index]!,
    em: dimension_em * chain.perPaper,
    align,
    angle_deg: chain.axis === 'level' ? 0 : 90,
  });
}

/** One dimension of a chain as a drawing file has it: what it measures from and to, where its line lies, its lines and figure. */
export interface Span {
  readonly ends: readonly [Point, Point];
  readonly lineAt: Point;
  readonly text: string;
  readonly textAt: Point;
  readonly length: number;
  readonly marks: readonly Mark[];
}

/** The spans of a chain, each whole by itself. */
export function spansOf(chain: DimensionChain): Span[] {
  return chain.texts.map((text, i): Span => {
    const [a, b] = [chain.stops[i]!, chain.stops[i + 1]!];
    const figure = figureMark(chain, i);
    const [start, end] = [pointOf(chain, a, chain.at), pointOf(chain, b, chain.at)];
    return {
      ends: [pointOf(chain, a, chain.from), pointOf(chain, b, chain.from)],
      lineAt: end,
      text,
      textAt: figure.at,
      length: b - a,
      marks: [
        ...stopMarks(chain, a),
        ...stopMarks(chain, b),
        line('DIMENSIONS', start, end),
        ...(text === '' ? [] : [figure]),
      ],
    };
  });
}

/**
 * Dimension lines with oblique strokes, extension lines and figures above the line, read from below or from the
 * right (ISO 129-1). A figure too wide for its span stands beside the chain.
 */
export function dimensions(chain: DimensionChain): Mark[] {
  const { stops, texts, at } = chain;
  return [
    ...stops.flatMap((stop) => stopMarks(chain, stop)),
    line('DIMENSIONS', pointOf(chain, stops[0]!, at), pointOf(chain, stops.at(-1)!, at)),
    ...texts.flatMap((text, i) => (text === '' ? [] : [figureMark(chain, i)])),
  ].map((mark) => ({ ...mark, measures: chain }));
}
