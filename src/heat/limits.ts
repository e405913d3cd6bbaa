/** How the number of a limit reached us. */
type LimitStanding = 'secondary' | 'memory' | 'judgement';

/** Where in the section a limit applies. */
export type LimitedPlace =
  | 'solderPoint'
  | 'tape'
  | 'timber'
  | 'glueLine'
  | 'cable'
  | 'roomFace'
  | 'sheet'
  | 'coverInside'
  | 'coverOutside';

/** A temperature not to be passed, what it rests on, and what passing it means. */
export interface TemperatureLimit {
  readonly id: string;
  readonly place: LimitedPlace;
  readonly limit_degC: number;
  /** `caution`: think again; `refuse`: the engine says no; `breach`: a published limit is passed. */
  readonly beyond: 'caution' | 'refuse' | 'breach';
  readonly source: string;
  readonly standing: LimitStanding;
  /** What a maker can do about this limit alone; null where only a cooler strip helps. */
  readonly remedy: string | null;
}

/** The three bands of timber over a long time. */
const timber: readonly TemperatureLimit[] = [
  {
    id: 'timber-60',
    place: 'timber',
    limit_degC: 60,
    beyond: 'caution',
    source: 'design band of this tool',
    standing: 'judgement',
    remedy: null,
  },
  {
    id: 'timber-77',
    place: 'timber',
    limit_degC: 77,
    beyond: 'refuse',
    source:
      'V. Babrauskas, B. Gray, M. Janssens, Fire and Materials 31 (2007): ignition after long exposure reported from 77 °C',
    standing: 'secondary',
    remedy: null,
  },
  {
    id: 'timber-90',
    place: 'timber',
    limit_degC: 90,
    beyond: 'breach',
    source: 'IEC 60598-1, Table 12.1, normally flammable mounting surface in normal operation',
    standing: 'memory',
    remedy: null,
  },
];

const glueAndTape: readonly TemperatureLimit[] = [
  {
    id: 'glue-pvac-50',
    place: 'glueLine',
    limit_degC: 50,
    beyond: 'caution',
    source: 'PVAc wood glue creeps from 50 to 60 °C; heat class test EN 14257 at 80 °C',
    standing: 'secondary',
    remedy: 'Use a glue with a heat class to EN 14257.',
  },
  {
    id: 'glue-pvac-80',
    place: 'glueLine',
    limit_degC: 80,
    beyond: 'refuse',
    source: 'EN 14257 (WATT 91), temperature of the heat class test',
    standing: 'secondary',
    remedy: null,
  },
  {
    id: 'tape-80',
    place: 'tape',
    limit_degC: 80,
    beyond: 'refuse',
    source: 'acrylic mounting tape in continuous use, 80 to 95 °C in data sheets',
    standing: 'memory',
    remedy: 'Hold the strip mechanically, or use a tape whose maker gives more.',
  },
  {
    id: 'cable-pvc-70',
    place: 'cable',
    limit_degC: 70,
    beyond: 'breach',
    source: 'IEC 60364-5-52, conductor of PVC insulated cable',
    standing: 'secondary',
    remedy: 'Keep the cable further from the strip, or use one rated for 90 °C.',
  },
];

/** How people meet the face of the panel. */
type TouchUse = 'seat or bed head' | 'leant on' | 'touched' | 'not-touched';

const touchLimits: Readonly<Record<TouchUse, Omit<TemperatureLimit, 'place' | 'remedy'>>> = {
  'seat or bed head': {
    id: 'touch-43',
    limit_degC: 43,
    beyond: 'breach',
    source: 'EN ISO 13732-1:2006, Table 1, contact of 8 h and longer, all materials',
    standing: 'memory',
  },
  'leant on': {
    id: 'touch-48',
    limit_degC: 48,
    beyond: 'breach',
    source: 'EN ISO 13732-1:2006, Table 1, contact of 10 min, all materials',
    standing: 'secondary',
  },
  touched: {
    id: 'touch-60',
    limit_degC: 60,
    beyond: 'breach',
    source: 'EN ISO 13732-1:2006, Table 1, contact of 1 min, wood and plastic (60 °C)',
    standing: 'memory',
  },
  'not-touched': {
    id: 'touch-90',
    limit_degC: 90,
    beyond: 'breach',
    source: 'IEC 60364-4-42, Table 42.1, non-metallic part that need not be touched in normal operation',
    standing: 'secondary',
  },
};

/** What a piece is made with and used for, as far as limits depend on it. */
export interface LimitChoices {
  readonly touch: TouchUse;
  /** The strip maker's highest temperature at the solder point or tc point; null where none is given. */
  readonly stripRating_degC: number | null;
  /** Whether somebody entered that rating from its maker's sheet; else, as when left out, it is a typical one. */
  readonly isRatingEntered?: boolean;
  /** What the plastic of a profile's cover bears, and whether somebody entered that; left out where there is no such cover. */
  readonly cover?: { readonly limit_degC: number; readonly isEntered: boolean };
}

/** Both faces of a profile's cover against what its plastic bears. */
function coverLimits(cover: LimitChoices['cover']): TemperatureLimit[] {
  if (cover === undefined) return [];
  return (['coverInside', 'coverOutside'] as const).map((place) => ({
    id: `${place}-plastic`,
    place,
    limit_degC: cover.limit_degC,
    beyond: 'refuse',
    source: cover.isEntered
      ? "the profile maker's data sheet, as entered"
      : "acrylic in continuous use, 65 to 90 °C in data sheets: no figure from the profile maker's sheet is entered",
    standing: cover.isEntered ? 'secondary' : 'memory',
    remedy: 'Take a cover of a plastic that bears more, such as polycarbonate, by its data sheet.',
  }));
}

/**
 * Every limit that applies to a section, with what it rests on.
 * @param choices how the face is met, and the strip's own rating (data sheets commonly give 60 to 85)
 * Sources: in each entry. IEC 60598-1 and EN ISO 13732-1 values are from memory: read a licensed copy first.
 * Check: `heat-limit-*` compares them with the values as printed in the secondary copies.
 */
export function temperatureLimits(choices: LimitChoices): readonly TemperatureLimit[] {
  const touch = (place: LimitedPlace): TemperatureLimit => ({
    ...touchLimits[choices.touch],
    id: `${place}-${touchLimits[choices.touch].id}`,
    place,
    remedy: null,
  });
  const own: TemperatureLimit[] =
    choices.stripRating_degC === null
      ? []
      : [
          {
            id: 'strip-rating',
            place: 'solderPoint',
            limit_degC: choices.stripRating_degC,
            beyond: 'breach',
            source: choices.isRatingEntered
              ? "the strip maker's data sheet, as entered"
              : "typical of strip: no figure from its maker's data sheet is entered",
            standing: choices.isRatingEntered ? 'secondary' : 'judgement',
            remedy: null,
          },
        ];
  return [
    ...own,
    ...timber,
    ...glueAndTape,
    touch('roomFace'),
    touch('sheet'),
    ...coverLimits(choices.cover),
  ];
}
