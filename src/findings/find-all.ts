import { statuses } from '../answer/finding-status.ts';
import type { Finding } from '../answer/findings.ts';
import { cableFindings } from './cable-findings.ts';
import { cableWayFindings } from './cable-way-findings.ts';
import { circuitFindings } from './circuit-findings.ts';
import type { Sized } from './context.ts';
import { dimmerFindings } from './dimmer-findings.ts';
import { driverFindings } from './driver-findings.ts';
import { driverPlaceFindings } from './driver-place-findings.ts';
import { farFeedFindings } from './far-feed-findings.ts';
import { heatFindings } from './heat-findings.ts';
import { hungFindings } from './hung-findings.ts';
import { lightFindings } from './light-findings.ts';
import { onConditions } from './on-condition.ts';
import { openingFindings } from './opening-findings.ts';
import { panelFindings } from './panel-findings.ts';
import { profileFindings } from './profile-findings.ts';
import { roomFindings } from './room-findings.ts';
import { setOutFindings } from './set-out-findings.ts';
import { siteFindings } from './site-findings.ts';
import { withWorking } from './working.ts';

/** Share of the limit that is left; findings without a limit come after those with one. */
function relativeMargin({ margin, limit }: Finding): number {
  if (margin === null || limit === null) return Number.POSITIVE_INFINITY;
  return margin / Math.max(Math.abs(limit), 1e-9);
}

/** Every check of a sized job in one list, worst first: by status, then by what is left of the limit. */
export function findAll(sized: Sized): Finding[] {
  const checks = [
    ...setOutFindings(sized),
    ...circuitFindings(sized),
    ...cableFindings(sized),
    ...cableWayFindings(sized),
    ...farFeedFindings(sized),
    ...driverFindings(sized),
    ...driverPlaceFindings(sized),
    ...openingFindings(sized),
    ...panelFindings(sized),
    ...dimmerFindings(sized),
    ...heatFindings(sized),
    ...profileFindings(sized),
    ...lightFindings(sized),
    ...roomFindings(sized),
    ...siteFindings(sized),
    ...hungFindings(sized),
  ];
  const findings = onConditions(checks, sized.conditions).map(
    (check): Finding => ({ remedies: [], ...withWorking(check) }),
  );
  const rank = (finding: Finding): number => statuses.indexOf(finding.status);
  return findings.sort((a, b) => rank(a) - rank(b) || relativeMargin(a) - relativeMargin(b));
}
