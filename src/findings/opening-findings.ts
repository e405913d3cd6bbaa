import type { Finding } from '../answer/findings.ts';
import type { Opening } from '../job/opening.ts';
import { mm, naming } from '../words.ts';
import { type Check, remedy, type Sized } from './context.ts';

const nameOf = ({ name }: Opening, i: number): string => (name.trim() === '' ? `opening ${i + 1}` : name);

const otherWay = { head: 'foot', foot: 'head' } as const;

/** What gets cables past an opening: nothing within the panel where it reaches from edge to edge. */
function wayRound({ job: { panel, cables } }: Sized, { y_mm, height_mm }: Opening): Finding['remedies'] {
  const onBothSides = remedy('drivers.places', 'Put a place for drivers on each side of the opening.');
  if (y_mm <= 0 && y_mm + height_mm >= panel.height_mm) return [onBothSides];
  return [
    remedy(
      'cables.way',
      `Run the cables along the ${otherWay[cables.way]} instead of along the ${cables.way}.`,
    ),
    ...(cables.layout === 'radial'
      ? []
      : [remedy('cables.layout', 'Feed each slot by a cable of its own, which finds its way round.')]),
    onBothSides,
  ];
}

/** Cables that begin or end in an opening, or find no way round it within the panel. */
function throughIt(sized: Sized, opening: Opening, i: number): Check[] {
  const through = sized.installation.throughOpenings.find((each) => each.opening === i)?.cables ?? [];
  if (through.length === 0) return [];
  const name = nameOf(opening, i);
  const remedies = wayRound(sized, opening);
  return [
    {
      id: `opening-cables-${i + 1}`,
      question: 'cables',
      status: 'fails',
      place: { cable: through[0]!, field: remedies[0]!.field! },
      title: `Cables past ${name}`,
      value: through.length,
      limit: 0,
      margin: -through.length,
      unit: '',
      basis: 'nothing passes an opening',
      sentence: `${naming('Cable', through)} would run through ${name}, ${mm(opening.width_mm)} wide: there is no way round it inside the panel from where they lie.`,
      remedies,
    },
  ];
}

type Place = Sized['job']['drivers']['places'][number];

const overlaps = (place: Place, opening: Opening): boolean =>
  place.x_mm < opening.x_mm + opening.width_mm &&
  place.x_mm + place.width_mm > opening.x_mm &&
  place.y_mm < opening.y_mm + opening.height_mm &&
  place.y_mm + place.height_mm > opening.y_mm;

function placesInIt({ job }: Sized, opening: Opening, i: number): Check[] {
  return job.drivers.places.flatMap((place, p): Check[] => {
    if (place.kind !== 'box' || !overlaps(place, opening)) return [];
    const field = `drivers.places[${p + 1}].x_mm`;
    return [
      {
        id: `opening-place-${i + 1}-${p + 1}`,
        question: 'drivers',
        status: 'fails',
        place: { field },
        title: `${place.name} and ${nameOf(opening, i)}`,
        value: 1,
        limit: 0,
        margin: -1,
        unit: '',
        basis: 'nothing stands in an opening',
        sentence: `${place.name} lies, at least in part, in ${nameOf(opening, i)}.`,
        remedies: [remedy(field, `Move ${place.name} beside the opening.`)],
      },
    ];
  });
}

/** Checks of doors and windows: no cable passes them, no driver stands in them. */
export const openingFindings = (sized: Sized): Check[] =>
  sized.job.openings.flatMap((opening, i) => [
    ...throughIt(sized, opening, i),
    ...placesInIt(sized, opening, i),
  ]);
