import { configDefaults, defineConfig } from 'vitest/config';
import { hang_ms } from './tests/hang.ts';

/** Tests that need page and service as they are built. */
const overService = [
  'tests/{server,web}/**/*.test.ts',
  'tests/papers/{characters,routes}.test.ts',
  'tests/fuzz/http.test.ts',
];

export default defineConfig({
  test: {
    // A wait that hangs fails first, and says what for.
    testTimeout: 3 * hang_ms,
    hookTimeout: 3 * hang_ms,
    teardownTimeout: hang_ms,
    expect: { poll: { timeout: hang_ms } },
    pool: 'forks',
    maxWorkers: 2,
    // Nothing in the files minds sharing a process and what it has loaded; what they put into a process they take back.
    isolate: false,
    projects: [
      {
        extends: true,
        test: {
          name: 'engine',
          include: ['tests/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...overService],
        },
      },
      {
        extends: true,
        test: { name: 'service', include: overService, globalSetup: ['tests/web/setup.ts'] },
      },
    ],
  },
});
