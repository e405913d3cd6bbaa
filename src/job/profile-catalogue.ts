import type {
  ProfileChoice,
  ProfileCoverData,
  ProfileCoverKind,
  ProfileData,
  ProfileProduct,
} from './profile.ts';

type Entry = Readonly<ProfileData> & { readonly id: string };

interface Size {
  readonly inside_mm: number;
  readonly height_mm: number;
  readonly wall_mm: number;
  readonly base_mm: number;
}

const sizes: readonly Size[] = [
  { inside_mm: 12, height_mm: 6, wall_mm: 1.2, base_mm: 1.2 },
  { inside_mm: 12, height_mm: 10, wall_mm: 1.5, base_mm: 1.5 },
  { inside_mm: 12, height_mm: 15, wall_mm: 1.5, base_mm: 2 },
  { inside_mm: 16, height_mm: 10, wall_mm: 1.5, base_mm: 2 },
  { inside_mm: 20, height_mm: 10, wall_mm: 1.5, base_mm: 2 },
  { inside_mm: 20, height_mm: 20, wall_mm: 2, base_mm: 2 },
  { inside_mm: 30, height_mm: 20, wall_mm: 2, base_mm: 3 },
];

const section = (size: Size): Entry => ({
  id: `u-${size.inside_mm}x${size.height_mm}`,
  name: `U section, ${size.inside_mm} × ${size.height_mm} mm inside`,
  ...size,
  conductivity_W_per_mK: 200,
  // Anodised: handbook emissivity (memory), diffuse reflectance as in the table of finishes.
  ...{ insideEmissivity: 0.8, outsideEmissivity: 0.8 },
  ...{ baseReflectance: 0.7, wallReflectance: 0.7, outsideReflectance: 0.7 },
  endCap_mm: 2,
  ...{ bar_mm: null, price_cents: null, price_cents_per_cap: null },
});

/** Aluminium U sections by their inside, as they are commonly drawn (common practice, no single source); measure the one you buy. */
export const profileCatalogue: readonly Entry[] = sizes.map(section);

const plastic = {
  thickness_mm: 1.5,
  conductivity_W_per_mK: 0.2,
  emissivity: 0.9,
  limit_degC: 70,
  ...{ bar_mm: null, price_cents: null },
} as const;

type Cover = Readonly<ProfileCoverData> & { readonly id: ProfileCoverKind; readonly name: string };

/** Covers as thin acrylic commonly is: light as of the sheets of the same look, the straight share of a frosted one a judgement. */
export const profileCoverCatalogue: readonly Cover[] = [
  { id: 'opal', name: 'opal cover', ...plastic, transmittance: 0.55, reflectance: 0.35, straight: 0 },
  { id: 'frosted', name: 'frosted cover', ...plastic, transmittance: 0.82, reflectance: 0.1, straight: 0.3 },
  { id: 'clear', name: 'clear cover', ...plastic, transmittance: 0.85, reflectance: 0.08, straight: 1 },
];

/** A joint between aluminium and timber, m2K/W: tape and foil; a dry joint like 0.05 mm of air; pressed or glued (judgement). */
export const contacts_m2K_per_W: Readonly<Record<ProfileChoice['fixing'], number>> = {
  tape: 5e-4,
  'screws or clips': 2e-3,
  'pressed or glued in': 1e-3,
};

type Finished = Pick<
  ProfileData,
  'insideEmissivity' | 'outsideEmissivity' | 'wallReflectance' | 'outsideReflectance'
>;

const allOver = (emissivity: number, reflectance: number): Finished => ({
  ...{ insideEmissivity: emissivity, outsideEmissivity: emissivity },
  ...{ wallReflectance: reflectance, outsideReflectance: reflectance },
});

/** What a finish makes of a drawn section: handbook emissivities, reflectances as in the table of finishes (memory). */
const finished: Readonly<Record<ProfileChoice['finish'], Partial<Finished>>> = {
  anodised: {},
  bare: allOver(0.1, 0.65),
  'painted white': allOver(0.9, 0.8),
  'painted black': allOver(0.9, 0.05),
};

/** A section of the list in a finish. */
export const inFinish = <Section extends object>(
  drawn: Section,
  finish: ProfileChoice['finish'],
): Section => ({
  ...drawn,
  ...finished[finish],
});

const given = (data: object): object =>
  Object.fromEntries(Object.entries(data).filter(([, value]) => value !== undefined));

type OwnCover = ProfileCoverData & {
  readonly id: string;
  readonly name: string;
  readonly look: ProfileCoverKind;
};

/** What is known of the cover a job chose: the own product it names, or the typical one of that look; what it says itself over that. */
function completeCover(
  cover: NonNullable<ProfileChoice['cover']>,
  ownCovers: readonly OwnCover[],
): NonNullable<ProfileProduct['cover']> {
  const own = ownCovers.find(({ id }) => id === cover.own);
  if (own) {
    const { id: _, name, look: kind, ...data } = own;
    return { kind, own: name, ...data, ...given(cover.data) };
  }
  const { id: kind, name: _, ...typical } = profileCoverCatalogue.find(({ id }) => id === cover.entry)!;
  return { kind, own: null, ...typical, ...given(cover.data) };
}

/** Everything known of a profile that a job chose, from the section it names. */
export function completeProfile<Section extends ProfileData>(
  drawn: Section,
  { cover, data, finish, fixing, contact_m2K_per_W }: ProfileChoice,
  ownCovers: readonly OwnCover[] = [],
): Section & ProfileProduct {
  return {
    ...inFinish(drawn, finish),
    ...given(data),
    cover: cover && completeCover(cover, ownCovers),
    ...{ finish, fixing },
    contact_m2K_per_W: contact_m2K_per_W ?? contacts_m2K_per_W[fixing],
    isLimitEntered: cover?.data.limit_degC !== undefined || ownCovers.some(({ id }) => id === cover?.own),
  };
}

/** A profile to begin from: opal, screwed on. */
export const newProfile = (entry: string): ProfileChoice => ({
  entry,
  data: {},
  cover: { entry: 'opal', own: null, data: {} },
  finish: 'anodised',
  fixing: 'screws or clips',
  contact_m2K_per_W: null,
});
