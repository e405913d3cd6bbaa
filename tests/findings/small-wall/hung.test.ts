import { describe, expect, it } from 'vitest';
import type { HungThingAnswer } from '../../../src/answer/hung.ts';
import { hungFindings } from '../../../src/findings/hung-findings.ts';
import { told, wall } from './wall.ts';

const peg: HungThingAnswer = {
  ...{ name: 'Peg', slot: 'S01', slides: false, x0_mm: 100, y0_mm: 300, x1_mm: 100, y1_mm: 312 },
  ...{ width_mm: 12, reach_mm: 20, past_mm: 0 },
  clearances: [
    { to: 'strip', clear_mm: 9 },
    { to: 'backing', clear_mm: 12 },
  ],
  ...{ dark_mm: 23.4, shade: '' },
};

const of = (change: Partial<HungThingAnswer>) =>
  told(hungFindings(wall(({ hung }) => hung.push({ ...peg, ...change }))), 'hung-1');

const closest = (to: HungThingAnswer['clearances'][number]['to'], clear_mm: number) =>
  of({ clearances: [{ to, clear_mm }] });

describe('what hangs in a slot', () => {
  it('is no finding where nothing hangs', () => {
    expect(hungFindings(wall())).toEqual([]);
  });

  // 5 mm are kept free.
  it.each([
    [9, 'passes', 4],
    [5, 'passes', 0],
    [4.9, 'watch', -0.1],
    [0, 'watch', -5],
    [-0.1, 'fails', -5.1],
  ])('%s mm clear of the strip %s', (clear_mm, status, margin) => {
    expect(closest('strip', clear_mm)).toMatchObject({ status, margin, value: clear_mm, limit: 5 });
  });

  it('is told how far it may reach: 20 mm less the 3 that lack', () => {
    const { advice, fields } = closest('strip', 2);
    expect(advice).toEqual(['Let it reach 17 mm behind the face at most.', 'Make the cavity deeper.']);
    expect(fields).toEqual(['hung[1].reach_mm', 'section.cavity_mm']);
  });

  it('is told to pass a cover by a hole, and to hang where no cable lies', () => {
    expect(closest('cover', -12).fields).toEqual(['section.cover', 'hung[1].reach_mm']);
    expect(closest('cable', 1).fields).toEqual(['hung[1].reach_mm', 'hung[1].place_mm', 'section.cavity_mm']);
    const sliding = of({ slides: true, clearances: [{ to: 'cable', clear_mm: 1 }] });
    expect(sliding.fields).not.toContain('hung[1].place_mm');
    expect(sliding.sentence).toContain('1 mm clear of a cable on the backing anywhere along slot S01');
  });

  it('says how much of the slot it darkens, where that is known', () => {
    expect(of({}).sentence).toContain('It darkens about 23 mm of the slot.');
    expect(of({ dark_mm: null }).sentence).not.toContain('darkens');
  });

  it('fails in a slot that is not there, and beyond the end of one', () => {
    expect(of({ slot: null, clearances: [] })).toMatchObject({
      ...{ status: 'fails', value: null, limit: null, margin: null, fields: ['hung[1].slot'] },
    });
    expect(of({ past_mm: 4 })).toMatchObject({
      ...{ status: 'fails', value: 4, fields: ['hung[1].place_mm'] },
      sentence: 'Peg goes 4 mm beyond an end of slot S01.',
    });
    expect(of({ past_mm: 4, slides: true }).fields).toEqual(['hung[1].width_mm']);
  });
});
