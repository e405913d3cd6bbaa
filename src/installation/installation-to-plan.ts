import type { Run } from '../answer/set-out.ts';
import type { DriverPlace, Job } from '../job/job.ts';
import type { Turn } from './across-panels.ts';
import type { Resistances } from './branches.ts';
import type { WayStart } from './cable-routes.ts';
import type { FuseFamilyName } from './fuse-families.ts';
import type { Housed } from './place-layout.ts';
import type { CableProduct, LaidCable } from './plan.ts';

/** A case with its outgoing terminals at one end of its length. */
export type Case = Omit<Housed, 'id' | 'follows'>;

/** A driver output to be wired, and the runs it carries in the order of the wall. */
export interface OutputToWire {
  readonly id: string;
  readonly driver: string;
  /** Index of its driver's model, and of its place. */
  readonly model: number;
  readonly place: number;
  readonly runs: readonly string[];
  /** How its cables are laid, and along which edge of the panel. */
  readonly layout: Job['cables']['layout'];
  readonly way: Job['cables']['way'];
}

/** Everything that decides how a wall is wired. */
export interface InstallationToPlan {
  readonly runs: readonly Run[];
  readonly outputs: readonly OutputToWire[];
  readonly panel: Job['panel'];
  readonly openings: Job['openings'];
  /** Corners of the wall, where cables take more than the unfolded wall is long. */
  readonly turns: readonly Turn[];
  readonly cables: Job['cables'];
  readonly places: readonly DriverPlace[];
  readonly cable: CableProduct;
  readonly trunk: CableProduct;
  /** Sizes a link may be made of, from thin to thick. */
  readonly linkSizes: readonly CableProduct[];
  /** Driver models: their cases, and what an output gives and takes. */
  readonly models: readonly (Case & { readonly current_A: number; readonly terminalConductors: number })[];
  /** Between every output and its cables; null for none. */
  readonly dimmer: Case | null;
  /** Current of each run at full, in the order of `runs`. */
  readonly run_A: readonly number[];
  /** Air in each place, and round a cable that lies beside a strip. */
  readonly place_degC: readonly number[];
  readonly slot_degC: number;
  readonly room_degC: number;
  readonly resistances: Resistances;
  readonly fuses: FuseFamilyName;
}

/** An output with its cables, laid from the hole in its place on. */
export interface Laid {
  readonly output: OutputToWire;
  readonly start: WayStart;
  readonly cables: readonly LaidCable[];
}
