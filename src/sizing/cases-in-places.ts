import type { DriversAnswer } from '../answer/drivers.ts';
import type { Allocation } from '../drivers/allocation.ts';
import { layOut, type PlaceLayout } from '../installation/place-layout.ts';
import type { DriverData } from '../job/driver.ts';
import type { Job } from '../job/job.ts';

/** Where the drivers of an allocation stand, place by place, known before cables are laid to them. */
export function layoutsOf(job: Job, driver: DriverData, { drivers }: Allocation): PlaceLayout[] {
  return job.drivers.places.map((place, i) => {
    const housed = drivers.filter((each) => each.place === i).map(({ id }) => ({ ...driver, id }));
    return layOut(place, housed, place.terminalsFace);
  });
}

/** A layout as the answer has it. */
export function casesOf({
  standing,
  without,
  note,
}: PlaceLayout): Pick<DriversAnswer['places'][number], 'cases' | 'without' | 'fitNote'> {
  const cases = standing.map(({ id, out, in: _, ...at }) => ({
    driver: id,
    ...at,
    out_x_mm: out.x_mm,
    out_y_mm: out.y_mm,
  }));
  return { cases, without: [...without], fitNote: note };
}
