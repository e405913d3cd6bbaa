import { setVoltage_V } from '../job/resolve.ts';
import { amps, apart, figures, volts } from '../words.ts';
import { below, type Check, limited, remedy, type Sized, sheet, worst } from './context.ts';

/** Figures of the dimmer that were entered from its sheet. */
const entered = ({ job }: Sized) => job.dimming.dimmer?.data ?? {};

const field = 'dimming.dimmer.entry';

function channels(sized: Sized): Check[] {
  const { dimmers } = sized.installation;
  if (dimmers.length === 0) return [];
  const { id, current_A, channel_A } = worst(dimmers, (dimmer) => dimmer.current_A);
  const status = below(current_A, channel_A);
  const [carried, rated] = apart(amps, current_A, channel_A);
  return [
    limited({
      id: 'dimmer-current',
      question: 'drivers',
      status,
      place: { field },
      title: 'Current in the busiest channel of a dimmer',
      value: current_A,
      limit: channel_A,
      unit: 'A',
      basis: sheet(entered(sized), 'channel_A', 'dimmer'),
      sentence: `Dimmer ${id} carries ${carried} in its busiest channel at full; ${rated} is what one may carry.`,
      remedies:
        status === 'passes'
          ? []
          : [
              remedy(field, 'Choose a dimmer with channels for more current.'),
              remedy(
                'drivers.outputCeiling_W',
                'Set a lower ceiling for one output, so that each feeds less.',
              ),
            ],
    }),
  ];
}

/** Drivers set beside the volts a dimmer is made for. */
function voltage(sized: Sized): Check[] {
  const { job, products } = sized;
  const { dimmer } = products;
  if (dimmer === null) return [];
  const set_V = setVoltage_V(job, products);
  const over = set_V > dimmer.most_V;
  const status = over || set_V < dimmer.least_V ? 'watch' : 'passes';
  return [
    {
      id: 'dimmer-voltage',
      question: 'drivers',
      status,
      place: { field: 'drivers.set_V' },
      title: 'Volts at the dimmers',
      value: set_V,
      limit: over ? dimmer.most_V : dimmer.least_V,
      margin: over ? dimmer.most_V - set_V : set_V - dimmer.least_V,
      unit: 'V',
      basis: sheet(entered(sized), over ? 'most_V' : 'least_V', 'dimmer'),
      sentence: `The drivers are set to ${volts(set_V)}; the dimmer is made for ${figures(dimmer.least_V)} to ${figures(dimmer.most_V)} V.${status === 'passes' ? '' : ' Whether it may stand that is on its data sheet.'}`,
      remedies:
        status === 'passes'
          ? []
          : [
              remedy('drivers.set_V', 'Set the drivers to volts the dimmer is made for.'),
              remedy(field, 'Choose a dimmer made for these volts.'),
            ],
    },
  ];
}

/** Checks of dimmers: what their channels carry, and the volts they stand at. What they reach is a question of light. */
export const dimmerFindings = (sized: Sized): Check[] => [...channels(sized), ...voltage(sized)];
