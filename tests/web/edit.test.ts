import { describe, expect, it } from 'vitest';
import { fieldName } from '../../src/job/field-name.ts';
import { newJob } from '../../src/job/new-job.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import {
  alter,
  choose,
  chooseFurtherDriver,
  chooseProduct,
  chooseTrunk,
  leave,
  problemsOf,
  typeText,
} from '../../web/state/edit.ts';
import { fieldSpec } from '../../web/state/field-spec.ts';
import { firstFree, freePlaceName } from '../../web/state/free-names.ts';
import { redo, undo } from '../../web/state/history.ts';
import { pathOf, withValue } from '../../web/state/paths.ts';
import { sheetValue, withOneMoreDriver } from '../../web/state/sheet.ts';
import { createStore, emptyState, type Store } from '../../web/state/store.ts';

const begun = (): Store => createStore({ ...emptyState, draft: { job: newJob(), entries: {}, parked: {} } });
const jobOf = (store: Store) => store.get().draft!.job;

describe('paths', () => {
  it('are written the way the engine names places, and read back', () => {
    const path = ['drivers', 'places', 0, 'width_mm'];
    expect(fieldName(path)).toBe('drivers.places[1].width_mm');
    expect(pathOf(fieldName(path))).toEqual(path);
  });

  it('change a copy and leave the original alone', () => {
    const before = { a: [{ b: 1 }, { b: 2 }] };
    const after = withValue(before, ['a', 1, 'b'], 3);
    expect(after).toEqual({ a: [{ b: 1 }, { b: 3 }] });
    expect(before.a[1]).toEqual({ b: 2 });
    expect(after.a[0]).toBe(before.a[0]);
  });
});

describe('fields', () => {
  it('take their label, unit and kind from the document', () => {
    expect(fieldSpec(['panel', 'width_mm'])).toMatchObject({
      label: 'Panel width',
      unit: 'mm',
      kind: 'number',
    });
    expect(fieldSpec(['drivers', 'reserve'])).toMatchObject({ unit: '%', kind: 'ratio' });
    expect(fieldSpec(['drivers', 'set_V'])).toMatchObject({ unit: 'V', nullable: true });
    expect(fieldSpec(['slots', 'spacing', 'pitch_mm'])).toMatchObject({ label: 'Slot pitch', unit: 'mm' });
    expect(() => fieldSpec(['panel', 'depth_mm'])).toThrow(RangeError);
  });
});

describe('typing', () => {
  it('follows what makes sense and keeps what does not', () => {
    const store = begun();
    typeText(store, 'panel.width_mm', '2000');
    expect(jobOf(store).panel.width_mm).toBe(2000);
    typeText(store, 'panel.width_mm', '2000x');
    expect(jobOf(store).panel.width_mm).toBe(2000);
    expect([...problemsOf(store.get().draft!).keys()]).toEqual(['panel.width_mm']);
    leave(store, 'panel.width_mm');
    expect(store.get().draft!.entries['panel.width_mm']).toBe('2000x');
    typeText(store, 'panel.width_mm', '2100');
    leave(store, 'panel.width_mm');
    expect(store.get().draft!.entries).toEqual({});
  });

  it('is one step of undo within a field, and nothing typed is lost by going back and forth', () => {
    const store = begun();
    for (const text of ['2', '21', '210', '2100']) typeText(store, 'panel.width_mm', text);
    typeText(store, 'panel.height_mm', 'tall');
    undo(store);
    expect(store.get().draft!.entries['panel.height_mm']).toBeUndefined();
    expect(jobOf(store).panel.width_mm).toBe(2100);
    undo(store);
    expect(jobOf(store)).toEqual(newJob());
    redo(store);
    redo(store);
    expect(store.get().draft!.entries['panel.height_mm']).toBe('tall');
  });

  it('empties a field that may stay empty', () => {
    const store = begun();
    typeText(store, 'drivers.set_V', '24.5');
    expect(jobOf(store).drivers.set_V).toBe(24.5);
    typeText(store, 'drivers.set_V', '');
    expect(jobOf(store).drivers.set_V).toBeNull();
  });
});

describe('data sheets', () => {
  it('override one field of a channel and are gone when it says what the catalogue says', () => {
    const store = begun();
    const name = 'strip.data.channels[1].watts_per_m';
    const sheet = stripCatalogue.find((entry) => entry.id === jobOf(store).strip.entry)!;
    typeText(store, name, '7.7');
    expect(jobOf(store).strip.data.channels).toEqual([{ ...sheet.channels[0], watts_per_m: 7.7 }]);
    choose(store, pathOf(name), sheet.channels[0]!.watts_per_m);
    expect(jobOf(store).strip.data).toEqual({});
  });

  it('go with the entry they belonged to, and levels follow the channels', () => {
    const store = begun();
    typeText(store, 'strip.data.width_mm', '7');
    const two = stripCatalogue.find((entry) => entry.channels.length === 2)!;
    chooseProduct(store, 'strip', two.id);
    expect(jobOf(store).strip.data).toEqual({});
    // 15 % of one channel becomes 7.5 % of each of two, never 15 % and 100 %.
    expect(jobOf(store).dimming.levels).toEqual([0.075, 0.075]);
    expect(store.get().notice?.sentences[0]).toContain('each now stands at 7.5\u202f%');
    undo(store);
    expect(jobOf(store).strip.data).toEqual({ width_mm: 7 });
  });

  it('lie over the trunk’s own entry, which is another than that of the branches', () => {
    const store = begun();
    chooseTrunk(store, '4mm2');
    expect(jobOf(store).cables.trunk).toEqual({ entry: '4mm2', data: {} });
    const name = 'cables.trunk.data.area_mm2';
    expect(sheetValue(jobOf(store), pathOf(name))).toBe(4);
    typeText(store, name, '6');
    expect(jobOf(store).cables.trunk).toEqual({ entry: '4mm2', data: { area_mm2: 6 } });
    expect(jobOf(store).cables.data).toEqual({});
    typeText(store, name, '4');
    expect(jobOf(store).cables.trunk).toEqual({ entry: '4mm2', data: {} });
    chooseTrunk(store, null);
    expect(jobOf(store).cables.trunk).toBeNull();
    expect(store.get().draft!.entries).toEqual({});
  });
});

describe('further driver models', () => {
  it('begin as the driver of the job, and lose their data sheet and what was typed in it with their entry', () => {
    const store = begun();
    alter(store, withOneMoreDriver);
    alter(store, withOneMoreDriver);
    expect(jobOf(store).drivers.also.map(({ entry }) => entry)).toEqual(
      Array(2).fill(jobOf(store).drivers.entry),
    );
    typeText(store, 'drivers.also[2].data.rated_W', '120');
    typeText(store, 'drivers.also[2].stock', '3');
    expect(jobOf(store).drivers.also[1]).toMatchObject({ data: { rated_W: 120 }, stock: 3 });
    typeText(store, 'drivers.also[2].data.tolerance', 'x');
    chooseFurtherDriver(store, 1, '24V-150W');
    expect(jobOf(store).drivers.also[1]).toEqual({ entry: '24V-150W', data: {}, stock: 3 });
    expect(store.get().draft!.entries).toEqual({ 'drivers.also[2].stock': '3' });
    expect(sheetValue(jobOf(store), ['drivers', 'also', 1, 'data', 'rated_W'])).toBe(150);
    expect(sheetValue(jobOf(store), ['drivers', 'also', 0, 'data', 'rated_W'])).not.toBe(150);
  });
});

describe('the whole job', () => {
  it('is changed in one step', () => {
    const store = begun();
    alter(store, (job) => ({ ...job, panel: { width_mm: 1, height_mm: 1 } }));
    undo(store);
    expect(jobOf(store)).toEqual(newJob());
  });
});

describe('cut lines to feed at', () => {
  it('are typed as whole numbers, parted in any way; other words are left out and stay as typed', () => {
    const store = begun();
    choose(store, ['feeds', 'arrangement'], 'chosen');
    typeText(store, 'feeds.cutLines', '0, 24;48 4.5');
    expect(jobOf(store).feeds.cutLines).toEqual([0, 24, 48]);
    leave(store, 'feeds.cutLines');
    expect(store.get().draft!.entries['feeds.cutLines']).toBe('0, 24;48 4.5');
    typeText(store, 'feeds.cutLines', '99999');
    expect(problemsOf(store.get().draft!).get('feeds.cutLines')).toMatch(
      /^Cut line must lie between 0 and 10,000/,
    );
    expect(jobOf(store).feeds.cutLines).toEqual([0, 24, 48]);
    undo(store);
    expect(jobOf(store).feeds.cutLines).toEqual([]);
  });
});

describe('what is added gets a name of its own', () => {
  const exceptions = [1, 2, 5].map((slot) => ({
    ...{ slot, arrangement: 'both' as const, betweenCount: 1 },
    cutLines: [],
  }));

  it('an exception the chosen slot, or the first slot without one', () => {
    expect([firstFree(7, exceptions), firstFree(5, exceptions), firstFree(1, [])]).toEqual([7, 3, 1]);
  });

  it('a driver place a number that no place has', () => {
    const [place] = newJob().drivers.places;
    const named = (...names: string[]) => names.map((name) => ({ ...place!, name }));
    expect(freePlaceName(named('Plinth'))).toBe('Place 2');
    expect(freePlaceName(named('Plinth', 'Place 3'))).toBe('Place 4');
  });
});
