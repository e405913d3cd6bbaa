import { found, type Outcome, refused } from '../../src/outcome.ts';
import { type DrawingIssue, drawingIssue } from './issues.ts';

/** An entity as it stands in the file, whether or not anything can be made of it. */
export interface EntityListed {
  readonly type: string;
  readonly layer: string;
}

/** Parts of a polyline and the like, which are no entities of their own. */
const parts = new Set(['VERTEX', 'SEQEND', 'ENDSEC']);

const notText = (text: string): DrawingIssue | undefined => {
  if (text.startsWith('AutoCAD Binary DXF') || text.includes('\u0000'))
    return drawingIssue(
      'binary-dxf',
      'This is a binary DXF: save the drawing as text (ASCII) DXF and try again.',
    );
  if (/^AC10\d\d/.test(text))
    return drawingIssue('not-a-dxf', 'This is a DWG file: save the drawing as DXF and try again.');
  return undefined;
};

/** Code and value lines in turn, up to the end of the file that the file itself announces. */
function pairsOf(text: string): Outcome<(readonly [number, string])[], DrawingIssue> {
  const lines = text.split(/\r\n|\r|\n/);
  const pairs: (readonly [number, string])[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = lines[i]!.trim();
    if (!/^-?\d{1,4}$/.test(code)) {
      const sentence =
        pairs.length < 2
          ? 'This is not a DXF file: choose the drawing again, saved as text (ASCII) DXF.'
          : `Line ${i + 1} should hold a group code and holds "${code.slice(0, 30)}": the file is damaged; save the drawing again.`;
      const kind = pairs.length < 2 ? 'not-a-dxf' : 'broken-file';
      return refused(drawingIssue(kind, sentence, { line: i + 1 }));
    }
    const value = lines[i + 1]!.trim();
    pairs.push([Number(code), value]);
    if (code === '0' && value === 'EOF') return found(pairs);
  }
  const sentence =
    'The file ends before its end mark (EOF): it was cut short on its way. Copy or save the drawing again.';
  return refused(drawingIssue('cut-short', sentence, { lineCount: lines.length }));
}

/** A vertex belongs to the polyline it follows; anywhere else something before it is missing. */
function hasStrayVertex(types: readonly string[]): boolean {
  let inPolyline = false;
  return types.some((type) => {
    if (type === 'VERTEX') return !inPolyline;
    inPolyline = type === 'POLYLINE';
    return false;
  });
}

/**
 * Every entity of the model with its layer, in order. The reader of geometry never complains, so this is where a
 * file that is cut, damaged, binary or no DXF at all is refused.
 */
export function entitiesListed(text: string): Outcome<EntityListed[], DrawingIssue> {
  const unfit = notText(text);
  if (unfit) return refused(unfit);
  const pairs = pairsOf(text);
  if (!pairs.ok) return pairs;
  const start = pairs.value.findIndex(([code, value]) => code === 2 && value === 'ENTITIES');
  const end = pairs.value.findIndex(([code, value], i) => i > start && code === 0 && value === 'ENDSEC');
  if (start < 0 || end < 0) {
    const sentence =
      'The file has no complete section of entities: nothing is drawn in it, or it is damaged.';
    return refused(drawingIssue('broken-file', sentence));
  }
  const entities: { type: string; layer: string }[] = [];
  for (const [code, value] of pairs.value.slice(start + 1, end)) {
    if (code === 0) entities.push({ type: value, layer: '0' });
    const last = entities.at(-1);
    if (code === 8 && last) last.layer = value;
  }
  if (hasStrayVertex(entities.map(({ type }) => type))) {
    const sentence = 'A polyline has lost its beginning: the file is damaged; save the drawing again.';
    return refused(drawingIssue('broken-file', sentence));
  }
  return found(entities.filter(({ type }) => !parts.has(type)));
}
