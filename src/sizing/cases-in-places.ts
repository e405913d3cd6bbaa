import type { DriversAnswer } from '../answer/drivers.ts';
import type { Allocation } from '../drivers/allocation.ts';
import { layOut, type PlaceLayout, type Side } from '../installation/place-layout.ts';
import type { DriverData } from '../job/driver.ts';
import type { DriverPlace, Job } from '../job/job.ts';
import { wayHeight_mm } from '../set-out/cable-ways.ts';

/** The side of a place from which it is nearest to the cable way, which its cables leave by. */
function towardsWay({ panel, cables }: Job, place: DriverPlace): Side {
  const middle_mm = place.x_mm + place.width_mm / 2;
  const up_mm = wayHeight_mm(panel.height_mm, cables) - (place.y_mm + place.height_mm / 2);
  const across_mm = Math.min(Math.max(middle_mm, 0), panel.width_mm) - middle_mm;
  if (Math.abs(across_mm) > Math.abs(up_mm)) return across_mm > 0 ? 'right' : 'left';
  return up_mm < 0 ? 'down' : 'up';
}

/** Where the drivers of an allocation stand, place by place, known before cables are laid to them. */
export function layoutsOf(job: Job, driver: DriverData, { drivers }: Allocation): PlaceLayout[] {
  return job.drivers.places.map((place, i) => {
    const housed = drivers.filter((each) => each.place === i).map(({ id }) => ({ ...driver, id }));
    return layOut(place, housed, towardsWay(job, place));
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
