import { describe, expect, it } from 'vitest';
import { allChecks } from '../reference/all-checks.ts';
import { agrees } from '../reference/check.ts';

describe('published values', () => {
  it('have unique ids', () => {
    expect(new Set(allChecks.map((c) => c.id)).size).toBe(allChecks.length);
  });
  it.each(allChecks)('$id', (check) => {
    expect(agrees(check), JSON.stringify(check)).toBe(true);
  });
});
