import { describe, expect, it } from 'vitest';
import { awgResistance_ohm_per_m } from '../../reference/laws/wire-gauge.ts';
import { cableResistance_ohm_per_m } from '../../src/circuit/copper.ts';
import { cableData } from '../../src/job/cable.ts';
import { cableCatalogue } from '../../src/job/cable-catalogue.ts';
import { dimmerData } from '../../src/job/dimmer.ts';
import { dimmerCatalogue } from '../../src/job/dimmer-catalogue.ts';
import { driverData } from '../../src/job/driver.ts';
import { driverCatalogue } from '../../src/job/driver-catalogue.ts';
import { finishes, slotCovers } from '../../src/job/section.ts';
import { stripData } from '../../src/job/strip.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { reflectanceOf, sheetOf } from '../../src/sizing/light-finishes.ts';

describe('the catalogue', () => {
  it('keeps to the bounds of the job document', () => {
    for (const { id: _, ...data } of stripCatalogue)
      expect(stripData.safeParse(data).error?.issues).toBeUndefined();
    for (const { id: _, ...data } of driverCatalogue)
      expect(driverData.safeParse(data).error?.issues).toBeUndefined();
    for (const { id: _, ...data } of cableCatalogue)
      expect(cableData.safeParse(data).error?.issues).toBeUndefined();
  });

  it('has dimmers within their bounds, for one, two and four channels, pulsed and steady', () => {
    for (const { id: _, ...data } of dimmerCatalogue)
      expect(dimmerData.safeParse(data).error?.issues).toBeUndefined();
    expect(new Set(dimmerCatalogue.map((d) => d.id)).size).toBe(dimmerCatalogue.length);
    expect(new Set(dimmerCatalogue.map((d) => d.channelCount))).toEqual(new Set([1, 2, 4]));
    expect(new Set(dimmerCatalogue.map((d) => d.frequency_Hz === null))).toEqual(new Set([true, false]));
  });

  it('has unique ids and covers 12, 24 and 48 V, both laws, one to four channels, 15 to 320 W', () => {
    for (const list of [stripCatalogue, driverCatalogue, cableCatalogue]) {
      expect(new Set(list.map((entry) => entry.id)).size).toBe(list.length);
    }
    expect(new Set(stripCatalogue.map((s) => s.nominal_V))).toEqual(new Set([12, 24, 48]));
    expect(new Set(stripCatalogue.map((s) => s.law))).toEqual(new Set(['resistor', 'regulated']));
    expect(new Set(stripCatalogue.map((s) => s.channels.length))).toEqual(new Set([1, 2, 4]));
    expect([
      Math.min(...driverCatalogue.map((d) => d.rated_W)),
      Math.max(...driverCatalogue.map((d) => d.rated_W)),
    ]).toEqual([15, 320]);
  });

  it('gives metric cables the resistance of the IEC 60228 table, gauges that of the ASTM B258 formula', () => {
    for (const cable of cableCatalogue) {
      const gauge = /^awg-(\d+)$/.exec(cable.id);
      const ohm_per_m = gauge
        ? awgResistance_ohm_per_m(Number(gauge[1]))
        : cableResistance_ohm_per_m(cable.area_mm2, 'class-5');
      expect(cable.conductor_ohm_per_km / (1000 * ohm_per_m)).toBeCloseTo(1, 3);
    }
  });

  it('leaves volts for resistor or regulator in every strip', () => {
    for (const strip of stripCatalogue) {
      for (const channel of strip.channels) {
        const spare_V = strip.nominal_V - channel.lampsInSeries * channel.lampForward_V;
        expect(spare_V, strip.id).toBeGreaterThan(strip.law === 'regulated' ? strip.dropout_V : 1);
      }
    }
  });

  it('counts lamps per metre as whole strings of every cut unit', () => {
    for (const strip of stripCatalogue) {
      const perUnit = strip.lampsPerMetre / strip.unitsPerMetre;
      const inSeries = strip.channels[0]!.lampsInSeries;
      expect(Number.isInteger(perUnit), strip.id).toBe(true);
      expect(perUnit % inSeries, strip.id).toBe(0);
    }
  });

  it('knows the light of every finish and cover a job can name', () => {
    for (const finish of finishes) expect(reflectanceOf(finish)).toBeGreaterThan(0);
    for (const cover of slotCovers) expect(sheetOf(cover) === null).toBe(cover === 'open');
  });
});
