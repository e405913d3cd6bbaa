import { describe, expect, it } from 'vitest';
import { protectCable } from '../../src/installation/protection.ts';

describe('what protects a cable', () => {
  it('is a driver too small to overload it', () => {
    const outcome = protectCable({ design_A: 3, capacity_A: 10, sourceLimit_A: 6.3, fuses: 'blade' });
    expect(outcome.ok && outcome.value.by).toBe('source');
  });

  it('is otherwise the smallest fuse with a quarter in hand', () => {
    const outcome = protectCable({ design_A: 6, capacity_A: 12, sourceLimit_A: 20, fuses: 'blade' });
    expect(outcome.ok && outcome.value).toEqual({ by: 'fuse', fuse: { family: 'blade', rating_A: 7.5 } });
  });

  it('is nothing where no fuse lies between', () => {
    for (const [design_A, sourceLimit_A] of [
      [9.5, 20],
      [12, 11],
    ] as const) {
      const outcome = protectCable({ design_A, capacity_A: 10, sourceLimit_A, fuses: 'blade' });
      expect(!outcome.ok && outcome.issues[0]!.code).toBe('no-fuse-fits');
    }
  });

  it('is a cartridge fuse only up to 0.69 of what the cable may carry', () => {
    // 3 A needs 3.75 A, so 4 A, which asks for a cable of 4/0.6905 = 5.79 A.
    const fits = (capacity_A: number) =>
      protectCable({ design_A: 3, capacity_A, sourceLimit_A: 20, fuses: 'cartridge' }).ok;
    expect([5.79, 5.8].map(fits)).toEqual([false, true]);
  });
});
