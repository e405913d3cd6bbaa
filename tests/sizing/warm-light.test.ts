import { describe, expect, it } from 'vitest';
import { type Job, newJob, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { newRoom } from '../../src/job/room.ts';
import { fluxShareAt } from '../../src/sizing/warm-light.ts';

function sized(change: (job: Job) => void = () => {}, size = sizeJob) {
  const job = structuredClone(newJob());
  job.slots = { ...job.slots, width_mm: 20 };
  job.strip.entry = '24V-9.6W';
  job.drivers.entry = '24V-240W';
  change(job);
  const answer = size(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return { job, ...answer.value };
}

const losing = (fluxLoss_per_K: number) => (job: Job) => {
  job.strip.data = { fluxLoss_per_K };
};

describe('light of a warm strip', () => {
  it('goes down in a line from 25 °C, and is not followed below a half', () => {
    // 0.2 % a kelvin: 40 K over 25 °C cost 8 %; 10 K under give 2 %; 400 K are no strip.
    expect(fluxShareAt(65, 0.002)).toBeCloseTo(0.92, 12);
    expect(fluxShareAt(15, 0.002)).toBeCloseTo(1.02, 12);
    expect(fluxShareAt(425, 0.002)).toBe(0.5);
  });

  it('is that of its data sheet where nothing is said, and where nothing is lost', () => {
    const { light, heat, roomLight } = sized();
    expect(light.warm).toBeUndefined();
    const same = sized(losing(0));
    expect(same.light.warm!.fluxShare).toBe(1);
    expect(same.light.zones[0]).toEqual({ ...light.zones[0], fluxShare: 1 });
    expect(same.heat).toEqual(heat);
    expect(same.roomLight).toEqual(roomLight);
  });

  it('is counted at full and at the working level, each as warm as it makes the strip', () => {
    const cold = sized();
    const { light, job } = sized(losing(0.003));
    const { strip_degC, fluxShare } = light.warm!;
    expect(strip_degC).toBeGreaterThan(job.site.room_degC + 10);
    expect(fluxShare).toBeCloseTo(1 - 0.003 * (strip_degC - 25), 12);
    expect(light.full_cd_per_m2).toBeCloseTo(fluxShare * cold.light.full_cd_per_m2, 9);
    const [zone] = light.zones;
    // Dimmed to 15 % the strip is cooler, so that it loses less.
    expect(zone!.fluxShare).toBeGreaterThan(fluxShare);
    expect(zone!.luminance_cd_per_m2).toBeCloseTo(
      zone!.fluxShare! * cold.light.zones[0]!.luminance_cd_per_m2,
      9,
    );
    expect(light.outFraction).toBe(cold.light.outFraction);
  });

  it('is, at a temperature that the job gives, that of the sheet at it', () => {
    const { light } = sized((job) => {
      losing(0.002)(job);
      job.strip.strip_degC = 65;
    });
    expect(light.warm).toEqual({ strip_degC: 65, fluxShare: expect.closeTo(0.92, 12) });
    expect(light.zones[0]!.fluxShare).toBeCloseTo(0.92, 12);
  });

  it('leaves as heat what it no longer gives as light, watt for watt', () => {
    const [cold, warm] = [sized(undefined, sizeJobCarefully), sized(losing(0.003), sizeJobCarefully)];
    const { fluxShare } = warm.light.warm!;
    // Of the electrical watts, light (lumens over 315 lm/W) leaves the slot with the share that gets out.
    const { lumens_per_m, watts_per_m } = warm.products.strip.channels[0]!;
    const leaving = (fluxShare_: number, electrical: number) =>
      (electrical * fluxShare_ * lumens_per_m * warm.light.outFraction) / 315 / watts_per_m;
    for (const [answer, share] of [
      [cold, 1],
      [warm, fluxShare],
    ] as const) {
      const { heat_W_per_m, strip_W_per_m } = answer.heat;
      expect(heat_W_per_m).toBeCloseTo(strip_W_per_m - leaving(share, strip_W_per_m), 6);
    }
    const solder = (answer: typeof warm) => answer.heat.temperatures.find(({ id }) => id === 'solder')!;
    expect(solder(warm).value_degC).toBeGreaterThan(solder(cold).value_degC);
  });

  it('goes into the room and into the levels that are needed', () => {
    const room = (job: Job) => {
      job.light = { ...job.light, wanted_cd_per_m2: 500, room: newRoom() };
    };
    const both = (job: Job) => {
      room(job);
      losing(0.003)(job);
    };
    const warm = sized(both);
    const [zone] = warm.light.zones;
    const { fluxShare } = warm.light.warm!;
    const metres = warm.circuit.runs.map(({ unit_light }, i) => {
      const mean = unit_light.reduce((sum, one) => sum + one, 0) / unit_light.length;
      return (mean * warm.setOut.runs[i]!.strip_mm) / 1000;
    });
    const sheet_lm =
      warm.products.strip.channels[0]!.lumens_per_m *
      warm.light.outFraction *
      metres.reduce((sum, one) => sum + one, 0);
    expect(warm.roomLight.wall.full_lm).toBeCloseTo(fluxShare * sheet_lm, 6);
    expect(warm.roomLight.wall.working_lm).toBeCloseTo(0.15 * zone!.fluxShare! * sheet_lm, 6);
    // Entered, the needed level gives what is wanted to the tenth of a percent that levels are typed to.
    const again = sized((job) => {
      both(job);
      job.dimming.levels = zone!.neededLevels;
    });
    const [{ luminance_cd_per_m2, levels }] = again.light.zones as [(typeof again.light.zones)[number]];
    expect(luminance_cd_per_m2 / 500).toBeGreaterThan(0.998);
    expect(luminance_cd_per_m2 / 500).toBeLessThan(1.002 + 0.001 / levels.working[0]!);
  });

  it('is said, and counted in the working', () => {
    const { findings } = sized(losing(0.002));
    const { sentence, working } = findings.find(({ id }) => id.startsWith('brightness'))!;
    expect(sentence).toMatch(/warm strip gives \d\d % of the light on its data sheet/);
    const of = (symbol: string) => working!.quantities.find((each) => each.symbol === symbol)!.value;
    expect(of('Φ') * of('y') * of('w') * of('s') * of('c')).toBeCloseTo(of('L'), 9);
    expect(of('s')).toBeCloseTo(0.15, 12);
  });
});
