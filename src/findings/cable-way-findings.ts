import type { Cable } from '../answer/cables.ts';
import { counted, mm, percent } from '../words.ts';
import { wayRoomWorking } from './cable-workings.ts';
import { below, type Check, limited, remedy, type Sized, worst } from './context.ts';

/**
 * Part of a way that cables may fill: 45 %, the space factor of trunking in the guidance to BS 7671 (from memory), so that
 * they can be laid in and taken out again.
 */
const mostFilled = 0.45;

/** Round cables side by side and on top of one another fill no more than this of a way: pi/4, a circle in its square. */
const solid = Math.PI / 4;

/** What makes room in a way whose cables need so wide a one. */
const moreRoom = ({ job }: Sized, needed_mm: number) => [
  remedy('cables.wayWidth_mm', `Leave ${mm(needed_mm)} free across the way.`),
  ...(job.cables.layout === 'radial'
    ? [remedy('cables.layout', 'Feed several slots from one trunk with taps.')]
    : []),
  remedy('drivers.places', 'Add a place for drivers elsewhere, so that cables come from two sides.'),
];

/** A place along the panel, which may lie beside it. */
function alongPanel(x_mm: number, width_mm: number): string {
  if (x_mm < 0) return `${mm(-x_mm)} to the left of the panel`;
  if (x_mm > width_mm) return `${mm(x_mm - width_mm)} to the right of the panel`;
  return `${mm(x_mm)} from the left edge of the panel`;
}

function wayRoom(sized: Sized): Check[] {
  const spot = sized.installation.fullestWay;
  if (spot === null) return [];
  const { wayWidth_mm } = sized.job.cables;
  const { cavity_mm } = sized.job.section;
  const filled = spot.area_mm2 / (wayWidth_mm * cavity_mm);
  const status = below(filled, solid, mostFilled);
  const needed_mm = 10 * Math.ceil(spot.area_mm2 / (mostFilled * cavity_mm) / 10 - 1e-9);
  return [
    limited({
      id: 'way-room',
      question: 'cables',
      status,
      place: { cable: spot.cables[0]!, field: 'cables.wayWidth_mm' },
      title: 'Room for cables in the cable way',
      value: filled,
      limit: mostFilled,
      unit: 'ratio',
      basis:
        '45 % of the room, the space factor of trunking in the guidance to BS 7671 (from memory); diameters of cables with more or fewer cores by the assembly factors of IEC 60502-1, annex A (from memory)',
      sentence: `${alongPanel(spot.x_mm, sized.job.panel.width_mm)} ${counted(spot.cables.length, 'cable')} ${spot.cables.length === 1 ? 'lies' : 'lie'} in the cable way and ${spot.cables.length === 1 ? 'fills' : 'fill'} ${percent(filled)} of its ${mm(wayWidth_mm)} across and ${mm(cavity_mm)} deep.${status === 'fails' ? ' Round cables do not go in as close as that.' : ''}`,
      remedies: status === 'passes' ? [] : moreRoom(sized, needed_mm),
      working: wayRoomWorking(
        { area_mm2: spot.area_mm2, filled, most: mostFilled, cableCount: spot.cables.length },
        sized,
      ),
    }),
  ];
}

/** The room a cable has on its way behind the face: the depth of the cavity, and in a way no more than its width. */
function roomFor({ job }: Sized, { stretches }: Cable): { readonly field: string; readonly room_mm: number } {
  const { wayWidth_mm } = job.cables;
  const { cavity_mm } = job.section;
  const isInWay = stretches.some((stretch) => stretch.in === 'way');
  return isInWay && wayWidth_mm < cavity_mm
    ? { field: 'cables.wayWidth_mm', room_mm: wayWidth_mm }
    : { field: 'section.cavity_mm', room_mm: cavity_mm };
}

function thickness(sized: Sized, cables: readonly Cable[]): Check[] {
  if (cables.length === 0) return [];
  const cable = worst(cables, (each) => each.outer_mm / roomFor(sized, each).room_mm);
  const { field, room_mm } = roomFor(sized, cable);
  if (below(cable.outer_mm, room_mm) === 'passes') return [];
  return [
    limited({
      id: 'cable-thickness',
      question: 'cables',
      status: 'fails',
      place: { cable: cable.id, field },
      title: 'Thickness of a cable behind the face',
      value: cable.outer_mm,
      limit: room_mm,
      unit: 'mm',
      basis:
        'outside diameter with two cores; more or fewer by the assembly factors of IEC 60502-1, annex A (from memory)',
      sentence: `Cable ${cable.id} is ${mm(cable.outer_mm)} thick where ${mm(room_mm)} are free.`,
      remedies: [
        remedy(field, `Make it ${mm(Math.ceil(cable.outer_mm))} or more.`),
        remedy('cables.entry', 'Take a thinner cable, and check its drop and what it may carry.'),
      ],
    }),
  ];
}

/** Checks of where cables lie behind the face: room in the way, and each by itself in the cavity. */
export function cableWayFindings(sized: Sized): Check[] {
  const laid = sized.cables.filter(({ kind }) => kind !== 'link');
  return [...wayRoom(sized), ...thickness(sized, laid)];
}
