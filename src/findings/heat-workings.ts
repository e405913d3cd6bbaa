import type { HeatAnswer } from '../answer/heat.ts';
import type { Quantity, Working } from '../answer/workings.ts';
import type { Sized } from './context.ts';
import { between, given, made, product, sum, workingOf } from './working.ts';

type Temperature = HeatAnswer['temperatures'][number];

/**
 * A temperature by its warm end: the room, the rise the field gives at the watts of the strip, and what is not known. The
 * rise follows the watts by a power read off the field, so that what fewer watts would do is not flattered.
 */
export function temperatureWorking(item: Temperature, { heat, job }: Sized): Working | undefined {
  const { room_degC } = job.site;
  const rise_K = item.value_degC - room_degC;
  if (!(heat.strip_W_per_m > 0 && rise_K > 0) || item.limit_degC === null) return undefined;
  return workingOf(
    [
      given('T_room', room_degC, '°C', 'warmest room', 'the job'),
      given('P', heat.strip_W_per_m, 'W/m', 'strip at its worst place', 'solved in the network'),
      given(
        'p',
        item.power,
        '',
        'power of the watts the warmth goes with',
        'the field at fewer and at more watts',
      ),
      between('P_p', '', 'the watts to that power', { is: 'power', base: 'P', exponent: 'p' }),
      given(
        'a',
        rise_K / heat.strip_W_per_m ** item.power,
        'K',
        'warmth over the room at 1 W/m',
        `${heat.method}, the warmer upper end included`,
      ),
      between('ΔT', 'K', `warmth over the room: ${item.name}`, product(['a', 'P_p'])),
      given(
        'w',
        (item.high_degC - room_degC) / rise_K,
        '',
        'times as much at worst, by what is not known',
        'watts over the tolerances; gap, emissivity, contact and conductivity of the boards, each as far as its source leaves it open',
      ),
      between('ΔT_high', 'K', 'warmth at worst', product(['ΔT', 'w'])),
      made(
        'T_high',
        item.high_degC,
        '°C',
        'the warm end, which is what is judged',
        sum(['T_room', 'ΔT_high']),
      ),
      given('T_max', item.limit_degC, '°C', 'the limit', item.limits[0]!.basis),
    ],
    { result: 'T_high', limit: 'T_max', must: 'not exceed', turns: ['T_room', 'P'] },
  );
}

/** Thickness of every layer, and the tolerance, against what is there. */
export function depthWorking(worst_mm: number, { section, job }: Pick<Sized, 'section' | 'job'>): Working {
  const layers = section.layers.map(({ name, thickness_mm }, i): Quantity => {
    return given(`d_${i + 1}`, thickness_mm, 'mm', name, 'the job');
  });
  return workingOf(
    [
      ...layers,
      made('d', section.depth_mm, 'mm', 'the build-up', sum(layers.map(({ symbol }) => symbol))),
      given('t', job.section.tolerance_mm, 'mm', 'tolerance', 'the job'),
      made('d_most', worst_mm, 'mm', 'the build-up at its thickest', sum(['d', 't'])),
      given('d_there', section.available_mm, 'mm', 'depth there is', 'the job'),
    ],
    { result: 'd_most', limit: 'd_there', must: 'not exceed', turns: layers.map(({ symbol }) => symbol) },
  );
}

/** Heat that stays in a metre of the build-up, of the watts of its strip. */
export function heatLeftWorking({ heat }: Sized): Working | undefined {
  if (!(heat.strip_W_per_m > 0)) return undefined;
  return workingOf(
    [
      given('P', heat.strip_W_per_m, 'W/m', 'strip at its worst place', 'solved in the network'),
      given(
        's',
        heat.heat_W_per_m / heat.strip_W_per_m,
        'ratio',
        'part that does not leave as light',
        'lumens of the strip that leave the slot, at 315 lm a watt of white light',
      ),
      made('q', heat.heat_W_per_m, 'W/m', 'heat that stays', product(['P', 's'])),
    ],
    { result: 'q', limit: null, must: 'not exceed', turns: [] },
  );
}
