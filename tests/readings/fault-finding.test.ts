import { describe, expect, it } from 'vitest';
import { type FaultFinding, findFault } from '../../src/readings/fault-finding.ts';
import type { Fault, ReadingModel } from '../../src/readings/fault-fit.ts';
import {
  normal,
  plannedSite,
  readingsOfWall,
  type Site,
  seeded,
  soundChain,
  wallModel,
  wallSpread,
} from './resistive-wall.ts';

const runCount = 8;
const model = wallModel(runCount);
const spread = wallSpread(runCount);
const trialCount = 500;

/** Gain error shared by all voltage readings and by all loops, one standard deviation. */
function shiftsOf(sound: readonly number[]): number[][] {
  const per = 5;
  const volts = sound.map((y, i) => (i < runCount * per && i % per < 2 ? 0.002 * y : 0));
  const loops = sound.map((y, i) => (i < runCount * per && i % per > 2 ? 0.005 * y : 0));
  return [volts, loops];
}

const shifts = shiftsOf(model.predict({ kind: 'none' }));

function measure(fault: Fault, deviate: () => number): number[] {
  const gains = shifts.map(() => deviate());
  return model
    .predict(fault)
    .map((y, i) => y + spread[i]! * deviate() + shifts.reduce((sum, s, k) => sum + gains[k]! * s[i]!, 0));
}

const find = (measured: readonly (number | null)[]): FaultFinding =>
  findFault(model, { measured, spread, shifts });

function named(finding: FaultFinding): string | null {
  const fault = finding.suspects[0]?.fault;
  return finding.verdict === 'found' && fault && fault.kind !== 'none' ? fault.place : null;
}

describe('finding a fault from readings', () => {
  it('names a random joint with 0.05 to 0.5 ohm in at least 90 % of 500 trials, a wrong one in at most 2 %', () => {
    const random = seeded(20260331);
    const deviate = normal(random);
    const tally = { right: 0, wrong: 0, open: 0 };
    for (let trial = 0; trial < trialCount; trial++) {
      const place = `joint ${Math.floor(random() * runCount)}`;
      const ohm = 0.05 + 0.45 * random();
      const finding = find(measure({ kind: 'resistance', place, ohm }, deviate));
      const name = named(finding);
      tally[name === null ? 'open' : name === place ? 'right' : 'wrong']++;
      const fault = finding.suspects[0]?.fault;
      if (name === place && fault?.kind === 'resistance')
        expect(Math.abs(fault.ohm - ohm)).toBeLessThan(5 * finding.suspects[0]!.ohmSpread);
    }
    expect(tally.right / trialCount).toBeGreaterThanOrEqual(0.9);
    expect(tally.wrong / trialCount).toBeLessThanOrEqual(0.02);
  });

  it('still does so when driver volts and strip watts are not as planned, but known to within 1.5 % and 5 %', () => {
    const planned = model.predict({ kind: 'none' });
    const apart = (site: Partial<Site>) =>
      wallModel(runCount, { ...plannedSite, ...site })
        .predict({ kind: 'none' })
        .map((y, i) => y - planned[i]!);
    const known = [...shifts, apart({ source_V: 24 * 1.015 }), apart({ load_ohm: 240 / 1.05 })];
    const random = seeded(29);
    const deviate = normal(random);
    const tally = { right: 0, wrong: 0 };
    for (let trial = 0; trial < trialCount; trial++) {
      const site: Site = { source_V: 24 * (1 + 0.015 * deviate()), load_ohm: 240 / (1 + 0.05 * deviate()) };
      const place = `joint ${Math.floor(random() * runCount)}`;
      const fault: Fault = { kind: 'resistance', place, ohm: 0.05 + 0.45 * random() };
      const measured = wallModel(runCount, site)
        .predict(fault)
        .map((y, i) => y + spread[i]! * deviate());
      const name = named(findFault(model, { measured, spread, shifts: known }));
      if (name !== null) tally[name === place ? 'right' : 'wrong']++;
    }
    expect(tally.right / trialCount).toBeGreaterThanOrEqual(0.9);
    expect(tally.wrong / trialCount).toBeLessThanOrEqual(0.02);
  });

  it('names something in at most 2 % of 500 sound walls', () => {
    const deviate = normal(seeded(7));
    let alarms = 0;
    for (let trial = 0; trial < trialCount; trial++)
      if (find(measure({ kind: 'none' }, deviate)).verdict === 'found') alarms++;
    expect(alarms / trialCount).toBeLessThanOrEqual(0.02);
  });

  it('names a missing run', () => {
    const finding = find(measure({ kind: 'missing run', place: 'run 3' }, normal(seeded(11))));
    expect(named(finding)).toBe('run 3');
    expect(finding.sentence).toContain('draws nothing');
  });

  it('does not name one place when two are wrong', () => {
    const random = seeded(13);
    const deviate = normal(random);
    for (let trial = 0; trial < 50; trial++) {
      const chains = Array.from({ length: runCount }, (_, i) =>
        i === 1 || i === 6 ? { ...soundChain, joint_ohm: 0.2 + 0.2 * random() } : soundChain,
      );
      const measured = readingsOfWall(chains).map((y, i) => y + spread[i]! * deviate());
      expect(find(measured).verdict).toBe('cannot tell');
    }
  });

  it('names both of two places in one line between the same readings as suspects', () => {
    const twin: ReadingModel = {
      ...model,
      predict: (fault) =>
        model.predict(
          fault.kind === 'resistance' && fault.place === 'twin' ? { ...fault, place: 'joint 2' } : fault,
        ),
      resistancePlaces: [...model.resistancePlaces, 'twin'],
    };
    const measured = measure({ kind: 'resistance', place: 'joint 2', ohm: 0.3 }, normal(seeded(17)));
    const finding = findFault(twin, { measured, spread, shifts });
    expect(finding.verdict).toBe('cannot tell');
    expect(
      finding.suspects.map((s) => (s.fault.kind === 'resistance' ? s.fault.place : '')).toSorted(),
    ).toEqual(['joint 2', 'twin']);
  });

  it('finds the exact ohms from exact readings, with half of the readings missing', () => {
    const exact = model.predict({ kind: 'resistance', place: 'terminal 5', ohm: 0.23 });
    const finding = find(exact.map((y, i) => (i % 2 === 0 ? null : y)));
    const fault = finding.suspects[0]!.fault;
    expect(fault).toMatchObject({ kind: 'resistance', place: 'terminal 5' });
    expect(fault.kind === 'resistance' ? fault.ohm : 0).toBeCloseTo(0.23, 3);
    expect(finding.chiSquare).toBeLessThan(1e-3);
  });

  it('says so without readings, and throws on readings of unequal number', () => {
    expect(find(spread.map(() => null)).verdict).toBe('cannot tell');
    expect(() => findFault(model, { measured: [1], spread, shifts })).toThrow(RangeError);
  });
});
