import * as z from 'zod';
import { price_cents_per_m } from './prices.ts';
import { count, line, quantity } from './quantity.ts';

/** A flexible two-core (or more) cable; resistance is of one conductor at 20 degC. */
export const cableData = z.strictObject({
  name: line('Cable name', 80),
  area_mm2: quantity({
    label: 'Conductor area',
    unit: 'mm²',
    min: 0.1,
    max: 16,
    why: 'lighting cable runs from 0.2 to 6 mm²',
  }),
  conductor_ohm_per_km: quantity({
    label: 'Conductor resistance at 20 °C',
    unit: 'Ω/km',
    min: 1,
    max: 200,
    why: '16 mm² has 1.2 Ω/km, AWG 26 has 134 Ω/km',
  }),
  limit_degC: quantity({
    label: 'Highest conductor temperature',
    unit: '°C',
    min: 60,
    max: 200,
    why: 'PVC 70 °C, cross-linked 90 °C, silicone 180 °C',
  }),
  outer_mm: quantity({
    label: 'Outside diameter with two cores',
    unit: 'mm',
    min: 1,
    max: 40,
    why: 'two cores of 0.2 mm² in a thin sheath are 3 mm, two of 16 mm² some 20 mm',
  }),
  coreCounts: z
    .array(count({ label: 'Cores', min: 1, max: 12, why: 'control cable is sold with up to twelve cores' }))
    .min(1, { error: 'Give at least one number of cores the cable is sold with.' })
    .max(12, { error: 'A cable is sold with at most twelve numbers of cores.' })
    .meta({ title: 'Numbers of cores it is sold with' }),
  price_cents_per_m: price_cents_per_m.nullable(),
  /** A number of cores that is not listed costs what a metre of two cores does only where it has two. */
  pricesByCores: z
    .array(
      z.strictObject({
        cores: count({ label: 'Cores of a price', min: 1, max: 12, why: 'as the cable is sold' }),
        price_cents_per_m,
      }),
    )
    .max(12, { error: 'A cable has at most twelve prices by its number of cores.' })
    .meta({ title: 'Prices of a metre by number of cores' }),
});

export type CableData = z.infer<typeof cableData>;
