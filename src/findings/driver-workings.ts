import type { Driver, DriverOutput, OnBreaker } from '../answer/drivers.ts';
import type { Quantity, Working } from '../answer/workings.ts';
import { modelOf } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import type { Sized } from './context.ts';
import { between, given, made, product, sum, workingOf } from './working.ts';

interface Loaded {
  readonly driver: Driver;
  readonly output: DriverOutput;
}

const sheet = 'the data sheet of the driver';

/** Share of its rated watts a driver may give in the air round it. */
function derated(driver: Driver, { products }: Sized): Quantity[] {
  const { fullLoadAmbient_degC, derating_per_K } = modelOf(products, driver);
  return [
    given('P_rated', driver.rated_W, 'W', 'rated watts', sheet),
    given(
      'T_air',
      driver.derated_degC,
      '°C',
      `air round ${driver.id} at what it delivers`,
      'heat balance of its place',
    ),
    given('T_full', fullLoadAmbient_degC, '°C', 'air it gives its rated watts in', sheet),
    given('none', 0, 'K', 'nothing below that'),
    between('ΔT', 'K', 'what the air is warmer', sum(['T_air'], ['T_full'])),
    between('ΔT_over', 'K', 'the same, where it is warmer', { is: 'greatest', of: ['ΔT', 'none'] }),
    given('d', derating_per_K, 'ratio', 'part of its watts lost for each kelvin', sheet),
    between('lost', 'ratio', 'part of its watts lost', product(['d', 'ΔT_over'])),
    given('one', 1, 'ratio', 'all of them'),
    made('k', driver.derating, 'ratio', 'part of its watts left', sum(['one'], ['lost'])),
  ];
}

/** Whether the straight line of the sheet decides what is left: above the highest air nothing is. */
const isOnLine = (driver: Driver, { products }: Sized): boolean =>
  driver.derating > 0 && driver.derated_degC <= modelOf(products, driver).highestAmbient_degC;

/** Watts of an output that neither heat and reserve nor the amps of its driver leave more of. */
function byDriver_W({ driver }: Loaded, { job, products }: Sized): number {
  const byHeat_W = driver.rated_W * driver.derating * (1 - job.drivers.reserve);
  return Math.min(byHeat_W, setVoltage_V(job, products) * modelOf(products, driver).current_A);
}

/** The ceiling of an output, where it is what decides: neither the watts nor the amps of its driver do. */
function ceiling(loaded: Loaded, sized: Sized): Quantity[] {
  const { output } = loaded;
  if (output.usable_W >= byDriver_W(loaded, sized) * (1 - 1e-9)) return [];
  const meaning = 'ceiling of one output: that of the job, of a Class 2 source, or of the dimmer behind it';
  return [
    given('P_cap', output.usable_W, 'W', meaning, 'the job, the rules it goes by, the sheet of the dimmer'),
  ];
}

/**
 * What of a driver's output its limits leave: the watts that are usable, its amps, a ceiling. None where drivers did not settle,
 * since their limits are then those of other air.
 */
export function loadWorking(loaded: Loaded, sized: Sized): Working | undefined {
  const { driver, output } = loaded;
  if (!isOnLine(driver, sized)) return undefined;
  if (output.usable_W > byDriver_W(loaded, sized) * (1 + 1e-9)) return undefined;
  const { job, products } = sized;
  const cap = ceiling(loaded, sized);
  const limits = ['P_use', 'P_I', ...cap.map(({ symbol }) => symbol)];
  const carries = `what output ${output.id} carries, losses in its cables included`;
  return workingOf(
    [
      given('P', output.watts, 'W', carries, 'solved in the network'),
      ...derated(driver, sized),
      given('r', job.drivers.reserve, 'ratio', 'reserve kept', 'the job (common practice)'),
      between('m', 'ratio', 'part left beside the reserve', sum(['one'], ['r'])),
      between('P_use', 'W', 'usable by heat and reserve', product(['P_rated', 'k', 'm'])),
      given('U_set', setVoltage_V(job, products), 'V', 'volts the driver is set to', 'the job'),
      given('I_max', modelOf(products, driver).current_A, 'A', 'the most amps it gives', sheet),
      between('P_I', 'W', 'watts at those amps', product(['U_set', 'I_max'])),
      ...cap,
      made('P_lim', output.usable_W, 'W', 'usable', { is: 'least', of: limits }),
    ],
    { result: 'P', limit: 'P_lim', must: 'not exceed', turns: ['P', 'r', 'P_rated'] },
  );
}

/** The worst combination of tolerances against derated watts without the reserve. */
export function worstLoadWorking(
  { driver, output }: Loaded,
  { most_W, limit_W }: { readonly most_W: number; readonly limit_W: number },
  sized: Sized,
): Working | undefined {
  if (!isOnLine(driver, sized)) return undefined;
  return workingOf(
    [
      given('P', output.watts, 'W', `what output ${output.id} carries as described`, 'solved in the network'),
      given('t', most_W - output.watts, 'W', 'what the tolerances add at worst', sized.circuit.tolerances),
      made('P_most', most_W, 'W', 'in the worst combination', sum(['P', 't'])),
      ...derated(driver, sized),
      made('P_lim', limit_W, 'W', 'rated, less what warm air takes', product(['P_rated', 'k'])),
    ],
    { result: 'P_most', limit: 'P_lim', must: 'not exceed', turns: ['P', 'P_rated'] },
  );
}

/** Air round a driver: the room, and what the heat of its place adds. */
export function airWorking(driver: Driver, limit_degC: number, { job, drivers }: Sized): Working | undefined {
  const place = drivers.places.find(({ name }) => name === driver.place);
  const { room_degC } = job.site;
  if (!place || !(place.loss_W > 0) || place.air_degC <= room_degC) return undefined;
  return workingOf(
    [
      given('T_room', room_degC, '°C', 'warmest room', 'the job'),
      given(
        'Q',
        place.loss_W,
        'W',
        `heat of what stands in ${place.name}, on average`,
        'watts from the mains less watts delivered',
      ),
      given(
        'R',
        (place.air_degC - room_degC) / place.loss_W,
        'K/W',
        'warmth of the air for each watt',
        'heat balance of the place: its boards, its vents, radiation',
      ),
      between('ΔT', 'K', 'what that adds', product(['Q', 'R'])),
      made('T_air', driver.ambient_degC, '°C', `air round ${driver.id}`, sum(['T_room', 'ΔT'])),
      given('T_max', limit_degC, '°C', 'highest air it may run in', sheet),
    ],
    { result: 'T_air', limit: 'T_max', must: 'not exceed', turns: ['T_room', 'Q', 'R'] },
  );
}

/** The case of a driver: the air, and the rise to its mark in proportion to the load. */
export function caseWorking(driver: Driver, { products }: Sized): Working {
  const { caseLimit_degC, fullLoadAmbient_degC } = modelOf(products, driver);
  return workingOf(
    [
      given(
        'T_air',
        driver.ambient_degC,
        '°C',
        `air round ${driver.id} on average`,
        'heat balance of its place',
      ),
      given('P', driver.average_W, 'W', 'watts it delivers on average', 'solved in the network'),
      given('P_rated', driver.rated_W, 'W', 'rated watts', sheet),
      between('q', 'ratio', 'its load', product(['P'], ['P_rated'])),
      given('t_c', caseLimit_degC, '°C', 'mark tc of the case', sheet),
      given('T_full', fullLoadAmbient_degC, '°C', 'air it gives its rated watts in', sheet),
      given('none', 0, 'K', 'nothing less'),
      between('ΔT_s', 'K', 'the one less the other', sum(['t_c'], ['T_full'])),
      between('ΔT_full', 'K', 'rise of the case at full load', { is: 'greatest', of: ['ΔT_s', 'none'] }),
      between('ΔT', 'K', 'rise at its load', product(['ΔT_full', 'q'])),
      made(
        'T_case',
        driver.case_degC,
        '°C',
        'its case',
        sum(['T_air', 'ΔT']),
        'meaning of ta and tc in IEC 61347-1 (secondary); in proportion is a choice',
      ),
    ],
    { result: 'T_case', limit: 't_c', must: 'not exceed', turns: ['T_air', 'P'] },
  );
}

/** How many drivers of one model a breaker may start together, by steady amps and by inrush; undefined of a printed number. */
export function breakerWorking(model: OnBreaker, { drivers, products }: Sized): Working | undefined {
  if (model.printed !== null) return undefined;
  const { rating_A, peak_A, name } = drivers.breaker;
  const whole = (symbol: string) => ({ is: 'whole', of: symbol }) as const;
  return workingOf(
    [
      given('n', drivers.drivers.length, '', 'drivers of the job'),
      given('I_n', rating_A, 'A', `rating of a ${name} breaker`, 'the job'),
      given(
        'k',
        0.8,
        'ratio',
        'part of it that lights burning for hours may use',
        'common practice: 0.8 to 1',
      ),
      between('I_use', 'A', 'amps they may use', product(['k', 'I_n'])),
      given('I', model.input_A, 'A', 'amps of one driver at full load', sheet),
      between('q', '', 'drivers by steady amps', product(['I_use'], ['I'])),
      made('n_I', model.bySteady!, '', 'whole drivers of that', whole('q')),
      given(
        'I_ride',
        peak_A,
        'A',
        'peak the breaker surely rides through',
        'IEC 60898-1, table 7 (secondary): lower edge of its instantaneous band × √2',
      ),
      given('I_pk', modelOf(products, model).inrush_A, 'A', 'inrush of one driver', sheet),
      between('p', '', 'drivers by inrush', product(['I_ride'], ['I_pk'])),
      made('n_pk', model.byInrush!, '', 'whole drivers of that', whole('p')),
      made('N', model.mostDrivers, '', 'drivers it may start together', { is: 'least', of: ['n_I', 'n_pk'] }),
    ],
    { result: 'n', limit: 'N', must: 'not exceed', turns: ['I_pk', 'I_n'] },
  );
}
