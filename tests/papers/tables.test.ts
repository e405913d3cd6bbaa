import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../server/papers/ink/mark.ts';
import { bodyOf } from '../../server/papers/sheets/sheet.ts';
import type { Table } from '../../server/papers/sheets/table.ts';
import { tableDrafts } from '../../server/papers/sheets/table-flow.ts';

const column = (label: string, write_mm = 0) =>
  ({ label, unit: '', align: 'left', write_mm, group: '' }) as const;

/** A table whose rows are told by their first cell. */
function tableOf(name: string, rowCount: number, isByHand: boolean): Table {
  const filler = 'words of a row that take a good part of a line of the sheet '.repeat(2);
  return {
    title: `table ${name}`,
    columns: [column('Ref'), column('What'), column('Box', isByHand ? 20 : 0)],
    rows: Array.from({ length: rowCount }, (_, i) => [`${name}${i}`, filler, '']),
    marked: new Set(),
  };
}

const rowsOf = (marks: readonly Mark[], name: string): string[] =>
  marks.flatMap((mark) =>
    mark.kind === 'text' && new RegExp(`^${name}\\d+$`).test(mark.text) ? [mark.text] : [],
  );

describe.each(['A4', 'A3'] as const)('tables on sheets of %s', (format) => {
  const body = bodyOf(format, 'list');

  it('hold every row once and in order, none below the body, and never one or two rows left over', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 90 }), fc.boolean()), { minLength: 1, maxLength: 4 }),
        (sizes) => {
          const names = ['P', 'Q', 'R', 'S'];
          const tables = sizes.map(([count, byHand], i) => tableOf(names[i]!, count, byHand));
          const drafts = tableDrafts(tables, format);
          for (const [i, [count]] of sizes.entries()) {
            const bySheet = drafts.map(({ marks }) => rowsOf(marks, names[i]!));
            expect(bySheet.flat()).toEqual(tables[i]!.rows.map((row) => row[0]));
            const parts = bySheet.filter((rows) => rows.length > 0);
            if (count >= 6) for (const rows of parts) expect(rows.length).toBeGreaterThanOrEqual(3);
          }
          for (const { marks } of drafts) {
            const lowest = Math.min(...marks.flatMap((mark) => (mark.kind === 'text' ? [mark.at[1]] : [])));
            expect(lowest).toBeGreaterThanOrEqual(body.y0);
          }
        },
      ),
      { seed: 6, numRuns: 60 },
    );
  });

  it('take no more sheets for a table that begins below another than for one that does not', () => {
    for (let count = 1; count <= 90; count += 7) {
      const alone = tableDrafts([tableOf('P', 8, true)], format).length;
      const long = tableDrafts([tableOf('Q', count, true)], format).length;
      const together = tableDrafts([tableOf('P', 8, true), tableOf('Q', count, true)], format).length;
      expect(together).toBeLessThanOrEqual(alone + long);
    }
  });
});
