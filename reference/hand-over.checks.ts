import { currentGain } from '../src/hand-over/bands.ts';
import { goodFitLimit } from '../src/readings/fault-finding.ts';
import type { Check } from './check.ts';

/** Upper 0.1 % points of chi-square: degrees of freedom, value. */
const chiSquare: readonly (readonly [number, number])[] = [
  [5, 20.515],
  [10, 29.588],
  [30, 59.703],
  [100, 149.449],
];

const chiChecks: readonly Check[] = chiSquare.map(([freedomCount, printed]) => ({
  id: `hand-over-chi-${freedomCount}`,
  topic: 'hand-over',
  quantity: `Sum of squares chance passes once in a thousand, ${freedomCount} degrees of freedom`,
  source: 'Chi-square tables, upper 0.1 % point; computed by Wilson and Hilferty 1931',
  standing: 'memory',
  unit: '1',
  printed,
  computed: goodFitLimit(freedomCount),
  tolerance: { relative: 0.015 },
}));

export const handOverChecks: readonly Check[] = [
  {
    id: 'hand-over-gain-24V',
    topic: 'hand-over',
    quantity: 'Change of current for 1 % of volts, 24 V resistor strip with 18.2 V of lamps',
    source: 'dI/I = dV/(V − n·Vf), by hand: 1 % gives 4.1 %',
    standing: 'derived',
    unit: '%',
    printed: 4.1,
    computed: currentGain({
      nominal_V: 24,
      law: 'resistor',
      channels: [{ lampsInSeries: 7, lampForward_V: 2.6 }],
    }),
    tolerance: { absolute: 0.05 },
  },
  ...chiChecks,
];
