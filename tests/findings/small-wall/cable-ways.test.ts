import { describe, expect, it } from 'vitest';
import { cableWayFindings } from '../../../src/findings/cable-way-findings.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

const at = (id: string, change?: (wall: Wall) => void) => told(cableWayFindings(wall(change)), id);
const is = (id: string, change?: (wall: Wall) => void) => isTold(cableWayFindings(wall(change)), id);

/**
 * Each cable along the way at the foot from x = 0 to its slot at 200, 500 and 800 mm; the way is 60 mm across and 20 deep.
 * Three of 8.6 mm at the left edge: 3 · 58.088 = 174.264 mm².
 */
const along = (made: Wall): void => {
  made.job.section.cavity_mm = 20;
  for (const cable of made.cables)
    cable.stretches.push({
      ...{ in: 'way', from: { x_mm: 0, y_mm: 50 }, to: { x_mm: cable.route[0]!.x_mm, y_mm: 50 } },
      ...{ length_mm: cable.route[0]!.x_mm, togetherCount: 3, air_degC: 40 },
    });
  const cables = made.cables.map(({ id }) => id);
  made.installation.fullestWay = { x_mm: 0, y_mm: 50, area_mm2: 174.264, cables };
};
const changed =
  (...changes: ((made: Wall) => void)[]) =>
  (made: Wall): void => {
    for (const change of [along, ...changes]) change(made);
  };
const width =
  (wayWidth_mm: number) =>
  ({ job }: Wall) => {
    job.cables.wayWidth_mm = wayWidth_mm;
  };
const outer =
  (outer_mm: number) =>
  ({ cables }: Wall) => {
    cables[1]!.outer_mm = outer_mm;
  };

it('cables that come straight up to their slots lie in no way', () => {
  expect(cableWayFindings(wall())).toEqual([]);
});

describe('room in the way', () => {
  // Three of 8.6 mm at the left edge: 3 · 58.088 = 174.26 mm² of 60 · 20 = 1200 mm².
  it('is what the cables at the fullest spot fill of it', () => {
    expect(at('way-room', along)).toMatchObject({
      ...{
        question: 'cables',
        status: 'passes',
        value: expect.closeTo(0.14522, 5),
        limit: 0.45,
        fields: [],
      },
      ...{ place: { cable: 'C01', field: 'cables.wayWidth_mm' }, margin: expect.closeTo(0.30478, 5) },
      sentence:
        '0 mm from the left edge of the panel 3 cables lie in the cable way and fill 15 % of its 60 mm across and 20 mm deep.',
    });
  });

  it('says on which side of the panel a spot beside it lies', () => {
    const spotAt = (place: (panel_mm: number) => number) => (made: Wall) => {
      made.installation.fullestWay = {
        ...made.installation.fullestWay!,
        x_mm: place(made.job.panel.width_mm),
      };
    };
    const said = (place: (panel_mm: number) => number) =>
      at('way-room', changed(spotAt(place))).sentence.split(' 3 cables')[0];
    expect(said(() => -140)).toBe('140 mm to the left of the panel');
    expect(said((panel_mm) => panel_mm + 25)).toBe('25 mm to the right of the panel');
    expect(said((panel_mm) => panel_mm)).toMatch(/ from the left edge of the panel$/);
  });

  // 0.45 · 20 mm take 9 mm² a millimetre of width: 174.26 / 9 = 19.36 mm. pi/4 of 20 mm, 15.71 a millimetre: 11.09 mm.
  it('is to be watched from 45 % on and fails where round cables do not go in', () => {
    expect(at('way-room', changed(width(19.4)))).toMatchObject({ status: 'passes', fields: [] });
    expect(at('way-room', changed(width(19.3)))).toMatchObject({
      status: 'watch',
      fields: ['cables.wayWidth_mm', 'cables.layout', 'drivers.places'],
      advice: [
        'Leave 20 mm free across the way.',
        'Feed several slots from one trunk with taps.',
        'Add a place for drivers elsewhere, so that cables come from two sides.',
      ],
    });
    expect(at('way-room', changed(width(11.1))).status).toBe('watch');
    expect(at('way-room', changed(width(11))).status).toBe('fails');
    expect(at('way-room', changed(width(11))).sentence).toMatch(
      /Round cables do not go in as close as that\.$/,
    );
  });

  it('has nothing to say for a trunk where there is one', () => {
    const trunk = ({ job }: Wall): void => {
      job.cables.layout = 'trunk';
    };
    expect(at('way-room', changed(width(12), trunk)).fields).toEqual([
      'cables.wayWidth_mm',
      'drivers.places',
    ]);
  });

  it('is that of one cable, in words of one', () => {
    const one = ({ installation }: Wall): void => {
      Object.assign(installation.fullestWay!, { area_mm2: 58.088, cables: ['C01'] });
    };
    expect(at('way-room', changed(one)).sentence).toContain(
      '1 cable lies in the cable way and fills 4.8 % of',
    );
  });
});

describe('the thickness of a cable', () => {
  it('is not spoken of where it goes in, and fails where the cavity is shallower', () => {
    expect(is('cable-thickness', along)).toBe(false);
    expect(is('cable-thickness', changed(outer(20)))).toBe(false);
    expect(at('cable-thickness', changed(outer(20.5)))).toMatchObject({
      ...{ status: 'fails', value: 20.5, limit: 20, margin: -0.5, unit: 'mm' },
      ...{
        place: { cable: 'C02', field: 'section.cavity_mm' },
        fields: ['section.cavity_mm', 'cables.entry'],
      },
      sentence: 'Cable C02 is 20.5 mm thick where 20 mm are free.',
    });
    expect(at('cable-thickness', changed(outer(20.5))).advice[0]).toBe('Make it 21 mm or more.');
  });

  it('is held against a way that is narrower than the cavity is deep, by those that lie in it', () => {
    expect(at('cable-thickness', changed(width(8)))).toMatchObject({
      ...{ value: 8.6, limit: 8, place: { cable: 'C01', field: 'cables.wayWidth_mm' } },
    });
    expect(is('cable-thickness', width(8))).toBe(false);
  });

  it('is not asked of a link inside a place', () => {
    const link = ({ cables }: Wall): void => {
      Object.assign(cables[0]!, { kind: 'link', outer_mm: 30 });
    };
    expect(is('cable-thickness', changed(link))).toBe(false);
  });
});
