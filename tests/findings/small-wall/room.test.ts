import { describe, expect, it } from 'vitest';
import type { RoomPointLight } from '../../../src/answer/room-light.ts';
import { roomFindings } from '../../../src/findings/room-findings.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

const lit = (maintained_lx: number): RoomPointLight['working'] => ({
  ...{ direct_lx: maintained_lx, bounced_lx: 0.25 * maintained_lx, maintained_lx },
  band_lx: { least: 0.8 * maintained_lx, greatest: 1.2 * maintained_lx },
});

/** A desk that gets so much at the working level of 15 %, and so much at full. */
const desk =
  (wanted_lx: number | null, working_lx: number, full_lx: number) =>
  ({ roomLight }: Wall) => {
    roomLight.points.push({
      ...{ name: 'the desk', plane: 'level', distance_mm: 1500, height_mm: 750, along_mm: 500, wanted_lx },
      ...{ working: lit(working_lx), full: lit(full_lx) },
    });
  };

const at = (...changes: ((wall: Wall) => void)[]) =>
  told(
    roomFindings(
      wall((made) => {
        for (const change of changes) change(made);
      }),
    ),
    'room-1',
  );

describe('light in the room', () => {
  it('is found only where some is wanted', () => {
    expect(isTold(roomFindings(wall(desk(null, 20, 100))), 'room-1')).toBe(false);
  });

  // 20 lx are wanted. The band reaches a fifth down: from 25 lx on even its least is enough.
  it.each([
    [19.9, 'fails', -0.1],
    [20, 'watch', 0],
    [24.9, 'watch', 4.9],
    [25, 'passes', 5],
  ])('%s lx of 20 %s', (working_lx, status, margin) => {
    expect(at(desk(20, working_lx, 200))).toMatchObject({ status, margin, value: working_lx, limit: 20 });
  });

  it('never passes where something says that the lux are off by more', () => {
    const doubted = ({ roomLight }: Wall): void => {
      roomLight.doubts.push('The wall turns a corner.');
    };
    const found = at(desk(20, 30, 200), doubted);
    expect(found.status).toBe('watch');
    expect(found.sentence).toMatch(/The wall turns a corner\.$/);
    expect(found.fields).toEqual([]);
  });

  it('is mended by the level where full is enough: half as much again as 15 % is 23 %', () => {
    const { fields, advice } = at(desk(30, 20, 133));
    expect(fields).toEqual(['dimming.levels[1]', 'light.room.points']);
    expect(advice[0]).toBe('Raise the working level to 23 %.');
  });

  it('is raised to what makes the least of the band enough where only that falls short', () => {
    // 22 of 20, at the least 17.6: 15 % times 20/17.6 is 17.05 %, rounded up.
    expect(at(desk(20, 22, 147)).advice[0]).toBe('Raise the working level to 18 %.');
  });

  it('takes more strip where full is not enough: 10 W/m times 200/100', () => {
    const { fields, advice } = at(desk(200, 15, 100));
    expect(fields).toEqual(['strip.entry', 'section.cover', 'light.room.points']);
    expect(advice[0]).toBe('Choose about 20.0 W/m of this kind of strip, run at full.');
  });

  it('asks for no cover where there is none, and for no strip where no light comes at all', () => {
    const open = ({ job }: Wall): void => {
      job.section.cover = 'open';
    };
    expect(at(desk(200, 0, 0), open).fields).toEqual(['light.room.points']);
  });

  it('says which place is meant', () => {
    const { sentence, place } = at(desk(20, 30, 200));
    expect(sentence).toContain(
      'about 30 lx reach the desk, on a level surface 750 mm up, 1,500 mm from the lit wall; 20 lx are wanted',
    );
    expect(place).toEqual({ field: 'light.room.points[1].wanted_lx' });
  });
});
