import type { Finding } from '../answer/findings.ts';
import type { Issue } from '../outcome.ts';

/** By what a design fell: a check that fails, or what refuses it. */
export interface Fall {
  readonly check: string;
  readonly title: string;
  readonly sentence: string;
}

const refusals: Readonly<Record<string, string>> = {
  'load-larger-than-output': 'A slot larger than an output of the driver',
  'driver-place-too-warm': 'Air at the drivers',
  'layout-needs-end-feed': 'Run to run goes with one feed at an end',
  'no-fuse-fits': 'Protection of each cable',
  'does-not-fit': 'A product that does not go with the others',
  'voltage-mismatch': 'Drivers of the volts of the strip',
  'runs-away': 'Strip that warms itself without end',
};

/** A refusal as a fall. */
export const fallOfIssue = ({ code, sentence }: Issue): Fall => ({
  check: code,
  title: refusals[code] ?? 'Cannot be built',
  sentence,
});

/** The first check that fails, as a fall; undefined where none does. */
export function fallOfFindings(
  findings: readonly Pick<Finding, 'id' | 'status' | 'title' | 'sentence'>[],
): Fall | undefined {
  const failing = findings.find(({ status }) => status === 'fails');
  return failing && { check: failing.id, title: failing.title, sentence: failing.sentence };
}
