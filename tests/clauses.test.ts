import { describe, expect, it } from 'vitest';
import { class2_W, clausesOf } from '../src/clauses.ts';
import { cableFindings } from '../src/findings/cable-findings.ts';
import { type Wall, wall } from './findings/small-wall/wall.ts';

const numbers = (text: string) => text.match(/\b(4[1-3]\d|5\d\d|7\d\d)\b/g);

describe('the clauses a job is cited by', () => {
  it('have the same numbers in BS 7671 as in IEC 60364', () => {
    const [iec, bs] = [clausesOf('IEC'), clausesOf('BS 7671')];
    for (const key of [
      'capacity',
      'overload',
      'shortCircuit',
      'limitedSource',
      'lighting',
      'access',
    ] as const)
      expect(numbers(bs[key])).toEqual(numbers(iec[key]));
  });

  it('say of every one how it reached us, and claim nothing', () => {
    for (const rules of ['IEC', 'BS 7671', 'NEC'] as const)
      for (const text of Object.values(clausesOf(rules))) {
        expect(text).toMatch(/\((from memory|secondary)\)$/);
        expect(text).not.toMatch(/compl(y|ies)|conform/);
      }
  });

  // NEC, chapter 9, tables 11(A) and 11(B) (from memory): 5 A times 12 V and 5 A times 20 V; 100 VA above.
  it('know a Class 2 source only where the rules have that class', () => {
    expect([12, 20, 24, 48].map((volts_V) => class2_W('NEC', volts_V))).toEqual([60, 100, 100, 100]);
    expect([class2_W('IEC', 24), class2_W('BS 7671', 24)]).toEqual([null, null]);
  });

  it('are those of the rules in findings of the cables', () => {
    const basis = (rules: 'IEC' | 'BS 7671' | 'NEC') => {
      const change = ({ job, cables }: Wall) => {
        job.site.rules = rules;
        cables[0]!.protectedBy = 'nothing';
        cables[0]!.farShortNoticed = false;
      };
      const found = new Map(cableFindings(wall(change)).map((check) => [check.id, check.basis]));
      return ['cable-capacity', 'cable-fuse', 'far-short'].map((id) => found.get(id));
    };
    const { capacity, overload, shortCircuit } = clausesOf('NEC');
    expect(basis('NEC')).toEqual(
      [capacity, overload, shortCircuit].map((clause) => expect.stringContaining(clause)),
    );
    expect(basis('BS 7671').join(' ')).not.toContain('IEC');
    expect(basis('IEC')[1]).toBe('IEC 60364-4-43, clause 433 (secondary): Ib ≤ In ≤ Iz');
  });
});
