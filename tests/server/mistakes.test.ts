import { expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { openPool } from '../../server/pool.ts';
import { hang_ms } from '../hang.ts';
import { someJob, temporaryFolder, testOptions } from './support.ts';

it('a mistake of the service is logged under the reference that its answer carries, which holds no stack', async () => {
  const { folder, remove } = await temporaryFolder();
  const lines: string[] = [];
  const logger = { level: 'warn', stream: { write: (line: string) => lines.push(line) } };
  // Threads that have no program: every calculation is a mistake of the service.
  const lane = { threadCount: 1, queueLimit: 1, timeLimit_ms: hang_ms, isLong: false };
  const none = () => openPool({ folder: new URL('./not-there/', import.meta.url), ending: '.js' }, lane);
  const openThreads = () => ({ quick: none(), slow: none(), heavy: none() });
  const app = await buildApp({ ...testOptions(folder), openThreads, logger });
  try {
    for (const accuracy of ['quick', 'careful']) {
      const url = `/api/sizing?accuracy=${accuracy}`;
      const answer = await app.inject({ method: 'POST', url, payload: someJob() });
      expect(answer.statusCode).toBe(500);
      const { reference, detail } = answer.json();
      expect(detail).toMatch(/not in your job.*reference/);
      expect(answer.body).not.toMatch(/node_modules|\.ts:|Error:/);
      const logged = lines.map((line) => JSON.parse(line)).filter(({ reqId }) => reqId === reference);
      expect(logged).toHaveLength(1);
      expect(logged[0].err.stack).toContain('not-there');
    }
  } finally {
    await app.close();
    await remove();
  }
});
