import { cableCatalogue } from './cable-catalogue.ts';
import { dimmerCatalogue } from './dimmer-catalogue.ts';
import { driverCatalogue } from './driver-catalogue.ts';
import type { Job } from './job.ts';
import { stripCatalogue } from './strip-catalogue.ts';

/** Whole tens of cents, so that nobody takes them for a quotation. */
const tens = (cents: number): number => 10 * Math.round(cents / 10);

const total_W_per_m = (channels: readonly { readonly watts_per_m: number }[]): number =>
  channels.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);

/**
 * Prices of the demo jobs, made up by rule so that there is something to compare: a driver is 9.00 and 0.21 a watt, a reel
 * 14.00 and 1.30 for each watt of a metre, a metre of cable 0.30 and 0.45 for each mm², a dimmer 19.00 and 0.70 for each
 * ampere of a channel. None rests on any offer.
 */
export function demoPrices(): Job['prices'] {
  return {
    note: 'invented for this demonstration, in no currency and from no supplier',
    list: [
      ...stripCatalogue.map(({ id, channels }) => ({
        ...{ product: 'strip' as const, entry: id },
        price_cents: tens(1400 + 130 * total_W_per_m(channels)),
      })),
      ...driverCatalogue.map(({ id, rated_W }) => ({
        ...{ product: 'driver' as const, entry: id },
        price_cents: tens(900 + 21 * rated_W),
      })),
      ...cableCatalogue.map(({ id, area_mm2 }) => ({
        ...{ product: 'cable' as const, entry: id },
        price_cents: Math.round(30 + 45 * area_mm2),
      })),
      ...dimmerCatalogue.map(({ id, channelCount, channel_A }) => ({
        ...{ product: 'dimmer' as const, entry: id },
        price_cents: tens(1900 + 70 * channelCount * channel_A),
      })),
    ],
  };
}
