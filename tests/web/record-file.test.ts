import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import { mergedReadings, readRecord, recordText } from '../../web/state/record-file.ts';

const { job } = demoJobs[0]!;
const at = '2026-03-03T10:00:00.000Z';
const loop = { row: 'S01-F1', quantity: 'loop_ohm', value: 'OL', by: 'Ida Blom', at } as const;
const volts = { row: 'S01-F1', quantity: 'noLoad_V', value: 12.1, by: 'Örn', at } as const;
const revision = { jobId: 'seat', id: 'a', revision: 'A', issued: at };
const nothing = { job, revision: null, boxes: {}, texts: undefined, taken: [] };

describe('the file of a job', () => {
  it('is the job alone where nothing was measured', () => {
    expect(JSON.parse(recordText(nothing))).toEqual(job);
    expect(readRecord(recordText(nothing))).toBeUndefined();
    expect(readRecord('{"format":')).toBeUndefined();
  });

  it('holds the readings of its revision, what was typed beside them, and nothing of a box that was emptied', () => {
    const boxes = {
      loop: { ...loop, version: 2 },
      emptied: { ...volts, row: 'S02-F1', value: null, version: 2 },
    };
    const texts = {
      'S01-F1 loop_ohm': 'ol',
      'S01-F1 noLoad_V': '12,1',
      'S02-F1 loaded_V': 'about 9',
      'D1.1 noLoad_V': ' ',
    };
    const read = readRecord(recordText({ ...nothing, revision, boxes, texts, taken: [volts] }));
    expect(read).toMatchObject({
      job,
      revision,
      readings: [loop, volts],
      typed: { 'S02-F1 loaded_V': 'about 9' },
    });
    // What was typed over a reading is kept beside it, and is nobody's of the file any more.
    const over = readRecord(
      recordText({
        ...nothing,
        revision,
        boxes,
        texts: { 'S01-F1 loop_ohm': '0.4', 'S01-F1 noLoad_V': '13' },
        taken: [volts],
      }),
    );
    expect(over).toMatchObject({
      readings: [loop],
      typed: { 'S01-F1 loop_ohm': '0.4', 'S01-F1 noLoad_V': '13' },
    });
  });

  it('says when it comes from a later version, or was changed by hand', () => {
    const text = recordText({ ...nothing, revision, texts: { 'S01-F1 noLoad_V': '12' } });
    expect(readRecord(text.replace('"version": 1', '"version": 2'))).toMatch(/later Slotwatt/);
    expect(readRecord(text.replace('"typed"', '"typing"'))).toMatch(/changed or damaged/);
  });
});

describe('readings of a file', () => {
  it('go into empty boxes, leave the others alone, and say which hold something else', () => {
    const here = { 'S01-F1 noLoad_V': '12.10', 'S02-F1 noLoad_V': '12', 'S03-F1 noLoad_V': '9' };
    const { texts, theirs } = mergedReadings(here, {
      readings: [loop, volts, { ...volts, row: 'S02-F1' }],
      typed: { 'S03-F1 noLoad_V': 'about 9' },
    });
    expect(texts).toEqual({ ...here, 'S01-F1 loop_ohm': 'OL' });
    expect(theirs).toEqual({ 'S02-F1 noLoad_V': '12.1', 'S03-F1 noLoad_V': 'about 9' });
  });
});
