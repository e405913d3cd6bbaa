import type { CircuitRun } from '../answer/circuit.ts';
import type { Quantity, Working } from '../answer/workings.ts';
import { setVoltage_V } from '../job/resolve.ts';
import type { Sized } from './context.ts';
import { between, given, made, product, sum, workingOf } from './working.ts';

const solved =
  'solved in the network of cables and strip: every unit with what it draws at the volts it gets';

/** What tolerances add to a figure as described; nothing in a quick answer. */
function withTolerances(
  run: CircuitRun,
  figure: 'drop' | 'fall',
  { circuit }: Sized,
  symbol: string,
): Quantity[] {
  if (!run.band) return [];
  const most = run.band[figure].greatest;
  const meaning = 'the same in the worst combination of tolerances';
  return [
    given(`t_${symbol}`, most - run[figure], 'ratio', 'what the tolerances add at worst', circuit.tolerances),
    made(`${symbol}_most`, most, 'ratio', meaning, sum([symbol, `t_${symbol}`])),
  ];
}

/** Volts on the way to the feed point with most of them, and from there along the strip; where both conductors land there. */
function wayAndStrip(run: CircuitRun, { setOut }: Sized): Quantity[] {
  const points = setOut.runs.find(({ id }) => id === run.run)!.feedPoints;
  const pairs = run.feed_A.filter(
    ({ feedPoint }) => points.find(({ id }) => id === feedPoint)?.conductors === 'both',
  );
  if (pairs.length === 0) return [];
  const best = pairs.reduce((a, b) => (b.terminal_V > a.terminal_V ? b : a));
  return [
    given('U_pad', best.terminal_V, 'V', `volts at feed point ${best.feedPoint}`, solved),
    between(
      'ΔU_way',
      'V',
      'lost before the strip: in cables, contacts and dimmer',
      sum(['U_set'], ['U_pad']),
    ),
    between('ΔU_strip', 'V', 'lost along the copper of the strip', sum(['U_pad'], ['U_far'])),
  ];
}

/** Drop from the driver to the furthest unit, over the nominal volts of the strip. */
export function dropWorking(run: CircuitRun, sized: Sized): Working {
  const { job, products } = sized;
  const parts = wayAndStrip(run, sized);
  const ways = parts.length > 0 ? sum(['ΔU_way', 'ΔU_strip']) : sum(['U_set'], ['U_far']);
  const more = withTolerances(run, 'drop', sized, 'u');
  return workingOf(
    [
      given('U_set', setVoltage_V(job, products), 'V', 'volts the drivers are set to', 'the job'),
      given(
        'U_far',
        run.lowest_V,
        'V',
        `volts at unit ${run.lowestUnit + 1} of slot ${run.run}, the furthest`,
        solved,
      ),
      given('U_n', products.strip.nominal_V, 'V', 'volts the strip is made for', 'its data sheet'),
      ...parts,
      made('ΔU', run.drop_V, 'V', 'lost from the driver to the furthest LED', ways),
      made(
        'u',
        run.drop,
        'ratio',
        'the same as a part of the volts the strip is made for',
        product(['ΔU'], ['U_n']),
      ),
      ...more,
      given('u_max', job.site.dropLimit, 'ratio', 'the most it may be', 'the job; IEC 60364-7-715: 5 %'),
    ],
    {
      ...{ result: more.length > 0 ? 'u_most' : 'u', limit: 'u_max', must: 'not exceed' },
      turns: parts.length > 0 ? ['ΔU_way', 'ΔU_strip'] : ['ΔU'],
    },
  );
}

/** How much less light the dimmest unit of a run gives than its brightest. */
export function fallWorking(run: CircuitRun, sized: Sized): Working | undefined {
  const [least, most] = [Math.min(...run.unit_light), Math.max(...run.unit_light)];
  if (!(most > 0)) return undefined;
  const law = 'light of a unit at the volts it gets, over that at nominal volts';
  const more = withTolerances(run, 'fall', sized, 'f');
  return workingOf(
    [
      given('φ_min', least, 'ratio', 'light of the dimmest unit', law),
      given('φ_max', most, 'ratio', 'light of the brightest unit', law),
      between('q', 'ratio', 'the one as a part of the other', product(['φ_min'], ['φ_max'])),
      given('one', 1, 'ratio', 'all of it'),
      made('f', run.fall, 'ratio', 'brightness drop-off', sum(['one'], ['q'])),
      ...more,
      given('f_max', sized.job.site.fallLimit, 'ratio', 'the most it may be', 'the job'),
    ],
    {
      ...{ result: more.length > 0 ? 'f_most' : 'f', limit: 'f_max', must: 'not exceed' },
      turns: ['φ_min'],
    },
  );
}

/** Volts a strip is made to work at, as a part of its nominal volts, and those of the unit that has least or most. */
export function moduleVoltsWorking(
  of: { readonly ratio: number; readonly volts_V: number; readonly meaning: string },
  must: Working['must'],
  { products }: Sized,
): Working {
  const { nominal_V } = products.strip;
  return workingOf(
    [
      given('U', of.volts_V, 'V', of.meaning, solved),
      given('U_n', nominal_V, 'V', 'volts the strip is made for', 'its data sheet'),
      given('k', of.ratio, 'ratio', 'part of them it is expected to work at', 'IEC 62717 (secondary)'),
      between('U_lim', 'V', 'volts that come to', product(['k', 'U_n'])),
    ],
    { result: 'U', limit: 'U_lim', must, turns: [] },
  );
}
