import type { Schedule } from '../answer/schedules.ts';
import { modelOf } from '../job/products.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { listed, type OutputOfDriver, onPanel, outputsOf, zonesOfRuns } from './wiring.ts';

/** The breaker a driver hangs on, as the protection schedule names it; a box to write in where none holds it. */
const breakerOf = (driver: string, { drivers: { breaker } }: HandOverInput): string | null =>
  breaker.loads.find(({ drivers }) => drivers.includes(driver))?.id ?? null;

/** Driver schedule: one row for each output in use. Positions are from the panel's lower left corner; none in a remote place. */
export function driversSchedule(input: HandOverInput): Schedule {
  const { note } = input.job.site;
  const set_V = input.set_V;
  const runIds = input.setOut.runs.map((run) => run.id);
  return tabulate<OutputOfDriver>(
    {
      id: 'drivers',
      title: 'Driver schedule',
      notes: [
        ...(note === '' ? [] : [`Note of the maker: ${note}`]),
        ...input.conditions.map(({ sentence }) => sentence),
        input.drivers.method,
      ],
    },
    [
      words('output', 'Output', ({ output }) => output.id),
      words('driver', 'Driver', ({ driver }) => driver.id),
      words('type', 'Type', ({ driver }) => driver.name),
      words('place', 'Place', ({ driver }) => driver.place),
      figures(
        { key: 'x', label: 'From left', unit: 'mm', digits: 0 },
        ({ driver }) => onPanel(driver, input).x_mm,
      ),
      figures(
        { key: 'y', label: 'From bottom', unit: 'mm', digits: 0 },
        ({ driver }) => onPanel(driver, input).y_mm,
      ),
      words('runs', 'Serves runs', ({ output }) => listed(output.runs, runIds)),
      words('zone', 'Zone', ({ output }) => zonesOfRuns(output.runs, input)),
      figures({ key: 'set', label: 'Set to', unit: 'V', digits: 1 }, () => set_V),
      figures({ key: 'current', label: 'Current', unit: 'A', digits: 2 }, ({ output }) => output.current_A),
      figures(
        { key: 'currentLimit', label: 'Current limit', unit: 'A', digits: 2 },
        ({ driver }) => modelOf(input.products, driver).current_A,
      ),
      figures({ key: 'load', label: 'Load', unit: 'W', digits: 1 }, ({ output }) => output.watts),
      figures({ key: 'usable', label: 'Usable', unit: 'W', digits: 1 }, ({ output }) => output.usable_W),
      figures({ key: 'rated', label: 'Rated', unit: 'W', digits: 0 }, ({ driver }) => driver.rated_W),
      figures({ key: 'derating', label: 'Derating', unit: '', digits: 2 }, ({ driver }) => driver.derating),
      figures({ key: 'air', label: 'Air', unit: '°C', digits: 0 }, ({ driver }) => driver.ambient_degC),
      figures({ key: 'case', label: 'Case', unit: '°C', digits: 0 }, ({ driver }) => driver.case_degC),
      figures(
        { key: 'caseLimit', label: 'Case limit tc', unit: '°C', digits: 0 },
        ({ driver }) => modelOf(input.products, driver).caseLimit_degC,
      ),
      figures({ key: 'input', label: 'Driver mains', unit: 'W', digits: 1 }, ({ driver }) => driver.input_W),
      figures({ key: 'inputA', label: 'Driver mains', unit: 'A', digits: 2 }, ({ driver }) => driver.input_A),
      words('breaker', 'Breaker', ({ driver }) => breakerOf(driver.id, input)),
    ],
    outputsOf(input),
  );
}
