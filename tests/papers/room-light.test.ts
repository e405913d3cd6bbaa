import { describe, expect, it } from 'vitest';
import { packPdf } from '../../server/papers/pack.ts';
import { rough } from '../../server/papers/shown.ts';
import { demos } from './jobs.ts';
import { pdfTexts } from './pdf-text.ts';

const asked = demos.filter(({ sizing }) => (sizing.roomLight?.points.length ?? 0) > 0);

/** The words of a pack, whatever lines they are broken into. */
const wordsOf = (pages: readonly string[][]): string => pages.flat().join(' ').replaceAll(/\s+/g, ' ');

describe('the light in the room on paper', () => {
  it('is asked for by a demo job', () => {
    expect(asked.length).toBeGreaterThan(0);
  });

  it.each(asked)('stands with every place and every doubt: $name', async ({ job, sizing }) => {
    const doubt =
      'An added doubt about the lux that is long enough to be broken into several lines of the cover.';
    const { roomLight } = sizing;
    const doubts = [...roomLight!.doubts, doubt];
    const input = { format: 'A4', issued: null, revisions: [], before: null } as const;
    const doubted = { ...sizing, roomLight: { ...roomLight!, doubts } };
    const words = wordsOf(pdfTexts(await packPdf({ ...input, job, sizing: doubted }, false)));
    for (const each of doubts) expect(words).toContain(each);
    for (const { working } of roomLight!.points)
      expect(words).toContain(`${rough(working.maintained_lx)} lx maintained`);
  });
});
