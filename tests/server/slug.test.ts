import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keptId } from '../../server/contract/kept-jobs.ts';
import { binnedName } from '../../server/store/bin.ts';
import { slugOf } from '../../server/store/slug.ts';

const seed = 20260331;

describe('slugs', () => {
  it.each([
    ['Reading room, north wall', 'reading-room-north-wall'],
    ['Küche Müßig', 'kuche-mussig'],
    ['Łódź – Øresund', 'lodz-oresund'],
    ['../../etc/passwd', 'etc-passwd'],
    ['..\\..\\windows', 'windows'],
    ['\u0000', 'job'],
    ['書斎', 'job'],
    ['  ', 'job'],
    ['CON', 'con-1'],
    ['lpt1', 'lpt1-1'],
    ['Ⅳ № ﬁ', 'iv-no-fi'],
  ])('%j becomes %s', (name, slug) => {
    expect(slugOf(name, 'job')).toBe(slug);
  });

  it('are ids whatever the name, also with a number behind and in the bin', () => {
    const name = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({ unit: 'grapheme', maxLength: 200 }),
      fc.string(),
    );
    fc.assert(
      fc.property(
        name,
        fc.date({ min: new Date(0), max: new Date('9999-01-01'), noInvalidDate: true }),
        (text, date) => {
          const slug = slugOf(text, 'job');
          expect(keptId.safeParse(slug).success).toBe(true);
          expect(keptId.safeParse(`${slug}-99999`).success).toBe(true);
          expect(keptId.safeParse(binnedName(`${slug}-99999`, date)).success).toBe(true);
        },
      ),
      { seed, numRuns: 2000 },
    );
  });

  it('are their own slugs', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 80 }), (text) => {
        const slug = slugOf(text, 'job');
        expect(slugOf(slug, 'job')).toBe(slug);
      }),
      { seed, numRuns: 2000 },
    );
  });

  it.each([
    '..',
    '.',
    '',
    'a/b',
    'a\\b',
    '.bin',
    'a.json',
    'A',
    'a--b',
    '-a',
    'a-',
    'a b',
    'é',
    'a\n',
    'a\0',
  ])('and %j is no id', (id) => {
    expect(keptId.safeParse(id).success).toBe(false);
  });
});
