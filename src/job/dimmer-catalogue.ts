import type { DimmerData } from './dimmer.ts';

type Entry = Readonly<DimmerData> & { readonly id: string };

interface Kind {
  readonly channelCount: number;
  readonly channel_A: number;
  readonly control: DimmerData['control'];
  readonly case_mm: readonly [length: number, width: number, height: number];
}

const kinds: readonly Kind[] = [
  { channelCount: 1, channel_A: 5, control: 'push button', case_mm: [60, 36, 18] },
  { channelCount: 1, channel_A: 10, control: '1-10 V', case_mm: [110, 40, 22] },
  { channelCount: 1, channel_A: 15, control: 'DALI', case_mm: [130, 44, 24] },
  { channelCount: 2, channel_A: 6, control: 'DALI', case_mm: [130, 44, 24] },
  { channelCount: 2, channel_A: 5, control: 'radio', case_mm: [110, 40, 22] },
  { channelCount: 4, channel_A: 5, control: 'DALI', case_mm: [160, 48, 26] },
  { channelCount: 4, channel_A: 4, control: 'radio', case_mm: [140, 44, 24] },
];

const dimmer = ({ channelCount, channel_A, control, case_mm }: Kind): Entry => {
  const [length_mm, width_mm, height_mm] = case_mm;
  const channels = channelCount === 1 ? 'one channel' : `${channelCount} channels`;
  return {
    id: `${channelCount}x${channel_A}A-${control.toLowerCase().replaceAll(' ', '-')}`,
    name: `Dimmer, ${channels} of ${channel_A} A, ${control}`,
    least_V: 12,
    most_V: 24,
    channelCount,
    channel_A,
    resistance_mohm: 20,
    standby_W: 0.3,
    ownLoss_W: 0.8,
    frequency_Hz: 4000,
    lowestLevel: 0.01,
    control,
    length_mm,
    width_mm,
    height_mm,
    clearance_mm: 10,
    price_cents: null,
  };
};

const steady: Entry = {
  ...dimmer({ channelCount: 1, channel_A: 6, control: '1-10 V', case_mm: [130, 44, 28] }),
  id: '1x6A-steady',
  name: 'Dimmer, one channel of 6 A, without pulses, 1-10 V',
  frequency_Hz: null,
  lowestLevel: 0.05,
  ownLoss_W: 3,
};

/**
 * Typical dimmers for strip, named by what they are. Values are what data sheets of the trade commonly print (common
 * practice, no single source); a real sheet overrides any of them.
 */
export const dimmerCatalogue: readonly Entry[] = [...kinds.map(dimmer), steady];
