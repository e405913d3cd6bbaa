import type { Issue, Place } from '../outcome.ts';

/** Every reason why a question about the installation has no answer. */
export type InstallationIssue =
  | InstallationIssueOf<'no-capacity-known', { area_mm2: number; ambient_degC: number }>
  | InstallationIssueOf<'no-fuse-fits', { design_A: number; capacity_A: number }>
  | InstallationIssueOf<'layout-needs-end-feed', { feedPointCount: number }>;

interface InstallationIssueOf<Code extends string, Quantities extends Readonly<Record<string, number>>>
  extends Issue {
  readonly code: Code;
  readonly place: Place;
  readonly quantities: Quantities;
}
