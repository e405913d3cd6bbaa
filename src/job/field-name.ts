/** The way to a value in the job document: keys of objects, indices of lists counted from 0. */
export type Path = readonly (string | number)[];

/** The name by which people and issues call the place: `drivers.places[1].width_mm`, lists counted from 1. */
export function fieldName(path: Path): string {
  return path
    .map((step, i) => (typeof step === 'number' ? `[${step + 1}]` : i === 0 ? step : `.${step}`))
    .join('');
}
