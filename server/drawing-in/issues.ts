import type { Issue } from '../../src/outcome.ts';

/** Why a drawing or a table cannot be read. */
export type DrawingIssue = Issue & {
  readonly code:
    | 'not-a-dxf'
    | 'binary-dxf'
    | 'cut-short'
    | 'broken-file'
    | 'units-missing'
    | 'units-unknown'
    | 'no-such-layer'
    | 'nothing-on-layer'
    | 'too-many-slots'
    | 'outside-range'
    | 'table-row';
};

/** A refusal without a place in the piece: files have none. */
export function drawingIssue(
  code: DrawingIssue['code'],
  sentence: string,
  quantities: Readonly<Record<string, number>> = {},
): DrawingIssue {
  return { code, place: {}, quantities, sentence };
}
