import { type IngressCode, waterNumeral } from '../job/ingress.ts';
import { driverModels } from '../job/products.ts';
import { listing } from '../words.ts';
import { type Check, remedy, type Sized } from './context.ts';

/** Second numerals that places commonly ask for: water that splashes, and water in jets. */
const leastWater = { damp: 4, wet: 5 } as const;

const clauses = {
  damp: 'IEC 60529; IEC 60364-7-701, zones 1 and 2 of a bathroom: IPX4 (from memory)',
  wet: 'IEC 60529, second numeral 5: jets of water; common practice for places that are hosed down (from memory)',
} as const;

interface Part {
  readonly what: string;
  readonly name: string;
  readonly code: IngressCode | null | undefined;
  readonly field: string;
}

/** Drivers that stand elsewhere are in their own place, whose moisture the job does not say. */
function partsOf({ products, job }: Sized): Part[] {
  const { strip, dimmer } = products;
  const isHere = job.drivers.places.some(({ kind }) => kind === 'box');
  const drivers = driverModels(products).map(({ name, ip }, i): Part => {
    const field = i === 0 ? 'drivers.data.ip' : `drivers.also[${i}].data.ip`;
    return { what: 'driver', name, code: ip, field };
  });
  const dimmers = dimmer
    ? [{ what: 'dimmer', name: dimmer.name, code: dimmer.ip, field: 'dimming.dimmer' }]
    : [];
  return [
    { what: 'strip', name: strip.name, code: strip.ip, field: 'strip.data.ip' },
    ...(isHere ? [...drivers, ...dimmers] : []),
  ];
}

const cutStrip =
  'A strip keeps its rating only where nobody has cut or soldered it: every cut end, joint and terminal has to be sealed as its maker says.';

/**
 * What a damp or wet place asks of strip, drivers and dimmer: a rating below what such places commonly ask for fails, and none
 * ever passes, since cut ends, terminals and the place itself are for the electrician to judge.
 *
 * @returns nothing for a dry place, and for one the job says nothing of. Source: IEC 60529 for the numerals, IEC 60364-7-701 for
 * rooms with a bath (both from memory). Check: `tests/findings/site-findings.test.ts`.
 */
export function siteFindings(sized: Sized): Check[] {
  const { moisture } = sized.job.site;
  if (moisture === null || moisture === 'dry') return [];
  const least = leastWater[moisture];
  const parts = partsOf(sized);
  const short = parts.filter(({ code }) => code && waterNumeral(code) < least);
  const unknown = parts.filter(({ code }) => !code);
  const named = (some: readonly Part[]): string =>
    listing(some.map(({ what, name, code }) => `the ${what} ${name}${code ? ` (${code})` : ''}`));
  const verdict = [
    short.length > 0 ? `A ${moisture} place commonly asks for IPX${least}, and less is ${named(short)}.` : '',
    unknown.length > 0 ? `The rating of ${named(unknown)} is not given.` : '',
    short.length + unknown.length === 0
      ? `Every rating given is IPX${least} or more, as ${moisture} places commonly ask.`
      : '',
  ].filter((text) => text !== '');
  const first = short[0] ?? unknown[0];
  return [
    {
      id: 'site-moisture',
      question: 'drivers',
      status: short.length > 0 ? 'fails' : 'watch',
      place: { field: first?.field ?? 'site.moisture' },
      title: `Protection against water in a ${moisture} place`,
      ...{ value: null, limit: null, margin: null, unit: '' },
      basis: clauses[moisture],
      sentence: `${verdict.join(' ')} ${cutStrip} What the place asks for is for the electrician to say.`,
      remedies: [
        ...short.map(({ what, field }) =>
          remedy(field.replace(/data\.ip$/, 'entry'), `Take a ${what} of IPX${least} or more.`),
        ),
        ...unknown.map(({ what, field }) =>
          remedy(field, `Look up the IP rating of the ${what} and enter it.`),
        ),
        remedy('drivers.places', 'Put the drivers where it is dry, such as a remote place.'),
      ].slice(0, 4),
    },
  ];
}
