import { clausesOf } from '../clauses.ts';
import { partInBox } from '../numeric/part-in-box.ts';
import { mm, naming } from '../words.ts';
import { type Check, limited, remedy, type Sized } from './context.ts';
import { fieldOfPlace, placeIndex } from './driver-remedies.ts';

type Place = Sized['job']['drivers']['places'][number];

type Slot = Sized['setOut']['slots'][number];

/** Whether a place lies, at least in part, where the panel is. */
function isInPanel(place: Place, { width_mm, height_mm }: Sized['job']['panel']): boolean {
  const across = place.x_mm < width_mm && place.x_mm + place.width_mm > 0;
  return across && place.y_mm < height_mm && place.y_mm + place.height_mm > 0;
}

/** Whether a slot runs over a place. */
function runsOver(slot: Slot, place: Place): boolean {
  const half = slot.width_mm / 2;
  const { x_mm, y_mm } = place;
  const box = {
    left: x_mm - half,
    right: x_mm + place.width_mm + half,
    bottom: y_mm - half,
    top: y_mm + place.height_mm + half,
  };
  return partInBox({ x0: slot.x0_mm, y0: slot.y0_mm, x1: slot.x1_mm, y1: slot.y1_mm }, box) !== null;
}

const outside = 'Put it beside, above or below the panel.';

function overSlots({ setOut }: Sized, place: Place, number: number): Check[] {
  const field = `drivers.places[${number}]`;
  const over = setOut.slots.filter((slot) => runsOver(slot, place));
  if (over.length === 0) return [];
  return [
    {
      id: `driver-place-slots-${number}`,
      question: 'drivers',
      status: 'fails',
      place: { slot: over[0]!.id, field: `${field}.y_mm` },
      title: `${place.name} and the slots`,
      value: over.length,
      limit: 0,
      margin: -over.length,
      unit: '',
      basis: 'strip and light need the space behind a slot',
      sentence: `${place.name} lies behind ${naming(
        'slot',
        over.map(({ id }) => id),
      )}, where the strip is.`,
      remedies: [remedy(`${field}.y_mm`, outside)],
    },
  ];
}

function tooDeep({ section }: Sized, place: Place, number: number): Check[] {
  const field = `drivers.places[${number}]`;
  const over_mm = place.depth_mm - section.depth_mm;
  if (over_mm <= 0) return [];
  return [
    limited({
      id: `driver-place-depth-${number}`,
      question: 'drivers',
      status: 'watch',
      place: { field: `${field}.depth_mm` },
      title: `Depth of ${place.name} inside the panel`,
      value: place.depth_mm,
      limit: section.depth_mm,
      unit: 'mm',
      basis: 'the build-up as described: backing, cavity and front',
      sentence: `${place.name} lies inside the panel and is ${mm(place.depth_mm)} deep, where the build-up is ${mm(section.depth_mm)}: it can only be so deep where the wall behind is opened by ${mm(over_mm)}.`,
      remedies: [
        remedy(`${field}.depth_mm`, `Make it no deeper than ${mm(section.depth_mm)}.`),
        remedy(`${field}.y_mm`, outside),
      ],
    }),
  ];
}

/** What stands in a place and may have to be got at, kind by kind. */
function standingIn(
  index: number,
  sized: Sized,
): readonly (readonly [kind: string, ids: readonly string[]])[] {
  const drivers = sized.drivers.drivers.filter((driver) => placeIndex(sized, driver) === index);
  const outputs = new Set(drivers.flatMap((driver) => driver.outputs.map(({ id }) => id)));
  const isHere = ({ output }: { readonly output: string }): boolean => outputs.has(output);
  const blocks = sized.installation.blocks.filter(isHere);
  const fuses = blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  const dimmers = sized.installation.dimmers.filter(isHere);
  const kinds: [string, readonly { readonly id: string }[]][] = [
    ['driver', drivers],
    ['dimmer', dimmers],
    ['block', blocks],
    ['fuse', fuses],
  ];
  return kinds.flatMap(([kind, its]) => (its.length > 0 ? [[kind, its.map(({ id }) => id)] as const] : []));
}

function outOfReach(sized: Sized, place: Place, index: number): Check[] {
  const standing = standingIn(index, sized);
  if (place.reachable || standing.length === 0) return [];
  const count = standing.reduce((sum, [, ids]) => sum + ids.length, 0);
  const field = fieldOfPlace(index, 'reachable');
  return [
    {
      id: `driver-place-reach-${index + 1}`,
      question: 'drivers',
      status: 'fails',
      place: { field },
      title: `Reach of ${place.name} once the wall is closed`,
      value: count,
      limit: 0,
      margin: -count,
      unit: '',
      basis: `${clausesOf(sized.job.site.rules).access}; common practice`,
      sentence: `${place.name} is out of reach once the wall is closed, and what stands there has to be got at to be reset, changed or measured: ${standing.map(([kind, ids]) => naming(kind, ids)).join('; ')}.`,
      remedies: [
        remedy(
          field,
          `Give ${place.name} a door or a panel that comes off, and say that it is within reach.`,
        ),
        remedy(fieldOfPlace(index, 'x_mm'), `Move ${place.name} to where a hand gets in.`),
      ],
    },
  ];
}

/**
 * Checks of driver places: what stands there stays within reach; and of those inside the panel nothing may lie behind a
 * slot, nor reach into the wall unasked. A remote place lies elsewhere, whatever its position says of where its cable comes in.
 */
export function driverPlaceFindings(sized: Sized): Check[] {
  const { drivers, panel } = sized.job;
  return drivers.places.flatMap((place, i) => [
    ...outOfReach(sized, place, i),
    ...(place.kind === 'box' && isInPanel(place, panel)
      ? [...overSlots(sized, place, i + 1), ...tooDeep(sized, place, i + 1)]
      : []),
  ]);
}
