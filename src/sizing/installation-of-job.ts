import { turnsOf } from '../installation/across-panels.ts';
import type { InstallationToPlan, OutputToWire } from '../installation/installation-to-plan.ts';
import { thickerThan } from '../job/cable-catalogue.ts';
import { cornersOfWall } from '../job/panels.ts';
import { driverModels, type Products } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { riseOf } from './heat-law.ts';
import { nominal_W_per_m } from './light-of-job.ts';
import type { Prepared } from './prepared.ts';

/** Air round a cable beside the strip at the nominal watts of the strip, degC. */
function besideStrip_degC({ law, others = [], products }: Prepared): number {
  const nominal = nominal_W_per_m(products.strip);
  const rises_K = [law, ...others.map((each) => each.law)].map((each) => riseOf(each, 'cable', nominal) ?? 0);
  return law.room_degC + Math.max(...rises_K);
}

/** Sizes of the same system of measures as the job's cable, from its own to the thickest. */
const linkSizes = ({ products }: Prepared) => [products.cable, ...thickerThan(products.cable)];

/** The dimmer between outputs and cables; null where the light is dimmed otherwise or not at all. */
export const dimmerOf = ({ job, products }: Pick<Prepared, 'job' | 'products'>): Products['dimmer'] =>
  job.dimming.control === 'dimmer' ? products.dimmer : null;

/** What a job says of its wiring, with loads and warmth as far as they are known: the plan is made for these. */
export function installationOfJob(
  prepared: Prepared,
  outputs: readonly OutputToWire[],
  foreseen: { readonly watts: readonly number[]; readonly air_degC: readonly number[] },
): InstallationToPlan {
  const { job, products, setOut } = prepared;
  const set_V = setVoltage_V(job, products);
  return {
    runs: setOut.runs,
    outputs,
    panel: job.panel,
    openings: job.openings,
    turns: turnsOf(cornersOfWall(job), job.section.available_mm),
    cables: job.cables,
    places: job.drivers.places,
    cable: products.cable,
    trunk: products.trunk,
    linkSizes: linkSizes(prepared),
    models: driverModels(products),
    run_A: foreseen.watts.map((watts) => watts / set_V),
    place_degC: foreseen.air_degC,
    slot_degC: besideStrip_degC(prepared),
    room_degC: job.site.room_degC,
    dimmer: dimmerOf(prepared),
    fuses: job.cables.fuses,
    resistances: {
      connector_ohm: job.feeds.terminal_mohm / 1000,
      dimmer_ohm: (dimmerOf(prepared)?.resistance_mohm ?? 0) / 1000,
    },
  };
}
