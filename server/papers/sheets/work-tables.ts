import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { figure } from '../shown.ts';
import type { Table, TableColumn } from './table.ts';

const words = (label: string, write_mm = 0): TableColumn => ({
  ...{ label, unit: '', align: 'left', write_mm, group: '' },
});

const unmarked: ReadonlySet<number> = new Set();

/** A step of the work; what only some walls have is left out of others. */
interface Step {
  readonly who: 'joiner' | 'electrician' | 'both';
  readonly what: string;
}

/** Names of the places that hold drivers. */
const placesOf = ({ drivers }: Sizing): string[] =>
  drivers.places.filter(({ driverCount }) => driverCount > 0).map(({ name }) => name);

function steps(job: Job, sizing: Sizing): Step[] {
  const { installation, cables, setOut } = sizing;
  const places = placesOf(sizing);
  const joints = setOut.jointCount > 0;
  return [
    { who: 'both', what: 'Read the cautions and settle the open findings. Agree who does which step below.' },
    {
      who: 'joiner',
      what: 'Measure the wall against the elevation: width, height, depth available, straightness, where the mains is.',
    },
    {
      who: 'joiner',
      what: 'Mill slots and battens by the slot list and the section; bore the holes that cables leave by.',
    },
    {
      who: 'joiner',
      what: `Cut strip by the reel map and the cutting list, and mark every piece${joints ? '; joints lie flat, on the backing' : ''}.`,
    },
    {
      who: 'joiner',
      what: `Clean the seats, lay ${job.section.carrier === 'none' ? 'the strip' : 'the carrier, then the strip'}, start and finish as the elevation shows them; let tape set before anything pulls at it.`,
    },
    {
      who: 'electrician',
      what: `Place the mains side: breakers, isolator, residual-current device, supply to ${places.join(' and ')}.`,
    },
    {
      who: 'electrician',
      what: `Fix drivers${installation.dimmers.length > 0 ? ', dimmers' : ''}${installation.blocks.length > 0 ? ' and blocks' : ''} as the sheet of driver places shows them, with the clearance their makers ask for.`,
    },
    {
      who: 'electrician',
      what: `Cut and label ${cables.length} cables by the cable schedule, both ends of each; lay them in their ways, apart from mains.`,
    },
    {
      who: 'electrician',
      what: 'Make off supply ends first, outputs not connected; then make off at the strip, plus and minus by the marks of the cores, with strain relief.',
    },
    {
      who: 'electrician',
      what: 'Test dead, by the steps of the test sheet; take every link out and tick it.',
    },
    {
      who: 'electrician',
      what: 'Test live, outputs first, then all lit; write the readings in. What lies outside its band is put right now.',
    },
    {
      who: 'both',
      what: 'Let it burn for an hour at its brightest and feel for warmth; look at every slot in the dark.',
    },
    { who: 'both', what: 'Sign the commissioning record. Only then close the wall.' },
    {
      who: 'joiner',
      what: 'Fit covers and close the wall, so that drivers, fuses and joints stay within reach.',
    },
    {
      who: 'both',
      what: 'Hand the owner these papers and the sheet for the owner; show how it is switched off.',
    },
  ];
}

const actors = { joiner: 'Joiner', electrician: 'Electrician', both: 'Both' } as const;

/** Who does what in which order, with boxes to tick. */
export function orderOfWork(job: Job, sizing: Sizing): Table {
  return {
    title: 'Order of work',
    columns: [words('No.'), words('What')],
    rows: steps(job, sizing).map(({ who, what }, i) => [String(i + 1), `${actors[who]}: ${what}`]),
    text: { lead: 'hanging', isTicked: true },
    marked: unmarked,
  };
}

const records: readonly string[] = [
  'Inspection before anything is connected: as drawn, undamaged, marked',
  'Continuity and loops: within their bands, every link out',
  'Insulation of SELV to other circuits, to earth and to mains conductors',
  'Polarity at every feed point and strip end',
  'Volts without load and all lit; amps: within their bands',
  'Function: every slot, every zone by its own control',
  'After one hour: cases of drivers, timber, nothing hot to the hand',
  'Mains side: tests the local rules ask for, by the licensed electrician',
];

/** What was tested when by whom, with signatures; nobody but those who sign it says that anything is in order. */
export function commissioningRecord(sizing: Sizing): Table {
  const limits = sizing.conditions.map(({ sentence }) => `Condition shown to be so: ${sentence}`);
  const parties = ['Electrician', 'Maker', 'Owner or client'].map(
    (who) => `Handed over and taken over: ${who}`,
  );
  return {
    title: 'Commissioning record',
    columns: [
      words('Tested'),
      words('Instrument, number', 34),
      words('In order: yes or no; remarks', 52),
      words('Name and signature', 44),
      words('Date', 20),
    ],
    rows: [...records, ...limits, ...parties].map((text) => [text, '', '', '', '']),
    marked: unmarked,
  };
}

function ownersLines({ title }: Job, sizing: Sizing): [what: string, text: string][] {
  const { setOut, cables, drivers, installation, set_V, schedules } = sizing;
  const where = placesOf(sizing).join(', ');
  const breakers = drivers.breaker.loads.map(({ id }) => id).join(', ');
  const bill = schedules.find(({ id }) => id === 'bill')!;
  const spare = bill.columns.findIndex(({ key }) => key === 'spare');
  const unit = bill.columns.findIndex(({ key }) => key === 'unit');
  const spares = bill.rows.flatMap((row) =>
    Number(row[spare]) > 0
      ? [`${row[spare]} ${row[unit] === 'piece' ? '×' : `${row[unit]},`} ${row[0]}: ${row[1]}`]
      : [],
  );
  const name = title.job === '' ? 'The wall' : title.job;
  return [
    [
      'What is behind the wall',
      `${name}: keep this sheet. ${setOut.slots.length} slots of LED strip at ${figure(set_V)} V and ${cables.length} cables, in the places the elevation shows. Do not drill, screw or nail into the panel without it.`,
    ],
    [
      'How to reach it',
      `Drivers${installation.blocks.length > 0 ? ', blocks and fuses' : ''}: ${where}. Keep that place open to hand and air, and put nothing in it.`,
    ],
    [
      'What to switch off',
      `The isolator of the lighting, or breaker${drivers.breaker.loads.length === 1 ? '' : 's'} ${breakers}, before anybody opens a place or a slot. Mains is for a licensed electrician only.`,
    ],
    [
      'If a slot stays dark',
      'Switch off. Call the electrician with these papers: the test sheet has what was measured when the wall was new.',
    ],
    [
      'How brightly',
      `Set by the dimmer. ${sizing.conditions.length === 0 ? 'Nothing else limits it by this calculation.' : sizing.conditions.map(({ sentence }) => sentence).join(' ')}`,
    ],
    [
      'Cleaning',
      'Switched off and cold: a dry soft cloth, never anything wet or pointed in a slot. What the cover and the finish bear, their makers say.',
    ],
    [
      'Repainting, rebuilding',
      'Strip and cover are not to be painted or covered. What is put against or into the wall changes how warm it gets: ask the maker first.',
    ],
    [
      'Spare parts kept',
      spares.length === 0 ? 'none listed' : `${spares.join('; ')}. Kept at: ____________________`,
    ],
    [
      'Warranty',
      'Maker: ____________________   until: ____________   Electrician: ____________________   until: ____________',
    ],
    [
      'Whom to call',
      'Maker: ________________________________   Electrician: ________________________________',
    ],
  ];
}

/** What the owner has to know of the wall once it is closed. */
export function ownersSheet(job: Job, sizing: Sizing): Table {
  return {
    title: 'For the owner of the wall',
    columns: [words('About'), words('What')],
    rows: ownersLines(job, sizing),
    text: { lead: 1 },
    marked: unmarked,
  };
}
