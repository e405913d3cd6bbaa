import { defineConfig } from 'vitest/config';
import { hang_ms } from '../hang.ts';

/** The tests of the engine that a folder's mutants are held against: no page is built and no browser started. */
export default defineConfig({
  test: {
    include: (process.env.SLOTWATT_MUTATION_TESTS ?? 'tests/numeric/*.test.ts').split(','),
    testTimeout: hang_ms,
    pool: 'forks',
    maxWorkers: 1,
  },
});
