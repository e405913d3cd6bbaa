import { connectedComponents } from '../numeric/connected-components.ts';
import { type CircuitDescription, conductorsOf, type Terminal } from './description.ts';

const nameOf = (terminal: Terminal): string =>
  'source' in terminal
    ? `source ${terminal.source}`
    : 'tap' in terminal
      ? `tap ${terminal.tap}`
      : `run ${terminal.run}`;

/**
 * The part of a circuit that hangs together with one run: its outputs, cables, taps and the other runs on them. What
 * hangs on other outputs has no say in it, so that its volts and amps are those of the whole.
 * @param run id of a run of the circuit
 * Check: `tests/circuit/together.test.ts`, against the whole solved.
 */
export function togetherWith(description: CircuitDescription, run: string): CircuitDescription {
  const { sources, taps, runs, cables } = description;
  const names = [
    ...sources.map(({ id }) => `source ${id}`),
    ...taps.map(({ id }) => `tap ${id}`),
    ...runs.map(({ id }) => `run ${id}`),
  ];
  const numberOf = new Map(names.map((name, i) => [name, i]));
  const at = (terminal: Terminal): number => numberOf.get(nameOf(terminal))!;
  const joined = cables.flatMap((cable) =>
    conductorsOf(cable).map(({ from, to }) => [at(from), at(to)] as const),
  );
  const component = connectedComponents(names.length, joined);
  const wanted = component[numberOf.get(`run ${run}`)!];
  const isIn = (name: string): boolean => component[numberOf.get(name)!] === wanted;
  return {
    sources: sources.filter(({ id }) => isIn(`source ${id}`)),
    taps: taps.filter(({ id }) => isIn(`tap ${id}`)),
    runs: runs.filter(({ id }) => isIn(`run ${id}`)),
    cables: cables.filter((cable) => isIn(nameOf(cable.positive.from))),
  };
}
