import type { Caution } from '../answer/cautions.ts';
import type { Condition } from '../answer/conditions.ts';
import { isOwnId } from '../job/own-product.ts';
import { modelOf } from '../job/products.ts';
import { counted, degrees, figures, naming, watts, wattsPerMetre } from '../words.ts';
import type { CautionContext } from './input.ts';

/** A caution, the clause or practice it rests on, and the rule that makes it appear (the reason, or null). */
export interface CautionRule {
  readonly id: string;
  readonly sentence: string;
  readonly basis: string;
  readonly applies: (context: CautionContext) => string | null;
}

const driverCount = ({ drivers }: CautionContext): number => drivers.drivers.length;

function mains(context: CautionContext): string | null {
  if (driverCount(context) === 0) return null;
  return `${counted(driverCount(context), 'driver')} on ${context.job.site.mains_V} V mains.`;
}

function separation(context: CautionContext): string | null {
  if (driverCount(context) === 0) return null;
  return `${context.products.driver.output_V} V circuits start at drivers that are on the mains.`;
}

function cableFuses({ cables, products, drivers }: CautionContext): string | null {
  if (cables.length === 0) return null;
  const without = cables.filter((cable) => cable.protectedBy === 'nothing').map((cable) => cable.id);
  if (without.length > 0) return `Nothing protects ${naming('cable', without)} yet.`;
  const held = cables.filter((cable) => cable.protectedBy === 'driver').length;
  const fused = cables.length - held;
  const most_A = Math.max(...drivers.drivers.map((driver) => modelOf(products, driver).current_A));
  const outputs = `on outputs that give up to ${figures(most_A)} A`;
  const parts = [
    ...(fused > 0 ? [`${fused} behind fuses`] : []),
    ...(held > 0 ? [`${held} held by the limit of the driver`] : []),
  ];
  return `${counted(cables.length, 'cable')}, ${outputs}: ${parts.join(', ')}.`;
}

function places(context: CautionContext): string | null {
  if (driverCount(context) === 0) return null;
  const closed = context.job.drivers.places.filter((place) => !place.vented).map((place) => place.name);
  const first = (name: string) => context.drivers.drivers.findIndex((driver) => driver.place === name);
  const used = context.drivers.places
    .filter((place) => place.driverCount > 0)
    .sort((a, b) => first(a.name) - first(b.name) || b.loss_W - a.loss_W);
  const warm = used.map(
    (place) => `${place.name}: ${watts(place.loss_W)} of heat, air at ${degrees(place.air_degC)}`,
  );
  const shut = used.some((place) => closed.includes(place.name)) ? ' Not every place is vented.' : '';
  return `${warm.join('; ')}.${shut}`;
}

/** Sheets that do not burn as timber does. */
const mineral: readonly string[] = ['plasterboard'];

/** Slots through which a hand gets to bare strip: not where a profile with a cover closes it off. */
function openSlots({ job, products: { profile } }: CautionContext): string | null {
  if (profile?.cover) return null;
  return job.section.cover === 'open' ? 'The slots of this job are open.' : null;
}

function timber({ job, heat }: CautionContext): string | null {
  const { backing, front } = job.section;
  const burnable = [backing.material, front.material].filter((material) => !mineral.includes(material));
  if (burnable.length === 0) return null;
  const materials = [...new Set(burnable)].join(' and ');
  const hottest = heat.temperatures.find((temperature) => temperature.id === 'timber');
  const put = heat.unknown === null ? `put at ${degrees(hottest?.value_degC ?? Number.NaN)}` : 'not known';
  const reached = hottest ? `, whose hottest place is ${put}` : '';
  return `The strip leaves ${wattsPerMetre(heat.heat_W_per_m)} of heat inside a build-up of ${materials}${reached}.`;
}

function sheets({ job }: CautionContext): string | null {
  const { strip, drivers, cables, dimming } = job;
  const chosen = {
    strip,
    driver: drivers,
    cable: cables,
    'trunk cable': cables.trunk,
    dimmer: dimming.control === 'dimmer' ? dimming.dimmer : null,
  };
  const typical = Object.entries(chosen).flatMap(([name, one]) =>
    one && !isOwnId(one.entry) && Object.keys(one.data).length === 0 ? [name] : [],
  );
  if (typical.length === 0)
    return 'Figures of this job were typed in from data sheets: check them against the products bought.';
  return `Typical catalogue values stand for: ${typical.join(', ')}.`;
}

function closing({ setOut }: CautionContext): string | null {
  const feedPoints = setOut.runs.reduce((sum, run) => sum + run.feedPoints.length, 0);
  if (feedPoints === 0) return null;
  const joints = setOut.jointCount > 0 ? [counted(setOut.jointCount, 'strip joint')] : [];
  const verb = feedPoints + setOut.jointCount === 1 ? 'ends' : 'end';
  return `${[counted(feedPoints, 'feed point'), ...joints].join(' and ')} ${verb} up behind the face.`;
}

function acrossGaps({ cables }: CautionContext): string | null {
  const across = cables.filter(({ panels }) => panels.length > 1).map(({ id }) => id);
  if (across.length === 0) return null;
  return `${naming('Cable', across)} ${across.length === 1 ? 'passes' : 'pass'} from panel to panel.`;
}

function dimmed({ job }: CautionContext): string | null {
  const { control, pwm_Hz, zones } = job.dimming;
  const dim = control !== 'none' || pwm_Hz !== null || zones.length > 0;
  return dim ? 'This job is dimmed or divided into zones.' : null;
}

/**
 * Every caution the papers may carry, in the order they are read on site. Clauses from secondary copies or memory:
 * the electrician's edition and local wiring rules go first.
 */
export const cautionRules: readonly CautionRule[] = [
  {
    id: 'mains-electrician',
    sentence:
      'Fixed wiring and everything on the mains side is for a licensed electrician under the local wiring rules; these papers are a design aid and replace neither.',
    basis: 'local wiring rules; IEC 60364-1 (from memory)',
    applies: mains,
  },
  {
    id: 'selv-separation',
    sentence:
      'Keep the extra-low-voltage cables apart from mains cables, in their own way or with insulation for the mains voltage, and connect no part of them to earth.',
    basis: 'IEC 60364-4-41, clause 414 (SELV); IEC 60364-7-715; BS 7671, section 715 (secondary)',
    applies: separation,
  },
  {
    id: 'driver-marks',
    sentence:
      'The strip side is SELV only where the driver is marked as such a source, and a driver on or in timber needs the marks for that: independent or built in as it is used, for normally flammable surfaces, with its tc point. These papers cannot see the marks; look for them on the driver bought.',
    basis:
      'IEC 61347-1 and IEC 61347-2-13; IEC 60364-4-41, clause 414 (secondary); IEC 60364-5-55, clause 559 (from memory)',
    applies: separation,
  },
  {
    id: 'furniture',
    sentence:
      'Where the piece counts as furniture, the wiring in it has rules of its own: the electrician says whether a residual-current device of 30 mA, a kind of cable or a plug is asked for.',
    basis: 'IEC 60364-7-713; BS 7671, section 713 (secondary)',
    applies: (context) =>
      driverCount(context) === 0 ? null : 'A lit panel may count as furniture or as part of the building.',
  },
  {
    id: 'us-rules',
    sentence:
      'Where the National Electrical Code applies, low-voltage lighting and Class 2 circuits have articles of their own: listed equipment, and limits on every output. Where the job names that code as its rules, these papers load an output to the watts of a Class 2 source at most; they check nothing else of it.',
    basis: 'NEC, Articles 411 and 725 (secondary)',
    applies: ({ job: { site } }) => {
      if (site.rules === 'NEC') return 'The job names that code as its rules.';
      return site.mains_V < 200 ? `The mains are ${site.mains_V} V, as where that code applies.` : null;
    },
  },
  {
    id: 'isolate-first',
    sentence:
      'Isolate the mains, lock it off and prove it dead before any work on drivers, cables or strip; take the strip off before insulation is measured.',
    basis: 'IEC 60364-5-53 (isolation); EN 50110-1 (working dead) (from memory)',
    applies: mains,
  },
  {
    id: 'fuse-each-cable',
    sentence:
      'Every cable that its driver could overload needs a fuse at its supply end, on a way of the block, in the plus, that protects the thinnest cable behind it. The driver may limit its current before the fuse opens, so that one does not replace the other. Where the driver cannot deliver more than a cable may carry, the electrician may leave its fuse out. Whether the kind of fuse is accepted in a building is for the electrician.',
    basis:
      'IEC 60364-4-43, clauses 433, 434 and 436; IEC 60364-7-715 (secondary); the standard of each kind of fuse stands in the protection schedule',
    applies: cableFuses,
  },
  {
    id: 'driver-access',
    sentence:
      'Drivers, fuses and connections stay within reach after the wall is closed, with the clearance their maker asks for and a way for their heat to leave.',
    basis: 'IEC 60364-7-715, clause 715.530.3 (secondary); driver maker’s data sheet',
    applies: places,
  },
  {
    id: 'heat-on-timber',
    sentence:
      'Strip and drivers lie on or near material that burns: keep to the temperatures on their data sheets, cover nothing with insulation, and feel for warmth after an hour at the brightest the dimmer allows.',
    basis:
      'IEC 60364-4-42, clause 422; IEC 60364-5-55, clause 559; IEC 60598-1, 4.16 (mounting surfaces) (from memory)',
    applies: timber,
  },
  {
    id: 'luminaire',
    sentence:
      'Strip is a module: with its mounting, cover and leads it becomes a luminaire, and whoever builds it in answers for that. Keep to the instructions of its maker, down to the radius it may be bent to.',
    basis: 'IEC 62031 (modules); IEC 60598-1 and the parts of IEC 60598-2 (luminaires) (from memory)',
    applies: closing,
  },
  {
    id: 'fire-rules',
    sentence:
      'Linings and cables have classes for how they burn, stricter on an escape route: ask for the classes before timber and cable are bought.',
    basis:
      'local building rules; EN 13501-1 for linings, EN 13501-6 and EN 50575 for cables; IEC 60364-4-42, clause 422.2 (from memory)',
    applies: timber,
  },
  {
    id: 'escape-route',
    sentence:
      'On an escape route the fire authority and the fire plan of the building decide what linings, cables, drivers and covers are allowed, whether the light may dim or go out there, and what must not narrow the way: ask before timber and cable are bought, and have the answer in writing.',
    basis:
      'local fire rules and the fire authority; EN 13501-1 for linings, EN 50575 for cables; IEC 60364-4-42, clause 422.2 (from memory)',
    applies: ({ job: { site } }) =>
      site.escapeRoute === 'yes' ? 'The job says that it stands on an escape route.' : null,
  },
  {
    id: 'open-slot',
    sentence:
      'An open slot lets keys, tools and the fingers of children reach the bare copper of the strip, where a short can burn: cover it, or keep the strip out of reach.',
    basis: 'common practice; IEC 60598-1, 8.2 (parts that can be touched) (from memory)',
    applies: openSlots,
  },
  {
    id: 'profile-short',
    sentence:
      'Aluminium conducts and its sawn ends are sharp: deburr them, lead every cable in through a bush, keep bare pads, solder and the cut end of the strip off the metal with insulation, and measure that no rail is joined to the profile before its run is energised.',
    basis: 'common practice; IEC 60598-1, section 8 and insulation tests (from memory)',
    applies: ({ products: { profile } }) =>
      profile ? `The strip lies in a profile: ${profile.name}.` : null,
  },
  {
    id: 'surfaces',
    sentence:
      'Stick strip to clean, sealed and cured faces only: fresh varnish, oil and glue loosen its tape and yellow covers, and daylight does the same in years. Where tape alone cannot be trusted, hold the strip by clips or a profile.',
    basis: 'common practice; data sheets of strip, tape and varnish',
    applies: closing,
  },
  {
    id: 'solder-and-transport',
    sentence:
      'A soldering iron burns skin and timber: solder on a board, away from the finished face. Relieve every lead of strain, so that no pull comes on a pad, and measure the loops again where panels have travelled.',
    basis: 'common practice',
    applies: closing,
  },
  {
    id: 'panel-gaps',
    sentence:
      'Where a cable goes from one panel to the next, lead it through a smooth hole or a bush in both edges, leave enough of it loose that the panels can be set and taken off again, and pull nothing tight round a corner.',
    basis: 'common practice; IEC 60364-5-52, clause 522.8 (mechanical stresses) (from memory)',
    applies: acrossGaps,
  },
  {
    id: 'dry-location',
    sentence:
      'This design is for a dry room indoors: where water, steam or washing down can reach it, strip, driver and connections need the IP rating that place asks for.',
    basis: 'IEC 60529; IEC 60364-7-701 for rooms with a bath or shower (from memory)',
    applies: ({ job: { site } }) =>
      ({
        none: 'The job says nothing of moisture, so a dry room is assumed.',
        dry: 'The job says that it stands in a dry place.',
        ...{ damp: null, wet: null },
      })[site.moisture ?? 'none'],
  },
  {
    id: 'wet-location',
    sentence:
      'Strip, drivers, dimmers, blocks, joints and every cut end need the protection against water that the place asks for, and in a room with a bath or shower the electrician says what may stand in which zone at all. Water behind the face has to find a way out.',
    basis: 'IEC 60529; IEC 60364-7-701 for rooms with a bath or shower (from memory)',
    applies: ({ job: { site } }) =>
      site.moisture === 'damp' || site.moisture === 'wet'
        ? `The job says that it stands in a ${site.moisture} place.`
        : null,
  },
  {
    id: 'dimming-match',
    sentence:
      'Dimmers, drivers and strip must be made for each other, and two outputs may be joined only where the driver maker allows it.',
    basis: 'driver and dimmer makers’ data sheets; IEC 60364-7-715 (parallel sources) (secondary)',
    applies: dimmed,
  },
  {
    id: 'makers-sheets-first',
    sentence:
      'Where a maker’s data sheet or instruction says otherwise than these papers, the maker’s sheet goes first: enter its figures and print again.',
    basis: 'IEC 60364-5-51, clause 510.3 (equipment used as its maker instructs) (from memory)',
    applies: sheets,
  },
  {
    id: 'test-before-closing',
    sentence:
      'Fill in the test sheet before the wall is closed: a joint or a terminal that reads wrong is minutes of work now and a wall taken down later.',
    basis: 'IEC 60364-6 (initial verification) (secondary); common practice',
    applies: closing,
  },
  {
    id: 'link-out',
    sentence:
      'A link that was set to measure a loop is a short once the mains come on: take it out and tick it off on the test sheet, row by row, before any output is switched on.',
    basis: 'IEC 60364-6 (continuity of conductors) (secondary); common practice',
    applies: closing,
  },
  {
    id: 'later-access',
    sentence:
      'Leave these papers with the owner, with where drivers and fuses are and how a length of strip is got out again: whoever drills or repaints the wall later has to know that cables lie behind it.',
    basis: 'common practice',
    applies: closing,
  },
];

const caution = ({ id, sentence }: Condition): Caution => ({
  id,
  sentence,
  basis: `the choice in the job to size for ${id === 'mixing-limit' ? 'the worst mix' : 'the working levels'}`,
  because: 'This job is sized for less than full.',
});

/** The cautions that apply to a job, each with the reason why it is there; what the job itself rests on comes first. */
export function cautionsFor(context: CautionContext): Caution[] {
  const general = cautionRules.flatMap(({ id, sentence, basis, applies }) => {
    const because = applies(context);
    return because === null ? [] : [{ id, sentence, basis, because }];
  });
  return [...context.conditions.map(caution), ...general];
}
