import type { Job } from '../job/job.ts';
import type { Judged } from '../sizing/size-job.ts';
import type { CablingChoice } from './choices.ts';
import type { Fall } from './fallen.ts';
import type { Figures } from './figures.ts';
import type { Driven, Laid, Lying, Standing } from './space.ts';
import type { SharedLoads, Trial } from './trial.ts';

/** A design that passes every check with care. */
export interface Passing {
  readonly id: string;
  readonly job: Job;
  readonly judged: Judged;
  readonly figures: Figures;
}

/** What sizing a design with its strip as cold as the room left: its figures, or what it fell by. */
export type Cold =
  | { readonly verdict: 'passes'; readonly figures: Figures }
  | Pick<Trial & { verdict: 'falls' }, 'verdict' | 'fall' | 'dropOverLimit' | 'driverCount'>;

/** What some cabling of a group came to, from which that of thinner or thicker follows. */
interface KnownCabling {
  readonly cabling: CablingChoice;
  readonly u: number;
  readonly driverCount: number;
  readonly fall: Fall | null;
  readonly dropOverLimit: number | null;
}

/** Strip, drivers, feeds and layout: what shares its ways of cable. Indices are those of the choices. */
export interface Group {
  readonly p: number;
  readonly d: number;
  readonly f: number;
  readonly l: number;
  readonly laid: Laid;
  readonly driven: Driven;
  readonly lying: Lying;
  readonly cabling: readonly CablingChoice[];
  readonly known: KnownCabling[];
  readonly shared: SharedLoads;
}

/** A cabling and a kind of protection of a group, by their indices. */
export interface Cabled {
  readonly group: Group;
  readonly c: number;
  readonly u: number;
}

/** Everything but the section, with the least it comes to. */
export interface Leaf extends Cabled {
  readonly least: Figures;
}

/** A strip with drivers that carry it. */
export interface DrivenPart {
  readonly p: number;
  readonly d: number;
  readonly laid: Laid;
  readonly driven: Driven;
  readonly least: Figures;
}

/** A whole design, sized with its strip as cold as the room. */
export interface Whole {
  readonly leaf: Leaf;
  readonly section: Standing;
}

/** A part of a design, from the strip alone to the whole, sized. */
export type Node =
  | { readonly kind: 'family'; readonly p: number }
  | { readonly kind: 'drivers'; readonly part: DrivenPart }
  | { readonly kind: 'group'; readonly group: Group; readonly least: Figures }
  | { readonly kind: 'leaf'; readonly leaf: Leaf }
  | { readonly kind: 'whole'; readonly whole: Whole }
  | { readonly kind: 'passing'; readonly passing: Passing };

/** Whether it is what a design fell by. */
export const isFall = (x: object): x is Fall => 'check' in x;

/** Where it stands among all choices, which decides between equals. */
export const orderOf = ({ group: { p, d, f, l }, c, u }: Cabled): number[] => [p, d, f, l, c, u];

/** Whether neither its branches nor its trunks have more copper. */
export const isNoThicker = (a: CablingChoice, b: CablingChoice): boolean =>
  a.area_mm2 <= b.area_mm2 && a.trunk_mm2 <= b.trunk_mm2;
