import { describe, expect, it } from 'vitest';
import { cableLabels } from '../../server/papers/cable-labels.ts';
import { labelsPdf } from '../../server/papers/pack.ts';
import { paperOf } from '../../server/papers/papers.ts';
import { rowsOf } from '../hand-over/rows.ts';
import { demos, laidOut, unusual } from './jobs.ts';
import { pdfTexts } from './pdf-text.ts';

describe.each([...demos, ...unusual, ...laidOut])('the cable labels of $name', ({ job, sizing }) => {
  const input = { job, sizing, format: 'A4', issued: null, revisions: [], before: null } as const;

  it('are two for each cable, each with its own end first', () => {
    const cables = rowsOf(sizing.schedules.find(({ id }) => id === 'cables')!);
    expect(cableLabels(sizing)).toEqual(
      cables.flatMap(({ cable, from, to, type }) => [
        { cable, here: from, there: to, type },
        { cable, here: to, there: from, type },
      ]),
    );
  });

  it('are the same on paper and as CSV', async () => {
    const labels = cableLabels(sizing);
    const texts = pdfTexts(await labelsPdf(input, false)).flat();
    expect(texts.filter((text) => labels.some(({ cable }) => cable === text))).toHaveLength(labels.length);
    const ends = labels.map(({ here }) => `at ${here}`);
    for (const text of texts.filter((each) => each.startsWith('at ')))
      expect(
        ends.some((end) => end === text || (text.endsWith('…') && end.startsWith(text.slice(0, -1)))),
        text,
      ).toBe(true);
    const lines = String(await paperOf('labels.csv', input))
      .trim()
      .split('\r\n');
    expect(lines).toHaveLength(labels.length + 1);
    expect(lines[1]).toBe(
      `"${labels[0]!.cable}","${labels[0]!.here}","${labels[0]!.there}","${labels[0]!.type}"`,
    );
  });
});
