import { found, type Outcome, refused } from '../outcome.ts';
import { type Fuse, type FuseFamilyName, fuseBetween } from './fuse-families.ts';
import type { InstallationIssue } from './issues.ts';

export type Protection =
  | { readonly by: 'source'; readonly sourceLimit_A: number }
  | { readonly by: 'fuse'; readonly fuse: Fuse };

/**
 * What protects a cable: the driver itself where it cannot deliver more than the cable may carry (IEC 60364-4-43
 * clause 436), otherwise the smallest fuse that carries Ib for ever and holds `Ib <= In <= Iz` and `I2 <= 1.45 Iz`
 * (clause 433.1).
 * @param of.design_A current the cable carries, Ib
 * @param of.capacity_A current it may carry after all factors, Iz
 * @param of.sourceLimit_A the most the driver delivers before it limits or stops
 * Refusals: `no-fuse-fits`.
 * Source: IEC 60364-4-43:2008 (secondary). Check: `tests/installation/protection.test.ts`.
 */
export function protectCable(of: {
  readonly design_A: number;
  readonly capacity_A: number;
  readonly sourceLimit_A: number;
  readonly fuses: FuseFamilyName;
}): Outcome<Protection, InstallationIssue> {
  const { design_A, capacity_A, sourceLimit_A } = of;
  if (design_A <= capacity_A && sourceLimit_A <= capacity_A) return found({ by: 'source', sourceLimit_A });
  const fuse = fuseBetween(of.fuses, design_A, capacity_A);
  if (fuse !== null) return found({ by: 'fuse', fuse });
  const sentence = `This cable carries ${design_A.toFixed(1)} A and may carry ${capacity_A.toFixed(1)} A; no fuse lies between with a margin. Use a thicker cable, or feed less through it.`;
  return refused({ code: 'no-fuse-fits', place: {}, quantities: { design_A, capacity_A }, sentence });
}
