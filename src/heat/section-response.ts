import { freezing_K } from '../constants.ts';
import { found, type Outcome } from '../outcome.ts';
import type { HeatIssue } from './issues.ts';
import { limitedTemperature_degC } from './limited-places.ts';
import type { LimitedPlace } from './limits.ts';
import type { Layer, Profile, SectionDescription, SectionLoads } from './section-description.ts';
import { type FieldRequest, type SectionField, solveFirstMesh } from './section-field.ts';

/**
 * What is read off a field: every limited place, the allowance for stratification (the warmer upper end) included; the
 * strip's peak without it, which is what a circuit feels along the slot; and that allowance itself.
 */
export type HeatReading = LimitedPlace | 'strip' | 'stratification';

/** How the rise of one reading over the room answers to watts and to what is not known. */
export interface Response {
  /** `p` and `q` of the rise at a share of the watts over the rise at all of them, `share^(p + q*ln(share))`. */
  readonly power: number;
  readonly bend: number;
  /**
   * Rise with no watts at all, where what is behind the wall is not as warm as the room; then all else here is of the
   * rise over it. None where it is left out.
   */
  readonly unlit_K?: number;
  /** Rise at the warm and at the cold end of all doubts, over the rise as described: 1 or more, 1 or less. */
  readonly warm: number;
  readonly cold: number;
}

export type Rises = Readonly<Record<HeatReading, number | null>>;
export type Responses = Readonly<Record<HeatReading, Response | null>>;

/** Kelvins over the room of every reading of a field; null where the place does not exist. */
export function risesOf(
  field: Pick<SectionField, 'temperatures' | 'stratification_K'>,
  room_K: number,
): Rises {
  const rise = (place: LimitedPlace): number | null => {
    const value_degC = limitedTemperature_degC(place, field);
    return value_degC === null ? null : value_degC - (room_K - freezing_K);
  };
  return {
    solderPoint: rise('solderPoint'),
    tape: rise('tape'),
    timber: rise('timber'),
    glueLine: rise('glueLine'),
    cable: rise('cable'),
    roomFace: rise('roomFace'),
    sheet: rise('sheet'),
    coverInside: rise('coverInside'),
    coverOutside: rise('coverOutside'),
    strip: field.temperatures.strip.peak.temperature_K - room_K,
    stratification: field.stratification_K,
  };
}

/** Correlations differ by 10 to 15 %; handbook emissivities by 0.05; tapes by a factor of two. */
const doubt = { convection: 0.15, emissivity: 0.05, contactRatio: 2 } as const;

/** Boards of one name differ by so much in conductivity, where their entry says no more. */
export const boardDoubt = 0.15;

/** Bare metal: emissivities below a half are left as they are. */
const shiny = 0.5;

/** No finish is blacker. */
const blackest = 0.98;

function facesAt(end: -1 | 1, section: SectionDescription): SectionDescription {
  const face = <T extends { readonly emissivity: number }>(one: T): T => {
    if (one.emissivity < shiny) return one;
    return {
      ...one,
      emissivity: Math.min(blackest, Math.max(shiny, one.emissivity + end * doubt.emissivity)),
    };
  };
  const at = (emissivity: number): number => face({ emissivity }).emissivity;
  const profileAt = (drawn: Profile): Profile => ({
    ...drawn,
    insideEmissivity: at(drawn.insideEmissivity),
    outsideEmissivity: at(drawn.outsideEmissivity),
    cover: drawn.cover && face(drawn.cover),
  });
  const { profile } = section.strip;
  return {
    ...section,
    front: face(section.front),
    backing: face(section.backing),
    batten: face(section.batten),
    sheet: section.sheet && face(section.sheet),
    strip: { ...face(section.strip), ...(profile && { profile: profileAt(profile) }) },
  };
}

function boardsAt(end: 'low' | 'high', section: SectionDescription): SectionDescription {
  const ratio = 1 + (end === 'low' ? -boardDoubt : boardDoubt);
  const board = (layer: Layer): Layer => ({
    ...layer,
    conductivity_W_per_mK: layer.conductivityRange?.[end] ?? layer.conductivity_W_per_mK * ratio,
  });
  const { front, backing, batten } = section;
  return {
    ...section,
    front: board(front),
    backing: board(backing),
    batten: { ...batten, conductivity_W_per_mK: batten.conductivity_W_per_mK * ratio },
  };
}

const ends = [-1, 1] as const;

/** The section with each doubt at both of its ends, the others as described. */
function doubted(section: SectionDescription): (readonly SectionDescription[])[] {
  const { strip, cavityAir } = section;
  const air = (end: number) => ({ ...cavityAir, factor: cavityAir.factor * (1 + end * doubt.convection) });
  const { profile } = strip;
  const loose = <T extends { readonly contact_m2K_per_W: number }>(one: T, end: number): T => ({
    ...one,
    contact_m2K_per_W: one.contact_m2K_per_W * doubt.contactRatio ** end,
  });
  const { carrier } = strip;
  const flat = (end: number) => {
    const contact_m2K_per_W = carrier?.contact_m2K_per_W;
    return carrier && contact_m2K_per_W !== undefined
      ? loose({ ...carrier, contact_m2K_per_W }, end)
      : carrier;
  };
  const stuck = (end: number) => ({
    ...{ ...loose(strip, end), carrier: flat(end) },
    ...(profile && { profile: loose(profile, end) }),
  });
  return [
    ends.map((end) => ({ ...section, cavityAir: air(end) })),
    ends.map((end) => facesAt(end, section)),
    ends.map((end) => ({ ...section, strip: stuck(end) })),
    [boardsAt('low', section), boardsAt('high', section)],
    ...wallsOf(section),
  ];
}

/** The wall behind at both ends of what it may be; nothing where it is known. */
function wallsOf(section: SectionDescription): (readonly SectionDescription[])[] {
  const { behind } = section;
  if (behind.kind === 'insulation' || behind.resistanceRange === undefined) return [];
  const { low, high } = behind.resistanceRange;
  return [
    [low, high].map((resistance) => ({
      ...section,
      behind: { ...behind, resistance_m2K_per_W: resistance },
    })),
  ];
}

/** Whether heat flows with no watts at all, since the air behind the wall is not as warm as the room. */
const isDriven = ({ behind, room_K }: SectionDescription): boolean =>
  behind.kind === 'room' && behind.air_K !== room_K;

/** Shares of the watts asked about at which the power is read off. */
const shares = { less: 0.3, more: 1.5 } as const;

/** What the doubts do together beyond the product of what each does alone: a few hundredths of it on random sections. */
const together = 1.05;

/** A rise of less says nothing about its changes. */
const least_K = 1e-6;

function scaled(loads: SectionLoads, share: number): SectionLoads {
  const absorbed = Object.entries(loads.facesAbsorbed_W_per_m ?? {}).map(([face, w]) => [face, w * share]);
  return {
    strip_W_per_m: loads.strip_W_per_m * share,
    facesAbsorbed_W_per_m: Object.fromEntries(absorbed),
  };
}

/** Rises of a section as described, at less and at more watts, and at both ends of every doubt; and with no watts, where there are any. */
interface Changed {
  readonly unlit: Rises | null;
  readonly plain: Rises;
  readonly less: Rises;
  readonly more: Rises;
  readonly doubts: readonly (readonly Rises[])[];
}

/** On the first mesh, which all of them share: their sizes are the same. */
function changes(
  section: SectionDescription,
  loads: SectionLoads,
  { lampRise_K }: FieldRequest,
): Outcome<Changed, HeatIssue> {
  const plainly = solveFirstMesh(section, loads, lampRise_K, null);
  if (!plainly.ok) return plainly;
  const doubts = doubted(section).flat();
  const driven = isDriven(section) ? [{ section, share: 0 }] : [];
  const asked = [
    ...driven,
    { section, share: shares.less },
    { section, share: shares.more },
    ...doubts.map((one) => ({ section: one, share: 1 })),
  ];
  const rises = [risesOf(plainly.value, section.room_K)];
  for (const { section: changed, share } of asked) {
    const one = solveFirstMesh(changed, scaled(loads, share), lampRise_K * share, plainly.value.level);
    if (!one.ok) return one;
    rises.push(risesOf(one.value, section.room_K));
  }
  const unlit = driven.length > 0 ? rises.splice(1, 1)[0]! : null;
  const [plain, less, more, ...ofDoubts] = rises;
  const pairs = Array.from({ length: ofDoubts.length / 2 }, (_, k) => ofDoubts.slice(2 * k, 2 * k + 2));
  return found({ unlit, plain: plain!, less: less!, more: more!, doubts: pairs });
}

/** `p` and `q` through the rises, over the plain one, at less and at more watts. */
function powerThrough(less: number, more: number): Pick<Response, 'power' | 'bend'> {
  const [x, y] = [Math.log(shares.less), Math.log(shares.more)];
  const [p, q] = [Math.log(less) / x, Math.log(more) / y];
  const bend = (q - p) / (y - x);
  return { power: p - bend * x, bend };
}

function responseOf(reading: HeatReading, { unlit, plain, less, more, doubts }: Changed): Response | null {
  const whole_K = plain[reading];
  if (whole_K === null) return null;
  const unlit_K = unlit?.[reading] ?? 0;
  const rise_K = whole_K - unlit_K;
  const without = unlit === null ? {} : { unlit_K };
  if (rise_K < least_K) return { power: 1, bend: 0, warm: 1, cold: 1, ...without };
  const ratio = (changed: Rises): number => Math.max((changed[reading] ?? 0) - unlit_K, least_K) / rise_K;
  const ratios = doubts.map((pair) => pair.map(ratio));
  return {
    ...powerThrough(ratio(less), ratio(more)),
    ...without,
    warm: ratios.reduce((product, pair) => product * Math.max(1, ...pair), 1) ** together,
    cold: ratios.reduce((product, pair) => product * Math.min(1, ...pair), 1) ** together,
  };
}

/**
 * Rise at a share of the watts over the rise at all of them; 0 at none. Below the least share read off, the power there
 * holds on, which is on the warm side: the fewer the watts, the nearer their power is to 1.
 * @param share 0 or more, trusted up to 3
 */
export function riseAt(share: number, { power, bend }: Response): number {
  if (share === 0) return 0;
  const x = Math.log(Math.max(share, shares.less));
  const below = Math.log(share) - x;
  return Math.exp((power + bend * x) * x + (power + 2 * bend * x) * below);
}

/** The power of the watts that a rise goes with near a share of them, `d ln(rise)/d ln(share)`. */
export const powerNear = (share: number, { power, bend }: Response): number =>
  power + 2 * bend * Math.log(Math.max(share, shares.less));

/** Shares of the watts that a response was taken at: as described, and at the end a band is asked for. */
export interface BandShares {
  readonly described: number;
  readonly end: number;
}

/** An answer without the confirming mesh is off by no more, of the rise and besides. */
const unconfirmed = { share: 0.01, by_K: 0.15 } as const;

/** What the confirming mesh may yet change of a rise, K. */
export const unconfirmed_K = (rise_K: number): number => unconfirmed.share * rise_K + unconfirmed.by_K;

/** A rise known at one share of the watts, at another one, K. */
export function riseAtShare_K(rise_K: number, response: Response, { described, end }: BandShares): number {
  const unlit_K = response.unlit_K ?? 0;
  const own = riseAt(described, response);
  return unlit_K + (rise_K - unlit_K) * (own === 0 ? 1 : riseAt(end, response) / own);
}

/** A rise at the warm or the cold end of its doubts and of its watts, K. */
export function riseAtEnd_K(
  end: 'warm' | 'cold',
  rise_K: number,
  response: Response,
  shares: BandShares,
): number {
  const unlit_K = response.unlit_K ?? 0;
  return unlit_K + (riseAtShare_K(rise_K, response, shares) - unlit_K) * response[end];
}

/**
 * How every rise of a section answers to its watts and to what is not known of it: convection of the gap by 15 %,
 * emissivity of timber, paint and plastic by 0.05, the contacts under strip, profile and flat by a factor of two, conductivity of the boards over the
 * range their entries leave open, and the resistance of a wall of layers behind. The doubts are taken one at a time and their ratios multiplied, to the power 1.05 for
 * what they do together.
 *
 * @param section, loads, request as for `solveSectionField`, with the same refusals
 * Does not cover what the model itself leaves out. Source: the doubts are those stated by the sources of the
 * correlations and handbooks. Check: the sixteen corners on fine meshes and the field at other watts,
 * `tests/heat/section-response.test.ts`.
 */
export function sectionResponse(
  section: SectionDescription,
  loads: SectionLoads,
  request: FieldRequest,
): Outcome<Responses, HeatIssue> {
  const changed = changes(section, loads, request);
  if (!changed.ok) return changed;
  const of = (reading: HeatReading): Response | null => responseOf(reading, changed.value);
  return found({
    solderPoint: of('solderPoint'),
    tape: of('tape'),
    timber: of('timber'),
    glueLine: of('glueLine'),
    cable: of('cable'),
    roomFace: of('roomFace'),
    sheet: of('sheet'),
    coverInside: of('coverInside'),
    coverOutside: of('coverOutside'),
    strip: of('strip'),
    stratification: of('stratification'),
  });
}
