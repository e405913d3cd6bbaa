import type { Cable } from '../answer/cables.ts';
import type { Working } from '../answer/workings.ts';
import { clausesOf } from '../clauses.ts';
import { stretchText } from '../words.ts';
import type { Sized } from './context.ts';
import { between, given, made, product, sum, workingOf } from './working.ts';

/** Air the tables of what a cable may carry are made for, degC. */
const table_degC = 30;

/** What a cable may carry where it lies worst: the table's value times its factors. */
export function capacityWorking(cable: Cable, most_A: number, { job, products }: Sized): Working | undefined {
  const { rating, area_mm2, capacity_A } = cable;
  const { air_degC, togetherCount } = cable.stretches[cable.worstStretch]!;
  const { limit_degC } = cable.kind === 'trunk' ? products.trunk : products.cable;
  if (rating.table_A === 0) return undefined;
  const clauses = clausesOf(job.site.rules).capacity;
  const lies = stretchText(cable.stretches[cable.worstStretch]!);
  return workingOf(
    [
      given(
        'I',
        most_A,
        'A',
        `most that ${cable.id} carries, should anything else be dead`,
        'solved in the network',
      ),
      given('I_30', rating.table_A, 'A', `what ${area_mm2} mm² may carry by itself in air of 30 °C`, clauses),
      given('T_max', limit_degC, '°C', 'what its insulation stands for ever', 'the data of the cable'),
      given(
        'T_air',
        air_degC,
        '°C',
        `air where it is hottest: ${lies}`,
        'heat of the section and of the places',
      ),
      given('T_30', table_degC, '°C', 'air the table is made for'),
      between('ΔT', 'K', 'warmth the insulation may still gain', sum(['T_max'], ['T_air'])),
      between('ΔT_30', 'K', 'the same in the air of the table', sum(['T_max'], ['T_30'])),
      between('q', 'ratio', 'the one over the other', product(['ΔT'], ['ΔT_30'])),
      given('half', 0.5, '', 'the square root, since heat goes with the square of the current'),
      made(
        'k_T',
        rating.ambientFactor,
        'ratio',
        'factor for warm air',
        { is: 'power', base: 'q', exponent: 'half' },
        'IEC 60364-5-52, the law behind table B.52.14',
      ),
      given(
        'k_G',
        rating.groupingFactor,
        'ratio',
        `factor for ${togetherCount} circuits side by side`,
        'IEC 60364-5-52, table B.52.17 (from memory)',
      ),
      given(
        'k_A',
        rating.sizeFactor,
        'ratio',
        'factor for a conductor thinner than the table has',
        'in proportion to the area',
      ),
      made('I_z', capacity_A, 'A', 'what it may carry there', product(['I_30', 'k_T', 'k_G', 'k_A'])),
    ],
    { result: 'I', limit: 'I_z', must: 'not exceed', turns: ['I', 'T_air', 'k_G'] },
  );
}

/** How much of a way its cables fill. */
export function wayRoomWorking(
  of: {
    readonly area_mm2: number;
    readonly filled: number;
    readonly most: number;
    readonly cableCount: number;
  },
  { job }: Sized,
): Working {
  return workingOf(
    [
      given(
        'A',
        of.area_mm2,
        'mm²',
        `cross-sections of ${of.cableCount} cables, sheath included`,
        'IEC 60502-1, annex A, for other numbers of cores (from memory)',
      ),
      given('w', job.cables.wayWidth_mm, 'mm', 'free across the way', 'the job'),
      given('c', job.section.cavity_mm, 'mm', 'depth of the cavity', 'the job'),
      made('s', of.filled, 'ratio', 'part of the way that is filled', product(['A'], ['w', 'c'])),
      given(
        's_max',
        of.most,
        'ratio',
        'the most it may be',
        'space factor of trunking, guidance to BS 7671 (from memory)',
      ),
    ],
    { result: 's', limit: 's_max', must: 'not exceed', turns: ['A', 'w', 'c'] },
  );
}
