import { existsSync } from 'node:fs';
import { basename } from 'node:path';

/**
 * Which tests the changes of each folder are held against: the folder's own first, then those that go through it.
 * Findings, readings and sizing are held against small walls worked out by hand, because the others size whole walls
 * with care, or hundreds of them.
 */
const folders = {
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

export type Folder = keyof typeof folders;

/** Whether a folder's changes can be tried. */
export const isFolder = (name: string): name is Folder => name in folders;

const smallWall = (name: string): string => `tests/sizing/small-wall/${name}.test.ts`;

/** What holds a file beside the test of its own name. */
const alsoHeldBy: Readonly<Record<string, readonly string[]>> = {
  'circuit/ladder-condensation.ts': ['tests/circuit/circuit.test.ts'],
  'circuit/rules.ts': ['tests/circuit/circuit.test.ts'],
  'circuit/solve-circuit.ts': ['tests/circuit/circuit.test.ts'],
  'drivers/share-bounds.ts': ['tests/drivers/share-search.test.ts', 'tests/drivers/share-least.test.ts'],
  'drivers/share-cable.ts': ['tests/drivers/share-out.test.ts'],
  'drivers/share-choice.ts': ['tests/drivers/share-out.test.ts'],
  'drivers/share-filling.ts': ['tests/drivers/share-search.test.ts'],
  'drivers/scattered.ts': ['tests/drivers/share-out.test.ts'],
  'installation/counting.ts': [smallWall('cable-answer'), 'tests/installation/plan-installation.test.ts'],
  'installation/housing.ts': [
    smallWall('installation-answer'),
    smallWall('dimmers'),
    smallWall('cable-answer'),
    'tests/installation/plan-installation.test.ts',
  ],
  'installation/installation-to-plan.ts': ['tests/installation/plan-installation.test.ts'],
  'set-out/longest-offcut.ts': ['tests/set-out/reels.test.ts'],
  'set-out/neighbour-light.ts': ['tests/set-out/neighbours.test.ts'],
  'set-out/pitch.ts': ['tests/set-out/neighbours.test.ts'],
  'set-out/set-out.ts': ['tests/set-out/too-many-units.test.ts'],
  'set-out/reel-choice.ts': ['tests/set-out/reels.test.ts'],
  'sizing/channels.ts': [smallWall('dimming-of-job'), smallWall('mixing-limit')],
  'sizing/circuit-answer.ts': [smallWall('dimmers')],
  'sizing/circuit-of-job.ts': [smallWall('dimmers'), smallWall('cable-answer')],
  'sizing/conditions-of-job.ts': [smallWall('dimmed-papers'), smallWall('mixing-limit')],
  'sizing/dimmer-answer.ts': [smallWall('dimmers')],
  'sizing/dimming-of-job.ts': [smallWall('mixing-limit'), smallWall('dimmers')],
  'sizing/drivers-of-job.ts': [smallWall('dimmers')],
  'sizing/far-loops.ts': [smallWall('cable-answer'), smallWall('dimmers')],
  'sizing/heat-unknown.ts': [smallWall('heat-answer'), smallWall('sized-wall')],
  'sizing/installation-answer.ts': [smallWall('dimmers')],
  'sizing/installation-of-job.ts': [smallWall('installation-answer'), smallWall('circuit-of-job')],
  'sizing/job-fields.ts': [smallWall('issues-and-notes')],
  'sizing/light-finishes.ts': [smallWall('light-answer')],
  'sizing/notes.ts': [smallWall('issues-and-notes')],
  'sizing/prepare.ts': [smallWall('sized-wall')],
  'sizing/settle.ts': [smallWall('dimmers')],
  'sizing/size-job.ts': [smallWall('sized-wall')],
  'sizing/strip-temperature.ts': [smallWall('settle')],
  'sizing/watts-band.ts': [smallWall('tolerance-answer')],
};

function ownTestsOf(folder: Folder, file: string): string[] {
  const name = `/${basename(file, '.ts')}.test.ts`;
  const named = folders[folder].map((tests) => tests.replace('/*.test.ts', name));
  return [
    ...named.filter((test) => test.endsWith(name) && existsSync(test)),
    ...(alsoHeldBy[`${folder}/${file}`] ?? []),
  ];
}

/** What files of a folder are tried against: the tests of their own, or the folder's where one of them has none. */
export function testsOf(folder: Folder, files: readonly string[]): readonly string[] {
  const own = files.map((file) => ownTestsOf(folder, file));
  return own.every((tests) => tests.length > 0) ? [...new Set(own.flat())] : folders[folder];
}
