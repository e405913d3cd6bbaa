import type { Schedule } from '../../src/answer/schedules.ts';
import type { judgeReadings } from '../../src/index.ts';
import type { OnSiteData, Verdict } from './data.ts';
import { element } from './elements.ts';
import {
  type Box,
  boxesOf,
  judged,
  keyOf,
  readingIn,
  recordText,
  type Taken,
  writtenRows,
} from './readings.ts';
import { drawnWall } from './wall.ts';

type Asked = Parameters<typeof judgeReadings>;
type Judge = (asked: Asked) => Verdict;

/** What was typed and is kept in the browser between two openings of the file, as far as it lets us. */
function keptIn(key: string) {
  return {
    read: (): Taken[] => {
      try {
        return JSON.parse(localStorage.getItem(key) ?? '[]') as Taken[];
      } catch {
        return [];
      }
    },
    write: (taken: readonly Taken[]): void => {
      try {
        localStorage.setItem(key, JSON.stringify(taken));
      } catch {
        // A browser that keeps nothing for files still lets the readings be saved.
      }
    },
  };
}

/** Asks in a thread of its own, from the page's own script; on the page where the browser allows none. */
function asking(code: string, judge: Judge): (asked: Asked, then: (verdict: Verdict) => void) => void {
  let number = 0;
  let waiting: (verdict: Verdict) => void = () => undefined;
  let worker: Worker | undefined;
  try {
    worker = new Worker(URL.createObjectURL(new Blob([code], { type: 'text/javascript' })));
    worker.onmessage = ({ data }: MessageEvent<{ id: number; verdict: Verdict }>) => {
      if (data.id === number) waiting(data.verdict);
    };
  } catch {
    worker = undefined;
  }
  return (asked, then) => {
    number++;
    waiting = then;
    if (worker) worker.postMessage({ id: number, asked });
    else setTimeout(() => then(judge(asked)), 50);
  };
}

const shown = (value: number, digits: number): string => value.toFixed(digits);

function scheduleTable(schedule: Schedule): HTMLElement {
  const text = (cell: Schedule['rows'][number][number], i: number): string =>
    typeof cell === 'number' ? shown(cell, schedule.columns[i]!.digits) : (cell ?? '');
  const head = schedule.columns.map(({ label, unit }) =>
    element('th', { scope: 'col' }, unit === '' ? label : `${label}, ${unit}`),
  );
  const rows = schedule.rows.map((row) =>
    element('tr', {}, ...row.map((cell, i) => element('td', {}, text(cell, i)))),
  );
  return element(
    'details',
    {},
    element(
      'summary',
      {},
      `${schedule.title}, ${schedule.rows.length} ${schedule.rows.length === 1 ? 'row' : 'rows'}`,
    ),
    ...schedule.notes.map((note) => element('p', {}, note)),
    element(
      'div',
      { class: 'wide', tabindex: '0', role: 'region', 'aria-label': schedule.title },
      element('table', {}, element('thead', {}, element('tr', {}, ...head)), element('tbody', {}, ...rows)),
    ),
  );
}

/** Builds the page from the data of one revision: wall, slot, readings, verdict, file, schedules. */
export function showPage(data: OnSiteData, code: string, judge: Judge): void {
  const sheet = data.schedules.find(({ id }) => id === 'test-sheet')!;
  const { revision } = data;
  const kept = keptIn(
    `slotwatt ${revision ? `${revision.jobId} ${revision.id} ${revision.issued}` : data.about}`,
  );
  const taken = new Map<string, Taken>(kept.read().map((one) => [keyOf(one), one]));
  const boxes = new Map(sheet.rows.map((row) => [String(row[0]), boxesOf(sheet, row)]));
  const slotOf = new Map(data.slots.flatMap(({ id, rows }) => rows.map((row) => [row, id] as const)));
  const others = [...boxes.keys()].filter((row) => !slotOf.has(row));
  const isStep = (row: string): boolean => boxes.get(row)!.every(({ band }) => band === null);
  const byWhom = document.querySelector<HTMLInputElement>('#by')!;
  const place = document.querySelector<HTMLSelectElement>('#place')!;
  const facts = document.querySelector<HTMLElement>('#facts')!;
  const form = document.querySelector<HTMLElement>('#boxes')!;
  const verdict = document.querySelector<HTMLElement>('#verdict')!;
  const counts = document.querySelector<HTMLElement>('#counts')!;
  const ask = asking(code, judge);

  const wall = drawnWall(data, (slot) => choose(slot));
  document.querySelector('#wall')!.append(wall.element);

  const isWrong = (box: Box): boolean => {
    const one = taken.get(keyOf(box));
    return one !== undefined && box.band !== null && judged(box, one.value) !== 'in its band';
  };

  function summary(): void {
    const all = [...boxes.values()].flat();
    const wrong = all.filter(isWrong);
    counts.textContent = `${taken.size} of ${all.length} boxes filled in, ${wrong.length} outside ${wrong.length === 1 ? 'its band' : 'their bands'}.`;
    wall.mark(place.value, new Set(wrong.flatMap(({ row }) => slotOf.get(row) ?? [])));
  }

  function judgeAll(): void {
    const written = writtenRows([...taken.values()]);
    if (written.length === 0) {
      verdict.replaceChildren(element('p', {}, 'No reading yet.'));
      return;
    }
    verdict.setAttribute('aria-busy', 'true');
    ask([data.job, written], ({ sentence, suspects }) => {
      verdict.removeAttribute('aria-busy');
      verdict.replaceChildren(
        element('p', {}, sentence),
        ...(suspects.length > 1
          ? [element('ul', {}, ...suspects.map((text) => element('li', {}, text)))]
          : []),
      );
    });
  }

  let soon: ReturnType<typeof setTimeout> | undefined;
  function changed(): void {
    kept.write([...taken.values()]);
    summary();
    clearTimeout(soon);
    soon = setTimeout(judgeAll, 600);
  }

  function take(box: Box, value: number | 'OL' | undefined): void {
    const before = taken.get(keyOf(box));
    if (before?.value === value) return;
    const { row, quantity } = box;
    if (value === undefined) taken.delete(keyOf(box));
    else
      taken.set(keyOf(box), { row, quantity, value, by: byWhom.value.trim(), at: new Date().toISOString() });
    changed();
  }

  function tickBox(box: Box): HTMLElement {
    const input = element('input', { type: 'checkbox', checked: taken.has(keyOf(box)) });
    input.addEventListener('change', () => take(box, input.checked ? 1 : undefined));
    return element('label', { class: 'tick' }, input, ` ${box.label}`);
  }

  function readingBox(box: Box): HTMLElement {
    const { low, high, digits } = box.band!;
    const id = `box ${keyOf(box)}`.replaceAll(/\W/g, '-');
    const input = element('input', {
      id,
      inputmode: 'decimal',
      autocomplete: 'off',
      'aria-describedby': `${id}-says`,
    });
    const says = element('span', { id: `${id}-says`, class: 'says', 'aria-live': 'polite' });
    const show = (isTyped: boolean): void => {
      const value = readingIn(input.value, box.quantity);
      if (isTyped) take(box, value);
      const isEmpty = input.value.trim() === '';
      const text = isEmpty
        ? ''
        : value === undefined
          ? 'not a reading: a number, or OL for an open loop'
          : judged(box, value);
      says.textContent = text;
      says.className = `says ${text === 'in its band' ? 'is-in' : text === '' ? '' : 'is-out'}`;
    };
    const before = taken.get(keyOf(box));
    input.value = before === undefined ? '' : String(before.value);
    input.addEventListener('input', () => show(true));
    show(false);
    const band = `${shown(low, digits)} to ${shown(high, digits)} ${box.unit}`;
    return element(
      'div',
      { class: 'box' },
      element('label', { for: id }, `${box.label}: ${band}`),
      input,
      says,
    );
  }

  function rowSet(row: string): HTMLElement {
    const step = sheet.rows.find(([ref]) => ref === row)![1];
    return element(
      'fieldset',
      {},
      element('legend', {}, row),
      element('p', { class: 'step' }, String(step)),
      ...boxes.get(row)!.map((box) => (box.band ? readingBox(box) : tickBox(box))),
    );
  }

  function choose(name: string): void {
    place.value = name;
    const slot = data.slots.find(({ id }) => id === name);
    const rows = slot ? slot.rows : others.filter((row) => (name === 'steps') === isStep(row));
    facts.replaceChildren(
      ...(slot?.facts ?? []).flatMap(([what, text]) => [element('dt', {}, what), element('dd', {}, text)]),
    );
    form.replaceChildren(...rows.map(rowSet));
    summary();
  }

  place.append(
    element('option', { value: 'steps' }, 'Steps of the test'),
    element('option', { value: 'outputs' }, 'Outputs of the drivers'),
    ...data.slots.map(({ id }) => element('option', { value: id }, `Slot ${id}`)),
  );
  place.addEventListener('change', () => choose(place.value));
  const step = (by: number): void => {
    place.selectedIndex = Math.min(place.options.length - 1, Math.max(0, place.selectedIndex + by));
    choose(place.value);
  };
  document.querySelector('#before')!.addEventListener('click', () => step(-1));
  document.querySelector('#next')!.addEventListener('click', () => step(1));
  document.querySelector('#save')!.addEventListener('click', () => {
    const link = element('a', { download: `${document.body.dataset.file ?? 'readings'}-readings.json` });
    link.href = URL.createObjectURL(
      new Blob([recordText(data, [...taken.values()])], { type: 'application/json' }),
    );
    link.click();
  });
  document
    .querySelector('#schedules')!
    .append(...data.schedules.filter(({ id }) => id !== 'test-sheet').map(scheduleTable));
  choose('steps');
  judgeAll();
}
