/**
 * Which tests the changes of each folder are held against: the folder's own first, then those that go through it.
 * Findings, readings and sizing are held against small walls worked out by hand, because the others size whole walls
 * with care, or hundreds of them.
 */
export const folders = {
  circuit: ['tests/circuit/*.test.ts', 'tests/reference.test.ts'],
  drivers: ['tests/drivers/*.test.ts', 'tests/reference.test.ts'],
  findings: ['tests/findings/small-wall/*.test.ts'],
  'hand-over': ['tests/hand-over/*.test.ts'],
  heat: ['tests/heat/*.test.ts', 'tests/reference.test.ts'],
  installation: ['tests/installation/*.test.ts', 'tests/reference.test.ts'],
  light: ['tests/light/*.test.ts', 'tests/reference.test.ts'],
  numeric: ['tests/numeric/*.test.ts'],
  readings: ['tests/readings/by-hand/*.test.ts', 'tests/readings/common-shifts.test.ts'],
  'set-out': ['tests/set-out/*.test.ts'],
  sizing: ['tests/sizing/small-wall/*.test.ts', 'tests/sizing/life-answer.test.ts'],
} as const satisfies Record<string, readonly string[]>;

/** Whether a folder's changes can be tried. */
export const isFolder = (name: string): name is keyof typeof folders => name in folders;
