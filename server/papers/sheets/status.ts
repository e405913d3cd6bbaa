import { type FindingStatus, isOnCondition } from '../../../src/answer/finding-status.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import { shown } from '../shown.ts';

/** What the status of a sheet is told from. */
export interface Standing {
  readonly sizing: Sizing;
  /** When it was issued; null for a draft. */
  readonly issued: { readonly date: string } | null;
}

function countOf({ findings }: Sizing, status: FindingStatus): number {
  return findings.filter((finding) => finding.status === status && !isOnCondition(finding)).length;
}

/** "2 checks fail, 1 warning, 20 on condition": what is open, or an empty text. */
export function openText(sizing: Sizing): string {
  const [fail, watch] = [countOf(sizing, 'fails'), countOf(sizing, 'watch')];
  const held = sizing.findings.filter(isOnCondition).length;
  return [
    ...(fail > 0 ? [`${shown(fail, 0)} ${fail === 1 ? 'check fails' : 'checks fail'}`] : []),
    ...(watch > 0 ? [`${shown(watch, 0)} ${watch === 1 ? 'warning' : 'warnings'}`] : []),
    ...(held > 0 ? [`${shown(held, 0)} on condition`] : []),
  ].join(', ');
}

/** The status that stands on every sheet: a draft is not issued, and an issue says what is still open. */
export function statusText({ sizing, issued }: Standing): string {
  const open = openText(sizing);
  if (!issued) return open === '' ? 'draft, not issued' : `draft, not issued: ${open}`;
  return open === '' ? 'issued' : `issued with open findings: ${open}`;
}
