import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bringIn } from '../../server/own-products/import.ts';
import { decimalMark, readCell, shifted } from '../../server/own-products/numbers.ts';
import { tableOf, template } from '../../server/own-products/table.ts';
import { entriesOf } from '../../src/job/catalogues.ts';
import { type OwnProduct, ownProduct, type ProductKind, productKinds } from '../../src/job/own-product.ts';
import { profileCoverCatalogue } from '../../src/job/profile-catalogue.ts';
import { readCsv } from './csv-reader.ts';

const about = { currency: 'EUR', stock: 3, source: 'sheet of the maker', dated: '2026-03-31' };

/** Every typical entry as a product of one's own. */
function typicalProducts(kind: ProductKind): OwnProduct[] {
  const entries =
    kind === 'cover'
      ? profileCoverCatalogue.map((cover) => ({ ...cover, look: cover.id }))
      : entriesOf({ products: [] }, kind);
  return entries.map(({ id: _, ...data }, i) =>
    ownProduct.parse({ kind, id: `own-${kind}-${i + 1}`, ...about, data }),
  );
}

const everything = productKinds.flatMap(typicalProducts);

const strip = typicalProducts('strip')[0]! as Extract<OwnProduct, { kind: 'strip' }>;

const cable = (k: number): OwnProduct =>
  ownProduct.parse({
    ...{ ...about, kind: 'cable', id: `own-cable-${k}` },
    data: {
      name: `Cable ${k}`,
      area_mm2: 0.5 + k / 100,
      conductor_ohm_per_km: 39 - k / 20,
      limit_degC: 70,
      outer_mm: 7.2,
      coreCounts: [2, 3],
      price_cents_per_m: 98.5 + k,
      pricesByCores: [{ cores: 3, price_cents_per_m: 140.25 }],
    },
  });

const records = (csv: string): string[][] => readCsv(csv.slice(1));
const csv = (rows: readonly (readonly string[])[], mark = ','): string =>
  rows
    .map((row) =>
      row.map((cell) => (/[",;\t\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(mark),
    )
    .join('\r\n');

const take = (before: readonly OwnProduct[], text: string, kind: ProductKind, mayReplace = false) =>
  bringIn(before, text, { kind, mayReplace });

describe('numbers of a table', () => {
  it.each([
    // Plain, with either mark, with spaces and apostrophes between thousands, and any minus.
    ['24.90', null, '24.90'],
    ['24,90', null, '24.90'],
    ['1,234.5', null, '1234.5'],
    ['1.234,5', null, '1234.5'],
    ['1 234,5', null, '1234.5'],
    ["1'234.5", null, '1234.5'],
    ['1,234,567', null, '1234567'],
    ['−5', null, '-5'],
    ['0.985', null, '0.985'],
    // What the table says its mark is decides what may be either.
    ['1.200', ',', '1200'],
    ['1.200', '.', '1.200'],
    ['1,200', ',', '1.200'],
    ['1,200', '.', '1200'],
  ] as const)('%s with %s is %s', (cell, mark, plain) => {
    expect(readCell(cell, mark)).toEqual({ plain });
  });

  it('are not guessed', () => {
    expect(readCell('1.200', null)).toEqual({ why: 'unclear' });
    expect(readCell('1,200', null)).toEqual({ why: 'unclear' });
    for (const cell of ['', 'x', '1.2.3', '1-2', '12 V', '1,2,3', '--1', '1e5', 'Infinity'])
      expect(readCell(cell, null), cell).toEqual({ why: 'none' });
  });

  it('say together what their decimal mark is', () => {
    expect(decimalMark(['1.200', '24.90', '7'])).toBe('.');
    expect(decimalMark(['1.200', '24,90', '7'])).toBe(',');
    expect(decimalMark(['1.200', '7'])).toBeNull();
    expect(decimalMark(['24,90', '24.90'])).toBeNull();
    expect(decimalMark(['1.234,5'])).toBe(',');
    expect(decimalMark(['1,234.5'])).toBe('.');
  });

  it('are shifted digit by digit', () => {
    // 0.07 is 7 %, which 0.07 * 100 misses in the last bit; 0.985 of a currency is 98.5 cents.
    expect(shifted('0.07', 2)).toBe('7');
    expect(shifted('98.5', -2)).toBe('0.985');
    expect(shifted('5', -2)).toBe('0.05');
    expect(shifted('-12.5', 2)).toBe('-1250');
    expect(shifted('0', 2)).toBe('0');
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1e5, noNaN: true }), (x) => {
        fc.pre(!String(x).includes('e'));
        expect(Number(shifted(shifted(String(x), 2), -2))).toBe(x);
      }),
      { seed: 20260331 },
    );
  });
});

describe('a table of own products', () => {
  it.each(productKinds)(
    'of %s has a heading for everything, and what it writes it reads as the same',
    (kind) => {
      const own = typicalProducts(kind);
      const table = tableOf(everything, kind);
      expect(records(table)[0]).toEqual(records(template(kind))[0]);
      expect(records(table)).toHaveLength(own.length + 1);
      const elsewhere = take([], table, kind);
      expect(elsewhere.value).toMatchObject({ same: 0, problems: [], notTaken: null });
      expect(elsewhere.products).toEqual(own);
      const here = take(everything, table, kind);
      expect(here.value).toMatchObject({
        added: [],
        replaced: [],
        same: own.length,
        problems: [],
        notTaken: null,
      });
      expect(here.products).toBe(everything);
    },
  );

  it('keeps names that a spreadsheet would run as formulas, whatever stands before them', () => {
    const names = ['=1+1', "'=1+1", "''-x", '@here', '+1', '-5', "'quoted'", 'a;b,"c"', '\u200b5', '12.5'];
    const own = names.map(
      (name, i): OwnProduct => ({ ...strip, id: `own-s-${i}`, data: { ...strip.data, name } }),
    );
    const table = tableOf(own, 'strip');
    for (const [, name] of records(table).slice(1)) expect(name).not.toMatch(/^[=+@\t\r\n]/);
    expect(take([], table, 'strip').products).toEqual(own);
  });

  it('of 500 is brought in with one bad row named and given back, and nothing lost', () => {
    const own = Array.from({ length: 500 }, (_, k) => cable(k + 1));
    const rows = records(tableOf(own, 'cable'));
    // Row 251 is the 250th product: its area becomes a word.
    const areaAt = rows[0]!.indexOf('Conductor area (mm²)');
    const bad = rows.with(250, rows[250]!.with(areaAt, 'thick'));
    const { products, value } = take([], csv(bad), 'cable');
    expect(value.problems).toEqual([
      { row: 251, column: 'Conductor area (mm²)', sentence: '“thick” is not a number in mm².' },
    ]);
    expect(value.added).toHaveLength(499);
    expect(products).toEqual(own.filter(({ id }) => id !== 'own-cable-250'));
    const left = records(value.notTaken!);
    expect(left).toHaveLength(2);
    expect(left[1]!.slice(0, -1)).toEqual(bad[250]);
    // Mended in what was given back, the row goes in, and all 500 are there.
    const mended = take(products, csv([left[0]!, left[1]!.with(areaAt, rows[250]![areaAt]!)]), 'cable');
    expect(mended.value).toMatchObject({ added: ['Cable 250'], problems: [], notTaken: null });
    const byId = (a: OwnProduct, b: OwnProduct): number => (a.id < b.id ? -1 : 1);
    expect([...mended.products].sort(byId)).toEqual([...own].sort(byId));
  });

  it('is read with semicolons and decimal commas, tabs, columns in any order, and units in other spelling', () => {
    const rows = [
      ['Price of a metre', 'cable name', 'Numbers of cores it is sold with', 'Conductor area (mm2)'],
      ['0,985', 'A', '2,3 5', '1,5'],
    ];
    const more = [
      [
        'Conductor resistance at 20 °C (ohm/km)',
        'Highest conductor temperature',
        'Outside diameter with two cores (MM)',
        'Prices of a metre by number of cores',
      ],
      ['13,3', '70 °C', '8,6 mm', '3: 1,40; 5 = 2,10 €'],
    ];
    const whole = rows.map((row, i) => [...row, ...more[i]!]);
    for (const mark of [';', '\t']) {
      const { products, value } = take([], csv(whole, mark), 'cable');
      expect(value.problems).toEqual([]);
      expect(products[0]).toEqual({
        ...{ kind: 'cable', id: 'own-a', currency: '', stock: null, source: '', dated: '' },
        data: {
          ...{ name: 'A', area_mm2: 1.5, conductor_ohm_per_km: 13.3, limit_degC: 70, outer_mm: 8.6 },
          ...{ coreCounts: [2, 3, 5], price_cents_per_m: 98.5 },
          pricesByCores: [
            { cores: 3, price_cents_per_m: 140 },
            { cores: 5, price_cents_per_m: 210 },
          ],
        },
      });
    }
  });

  it('takes what is empty from the entry of the catalogue a row names, and nothing where it names none', () => {
    const headings = ['Strip name', 'Typical values from', 'Channel 1: Strip power (W/m)', 'Price of a reel'];
    const { products, value } = take(
      [],
      csv([headings, ['Mine', '24 V 9.6 W/m, 120 LEDs/m', '9.1', '24.90'], ['Bare', '', '9.1', '']]),
      'strip',
    );
    const typical = entriesOf({ products: [] }, 'strip').find(
      ({ name }) => name === '24 V 9.6 W/m, 120 LEDs/m',
    )!;
    const { id: _, ...data } = typical;
    expect(products.map(({ data }) => data)).toEqual([
      {
        ...data,
        ...{ name: 'Mine', price_cents: 2490 },
        channels: [{ ...typical.channels[0], watts_per_m: 9.1 }],
      },
    ]);
    expect(value.problems).toHaveLength(1);
    expect(value.problems[0]).toMatchObject({ row: 3, column: null });
    expect(value.problems[0]!.sentence).toMatch(
      /^Strip voltage, .+ more are empty: fill them in, or name under/,
    );
  });

  it.each([
    [
      'a price beyond all prices',
      'Price of a driver',
      '1000000',
      'Price of a driver is an amount such as 24.90, up to 100000.',
    ],
    [
      'a part of a cent',
      'Price of a driver',
      '24.905',
      'Price of a driver is an amount such as 24.90, up to 100000.',
    ],
    [
      'a ratio beyond its bounds',
      'Efficiency at full load (%)',
      '120',
      'Efficiency at full load must lie between 50 and 99 %.',
    ],
    [
      'a length beyond its bounds',
      'Case length (mm)',
      '5',
      'Case length must lie between 20 mm and 800 mm: cases are 50 to 500 mm long.',
    ],
    [
      'a word that is no choice',
      'How it dims itself',
      'magic',
      'How it dims itself is one of: none, mains phase, 1-10 V, DALI, switch; not “magic”.',
    ],
    ['neither yes nor no', 'All outputs are dimmed together', 'maybe', '“maybe” is neither yes nor no.'],
    ['a voltage nobody makes', 'Driver voltage (V)', '23', 'Driver voltage is one of: 12, 24, 48; not “23”.'],
    [
      'an id of another make',
      'Id',
      'x y',
      '“x y” is no id that this program gave: leave the cell empty for a new product.',
    ],
    [
      'no name',
      'Driver name',
      '',
      'Driver name is empty: fill it in, or name under “Typical values from” an entry of the catalogue whose values hold for what is empty.',
    ],
    [
      'a date in words',
      'Date of its data',
      'spring',
      'Date of its data must be written year-month-day, such as 2026-03-31, or left empty.',
    ],
  ])('says by row and column what is wrong: %s', (_, column, cell, sentence) => {
    const rows = records(tableOf(everything, 'driver')).slice(0, 2);
    const at = rows[0]!.indexOf(column);
    const { value } = take([], csv([rows[0]!, rows[1]!.with(at, cell)]), 'driver');
    expect(value.problems).toEqual([{ row: 2, column, sentence }]);
  });

  it('is refused as a whole where its headings are of no use, with what is wrong with each', () => {
    const problems = (text: string) => take(everything, text, 'cable').value.problems;
    expect(problems('')[0]!.sentence).toMatch(/^The table is empty/);
    expect(problems('Cable name,Colour')[0]).toEqual({
      ...{
        row: 1,
        column: 'Colour',
        sentence: 'No column is called “Colour”: take the headings of the template.',
      },
    });
    expect(problems('Cable name,Conductor area (cm²)')[0]!.sentence).toBe(
      '“Conductor area” is in mm², and the heading says “cm²”: turn the figures into mm².',
    );
    expect(problems('Cable name,Cable name')[0]!.sentence).toMatch(/stands there twice/);
    expect(problems('Cable name\r\n"A')[0]).toMatchObject({ column: null });
    expect(problems(`Cable name\r\n${'A\r\n'.repeat(5001)}`)[0]!.sentence).toMatch(/at most 5000/);
  });

  it('does not replace what is here unless it is told to, and then only that', () => {
    const [before] = [[cable(1), cable(2)]];
    const rows = records(tableOf(before, 'cable'));
    const priceAt = rows[0]!.indexOf('Price of a metre');
    const idless = [rows[0]!, rows[1]!.with(priceAt, '2.00').with(0, '')];
    const kept = take(before, csv(idless), 'cable');
    expect(kept.products).toBe(before);
    expect(kept.value).toMatchObject({ added: [], replaced: [], problemCount: 1 });
    expect(kept.value.problems[0]!.sentence).toMatch(
      /^“Cable 1” is here already with other values, and stays/,
    );
    expect(records(kept.value.notTaken!)[1]!.slice(0, -1)).toEqual(idless[1]);
    const replaced = take(before, csv(idless), 'cable', true);
    expect(replaced.value).toMatchObject({ added: [], replaced: ['Cable 1'], problems: [] });
    expect(replaced.products[0]).toMatchObject({ id: 'own-cable-1', data: { price_cents_per_m: 200 } });
    expect(replaced.products[1]).toBe(before[1]);
  });

  it('reads whatever it is given without breaking', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 400 }), fc.constantFrom(...productKinds), (text, kind) => {
        const { value } = take([], `${text}\r\n${text}`, kind);
        expect(value.added).toEqual([]);
      }),
      { seed: 20260331, numRuns: 300 },
    );
  });
});
