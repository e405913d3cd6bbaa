import { cableCatalogue, cablesUnder } from './cable-catalogue.ts';
import { dimmerCatalogue } from './dimmer-catalogue.ts';
import { driverCatalogue } from './driver-catalogue.ts';
import type { Job } from './job.ts';
import { ownEntries, type ProductKind } from './own-product.ts';
import { profileCatalogue } from './profile-catalogue.ts';
import { stripCatalogue } from './strip-catalogue.ts';

type Carrying = Pick<Job, 'products'>;

const typical = {
  strip: stripCatalogue,
  driver: driverCatalogue,
  dimmer: dimmerCatalogue,
  cable: cableCatalogue,
  profile: profileCatalogue,
} as const;

type Catalogued = Exclude<ProductKind, 'cover'>;

/** What a job may choose from: typical entries, then the own products it carries. */
export function entriesOf<Kind extends Catalogued>(
  { products }: Carrying,
  kind: Kind,
): (typeof typical)[Kind] {
  if (!products.some((product) => product.kind === kind)) return typical[kind];
  return [...typical[kind], ...ownEntries(products, kind)] as unknown as (typeof typical)[Kind];
}

/** Cables a job may choose from: sizes on the market under its rules, then its own, whatever their size. */
export const cablesFor = ({ products, site }: Carrying & Pick<Job, 'site'>) => [
  ...cablesUnder(site.rules),
  ...ownEntries(products, 'cable').toSorted((a, b) => a.area_mm2 - b.area_mm2),
];
