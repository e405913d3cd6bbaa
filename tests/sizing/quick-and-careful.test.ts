import { describe, expect, it } from 'vitest';
import { sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { jobs } from '../fuzz/jobs.ts';

/** `SLOTWATT_COMPARED=300` compares more. */
const count = Number(process.env.SLOTWATT_COMPARED ?? 24);
const atOnce = 6;
const seed = 7;

const parts = Array.from({ length: Math.ceil(count / atOnce) }, (_, part) => 1 + part * atOnce);

describe('a quick answer beside the careful one of the same random job', () => {
  it.each(parts)(
    'never reaches less far: no heat finding passes quick and fails careful, from job %i',
    (first) => {
      for (let number = first; number < first + atOnce; number++) {
        const job = jobs.make(seed, number);
        const [quick, careful] = [sizeJob(job), sizeJobCarefully(job)];
        expect(careful.ok, `job ${number}`).toBe(quick.ok);
        if (!quick.ok || !careful.ok) continue;
        for (const row of careful.value.heat.temperatures) {
          const was = quick.value.heat.temperatures.find(({ id }) => id === row.id)!;
          expect(row.high_degC, `job ${number}, ${row.id}`).toBeLessThanOrEqual(was.high_degC);
          expect(row.low_degC, `job ${number}, ${row.id}`).toBeGreaterThanOrEqual(was.low_degC);
        }
        const passed = new Set(
          quick.value.findings.filter(({ status }) => status === 'passes').map(({ id }) => id),
        );
        const worse = careful.value.findings.filter(
          ({ id, status }) => id.startsWith('heat-') && status === 'fails' && passed.has(id),
        );
        expect(worse, `job ${number}`).toEqual([]);
      }
    },
  );
});
