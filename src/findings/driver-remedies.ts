import type { Driver } from '../answer/drivers.ts';
import type { Remedy } from '../answer/findings.ts';
import type { DriverData } from '../job/driver.ts';
import { driverCatalogue } from '../job/driver-catalogue.ts';
import type { DriverPlace } from '../job/driver-place.ts';
import { modelField, modelOf } from '../job/products.ts';
import { watts } from '../words.ts';
import { remedy, type Sized } from './context.ts';

/** Watts of a driver that may be used: derated as the one in the job is, less the reserve. */
function usable_W({ job, drivers }: Sized, rated_W: number): number {
  const derating = Math.min(1, ...drivers.drivers.map((driver) => driver.derating));
  return rated_W * derating * (1 - job.drivers.reserve);
}

/** Typical drivers of the job's voltage that carry so much, the smallest first. */
function typicalFor(sized: Sized, load_W: number): DriverData[] {
  return driverCatalogue
    .filter(({ output_V }) => output_V === sized.products.driver.output_V)
    .filter(({ rated_W }) => usable_W(sized, rated_W) >= load_W)
    .toSorted((a, b) => a.rated_W - b.rated_W);
}

/** What to do about an output with so many watts on it: a larger driver where the trade has one, or less strip. */
export function largerDriver(
  sized: Sized,
  than: Pick<Driver, 'model' | 'rated_W'>,
  load_W: number,
): Remedy[] {
  const larger = typicalFor(sized, load_W).find(({ rated_W }) => rated_W > than.rated_W);
  return [
    ...(larger
      ? [
          remedy(
            modelField(than, 'entry'),
            `Take a driver of ${watts(larger.rated_W)} or more, such as ${larger.name}.`,
          ),
        ]
      : []),
    remedy('strip.entry', 'Choose a strip with fewer watts per metre.'),
  ];
}

/** The smallest typical driver that carries what the fullest of the job carries, if it is smaller than the job's. */
export function smallerDriver(sized: Sized): DriverData | undefined {
  const fullest_W = Math.max(...sized.drivers.drivers.map((driver) => driver.watts));
  const [smallest] = typicalFor(sized, fullest_W);
  return smallest && smallest.rated_W < sized.products.driver.rated_W ? smallest : undefined;
}

export const fieldOfPlace = (index: number, key: string): string => `drivers.places[${index + 1}].${key}`;

/** Whether a corner lies in a place. */
const holds = (place: DriverPlace, { x_mm, y_mm }: Pick<Driver, 'x_mm' | 'y_mm'>): boolean =>
  x_mm >= place.x_mm &&
  x_mm <= place.x_mm + place.width_mm &&
  y_mm >= place.y_mm &&
  y_mm <= place.y_mm + place.height_mm;

/** Where in the job the place of a driver stands; places may bear one name, but then lie apart. */
export const placeIndex = ({ job }: Sized, driver: Driver): number =>
  job.drivers.places.findIndex((each) => each.name === driver.place && holds(each, driver));

/** The measure of a driver place that has to grow: its depth where no side of a case goes in, else its width. */
export function placeField(sized: Sized, index: number): string {
  const { job, products, drivers } = sized;
  const here = drivers.drivers.filter((driver) => placeIndex(sized, driver) === index);
  const sheets = here.length === 0 ? [products.driver] : here.map((driver) => modelOf(products, driver));
  const thinnest_mm = sheets.map(
    (sheet) => Math.min(sheet.length_mm, sheet.width_mm, sheet.height_mm) + sheet.clearance_mm,
  );
  const isShallow = job.drivers.places[index]!.depth_mm < Math.max(...thinnest_mm);
  return fieldOfPlace(index, isShallow ? 'depth_mm' : 'width_mm');
}

/** What cools the air round a driver, as far as it is not done yet. */
export function airRemedies(sized: Sized, driver: Driver): [Remedy, ...Remedy[]] {
  const { job } = sized;
  const index = placeIndex(sized, driver);
  const place = job.drivers.places[index]!;
  const vents = place.vented
    ? remedy(fieldOfPlace(index, 'ventOpening_mm2'), `Make the vents of ${place.name} larger.`)
    : remedy(fieldOfPlace(index, 'vented'), `Vent ${place.name} to the room, low and high.`);
  return [
    vents,
    remedy(fieldOfPlace(index, 'width_mm'), `Make ${place.name} larger, or move drivers out of it.`),
  ];
}
