import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rowGroups, saidByAll } from '../../src/hand-over/row-groups.ts';
import { rowsOfGroups } from './expanded.ts';

const column = (label: string) => ({ label, unit: '' });
const schedule = (labels: readonly string[], rows: readonly (readonly string[])[]) => ({
  columns: labels.map(column),
  rows,
});

/** Two links and three feeds as a cable schedule has them. */
const cables = schedule(
  ['Cable', 'From', 'To', 'Feeds', 'Each core', 'Cut'],
  [
    ['L1', 'D1.1', 'B1 in', 'S01-F1, S02-F1', 'red: D1.1 plus to B1 in plus', '240'],
    ['C01', 'B1 way 1', 'S01-F1, start of S01', 'S01-F1', 'red: B1 way 1 plus to S01-F1 plus', '900'],
    ['C02', 'B1 way 2', 'S02-F1, start of S02', 'S02-F1', 'red: B1 way 2 plus to S02-F1 plus', '950'],
    ['C03', 'B1 way 3', 'S03-F1, start of S03', 'S03-F1', 'red: B1 way 3 plus to S03-F1 plus', '990'],
    ['L2', 'D2.1', 'B2 in', 'S03-F1, S04-F1', 'red: D2.1 plus to B2 in plus', '310'],
  ],
);

describe('groups of like rows', () => {
  it('say once what rows share, and leave to each what is its own', () => {
    const rows = Array.from({ length: 30 }, (_, i) => {
      const number = String(i + 1).padStart(2, '0');
      return [`C${number}`, `S${number}-F1`, `S${number}-F1, start of S${number}`, 'black', String(900 + i)];
    });
    const groups = rowGroups(schedule(['Cable', 'Feeds', 'To', 'Colour', 'Cut'], rows));
    expect(groups).toHaveLength(1);
    const [group] = groups;
    expect(group!.own).toEqual([0, 1, 4]);
    expect(group!.cells[4]).toEqual(['C05', 'S05-F1', '904']);
    // "S05-F1, start of S05" is the feed point, then what stands before its last hyphen.
    expect(group!.made).toEqual([
      {
        column: 2,
        pieces: [{ column: 1, upTo: '' }, ', start of ', { column: 1, upTo: '-' }],
      },
      { column: 3, pieces: ['black'] },
    ]);
  });

  it('lift names out of a text that is alike but for them', () => {
    const rows = Array.from({ length: 12 }, (_, i) => [
      `D${i + 1}`,
      `cables C${2 * i + 1} to C${2 * i + 2}, in the plus`,
    ]);
    const [group] = rowGroups(schedule(['Ref', 'Protects'], rows));
    expect(group!.made).toEqual([
      {
        column: 1,
        pieces: ['cables ', { column: 2, upTo: '' }, ' to ', { column: 3, upTo: '' }, ', in the plus'],
      },
    ]);
    expect(group!.cells[2]).toEqual(['D3', 'C5', 'C6']);
    expect(rowsOfGroups([group!], 2)).toEqual(rows);
  });

  it('keep a name that only begins like another apart: S1 does not stand in S12', () => {
    const rows = [
      ['S1', 'S12 and S1.'],
      ['S2', 'S22 and S2.'],
      ['S3', 'S32 and S3.'],
    ];
    const groups = rowGroups(schedule(['Slot', 'Text'], rows));
    expect(rowsOfGroups(groups, 2)).toEqual(rows);
    expect(groups[0]!.made[0]!.pieces).toEqual([
      { column: 2, upTo: '' },
      ' and ',
      { column: 0, upTo: '' },
      '.',
    ]);
  });

  it('keep a name that only ends like another apart: S1 does not stand in XS1', () => {
    const rows = [1, 2, 3].map((i) => [`S${i}`, `XS${i}, S${i}.`]);
    const [group] = rowGroups(schedule(['Slot', 'Text'], rows));
    expect(group!.made[0]!.pieces).toEqual([{ column: 2, upTo: '' }, ', ', { column: 0, upTo: '' }, '.']);
  });

  it('part rows of two kinds where that leaves less to print', () => {
    const kinds = Array.from({ length: 20 }, (_, i) => [
      `F${i + 1}`,
      i % 2 === 0
        ? 'held by the limit of the driver, whatever the cable may carry'
        : 'behind a fuse on its way of the block, in the plus',
      String(i),
    ]);
    const groups = rowGroups(schedule(['Ref', 'Device', 'Amps'], kinds));
    expect(groups.map(({ rows }) => rows[0])).toEqual([0, 1]);
    expect(groups.map(({ rows }) => rows.length)).toEqual([10, 10]);
    expect(groups.map(({ own }) => own)).toEqual([
      [0, 2],
      [0, 2],
    ]);
  });

  it('give every row back in its place', () => {
    expect(rowsOfGroups(rowGroups(cables), 6)).toEqual(cables.rows);
  });

  it('say before all groups what all of them share', () => {
    const groups = rowGroups(
      schedule(
        ['Ref', 'Volts', 'Device'],
        Array.from({ length: 20 }, (_, i) => [
          `F${i + 1}`,
          '24.0',
          `${i % 2 === 0 ? 'a long description of the one kind of device' : 'and a description as long of the other kind'} as it is ordered`,
        ]),
      ),
    );
    expect(groups).toHaveLength(2);
    expect(saidByAll(groups)).toEqual([{ column: 1, pieces: ['24.0'] }]);
  });

  it('lose no cell of any schedule, whatever stands in it', () => {
    const name = fc.oneof(
      fc.constantFrom(
        'S01',
        'S01-F1',
        'S1',
        'S12',
        'D1.1',
        'B1.1 way 2',
        'B1.1 way 12',
        'K1.1 out',
        'D1.1-T3',
        'R2',
      ),
      fc.string({ maxLength: 6 }),
    );
    const text = fc.array(
      fc.oneof(name, fc.constantFrom(' to ', ', ', '. ', '; ', '-', '.', ' in', '‹', '')),
      {
        maxLength: 8,
      },
    );
    const cell = fc.oneof(
      name,
      text.map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 1, max: 12 }),
        fc.infiniteStream(cell),
        (wide, high, cells) => {
          const rows = Array.from({ length: high }, () =>
            Array.from({ length: wide }, () => cells.next().value as string),
          );
          const groups = rowGroups(
            schedule(
              rows[0]!.map((_, i) => `column ${i}`),
              rows,
            ),
          );
          expect(rowsOfGroups(groups, wide)).toEqual(rows);
          expect(groups.flatMap((group) => group.rows).toSorted((a, b) => a - b)).toEqual(
            rows.map((_, i) => i),
          );
        },
      ),
      { seed: 16, numRuns: 2000 },
    );
  });
});
