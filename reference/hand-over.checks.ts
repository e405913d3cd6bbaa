import { currentGain } from '../src/hand-over/bands.ts';
import type { Check } from './check.ts';

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
];
