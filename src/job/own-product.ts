import * as z from 'zod';
import { cableData } from './cable.ts';
import { dimmerData } from './dimmer.ts';
import { driverData } from './driver.ts';
import { profileCoverData, profileCoverKinds, profileData } from './profile.ts';
import { choice, count, line } from './quantity.ts';
import { stripData } from './strip.ts';

/** Own products are told from entries of the catalogue by how their ids begin. */
const ownId = z
  .string()
  .max(60, { error: 'The id of an own product has at most 60 characters.' })
  .regex(/^own-[a-z0-9]+(-[a-z0-9]+)*$/, {
    error: 'The id of an own product is “own-” and then small letters, digits and single hyphens.',
  })
  .meta({ title: 'Id of an own product' });

/** Whether an id is that of an own product. */
export const isOwnId = (id: string): boolean => id.startsWith('own-');

/** A cover as it is bought: what it looks like, and everything a data sheet says. */
export const coverData = profileCoverData.extend({
  name: line('Cover name', 80),
  look: choice('Look of the cover', profileCoverKinds),
});

/** What is known of a product beside its data sheet. */
const about = {
  id: ownId,
  currency: line('Currency of its price', 12),
  stock: count({
    label: 'In stock',
    min: 0,
    max: 100000,
    why: 'reels, pieces, metres or bars that lie in the workshop',
  }).nullable(),
  source: line('Source of its data', 120),
  dated: z
    .string()
    .regex(/^(\d{4}-\d{2}-\d{2})?$/, {
      error: 'Date of its data must be written year-month-day, such as 2026-03-31, or left empty.',
    })
    .meta({ title: 'Date of its data' }),
};

const kinds = {
  strip: stripData,
  driver: driverData,
  dimmer: dimmerData,
  cable: cableData,
  profile: profileData,
  cover: coverData,
} as const;

/** Kinds of product a workshop keeps. */
export const productKinds = ['strip', 'driver', 'dimmer', 'cable', 'profile', 'cover'] as const;

export type ProductKind = (typeof productKinds)[number];

/** One schema for each kind: what a data sheet says, with whose it is, of when, its price and what is in stock. */
export const ownProducts = {
  strip: z.strictObject({ kind: z.literal('strip'), ...about, data: kinds.strip }),
  driver: z.strictObject({ kind: z.literal('driver'), ...about, data: kinds.driver }),
  dimmer: z.strictObject({ kind: z.literal('dimmer'), ...about, data: kinds.dimmer }),
  cable: z.strictObject({ kind: z.literal('cable'), ...about, data: kinds.cable }),
  profile: z.strictObject({ kind: z.literal('profile'), ...about, data: kinds.profile }),
  cover: z.strictObject({ kind: z.literal('cover'), ...about, data: kinds.cover }),
} as const;

/** A product of the workshop's own, as the workshop keeps it and as a job carries a copy of it. */
export const ownProduct = z.discriminatedUnion(
  'kind',
  [
    ownProducts.strip,
    ownProducts.driver,
    ownProducts.dimmer,
    ownProducts.cable,
    ownProducts.profile,
    ownProducts.cover,
  ],
  { error: `An own product says its kind: ${productKinds.join(', ')}.` },
);

export type OwnProduct = z.infer<typeof ownProduct>;
export type OwnProductOf<Kind extends ProductKind> = Extract<OwnProduct, { readonly kind: Kind }>;

type Entry<Kind extends ProductKind> = OwnProductOf<Kind>['data'] & { readonly id: string };

/** Own products of a kind among copies, each as an entry of the catalogue would be. */
export const ownEntries = <Kind extends ProductKind>(
  products: readonly OwnProduct[],
  kind: Kind,
): readonly Entry<Kind>[] =>
  products
    .filter((product): product is OwnProductOf<Kind> => product.kind === kind)
    .map(({ id, data }) => ({ id, ...data }) as unknown as Entry<Kind>);
