import { html, nothing, type TemplateResult } from 'lit';
import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';
import type { Job } from '../../src/job/job.ts';
import { askScheduleCsv } from '../api.ts';
import { counted, tableFigure, unitText } from '../format.ts';
import { belongingTo, type PickedPart, partNamed } from '../state/belonging.ts';
import { documentStatus } from '../state/document-status.ts';
import { saveFile } from '../state/files.ts';
import { pick } from '../state/jump.ts';
import { readingBox, tickBox } from '../state/readings.ts';
import type { Answer, State } from '../state/store.ts';
import { readingEntry, tickEntry } from './reading-box.ts';
import './reading-verdict.ts';
import { StoreElement } from './store-element.ts';

type Column = Schedule['columns'][number];

function cellText(cell: ScheduleCell | undefined, column: Column): string {
  if (typeof cell === 'number') return tableFigure(cell, column.digits);
  return cell ?? '';
}

/** A column is set to the right where it holds figures. */
const isFigures = (schedule: Schedule, index: number): boolean =>
  schedule.rows.some((row) => typeof row[index] === 'number');

/** Text of up to this many letters stays on one line. */
const shortText = 24;

function heading(column: Column): TemplateResult {
  return html`${column.label}${column.unit ? html` <span class="column-unit">${unitText(column.unit)}</span>` : nothing}`;
}

const labelOf = ({ label, unit }: Column): string => (unit === '' ? label : `${label} ${unitText(unit)}`);

/** Heads every sheet a table runs over: what it is, of which document and revision. */
function paperTitle(schedule: Schedule, { title }: Job, status: string): string {
  const revision = title.revision === '' ? '' : `revision ${title.revision}`;
  return [schedule.title, title.job, title.documentNumber, revision, status]
    .filter((part) => part !== '')
    .join(', ');
}

/** Stands in the box of a measurement that does not apply. */
const notMeasured = '\u2013';

/** What a cell shows: its text, or a box to type into. */
type Box = (row: number, column: number) => TemplateResult | undefined;

/** What a row of the wiring is about, and how it is marked on the wall and here. */
interface Marking {
  readonly part: (name: string) => PickedPart | undefined;
  readonly isAlong: (part: PickedPart) => boolean;
  readonly pick: (part: PickedPart) => void;
}

/** The name that heads a row; that of a cable, feed point or driver marks it on the wall. */
function rowName(name: string, part: PickedPart | undefined, { isAlong, pick }: Marking): TemplateResult {
  if (!part) return html`${name}`;
  return html`<button type="button" class="plain" aria-pressed=${isAlong(part) ? 'true' : 'false'} @click=${() => pick(part)}>
    ${name}
  </button>`;
}

interface TableParts {
  readonly box: Box;
  readonly marking: Marking;
  readonly status: string;
}

/** How a cell is set: figures, a short word, a box to fill, or running text. */
function cellClass(cell: ScheduleCell | undefined, isFigure: boolean): string {
  if (isFigure) return cell === null ? 'is-figure is-nothing' : 'is-figure';
  if (cell === notMeasured) return 'is-short is-nothing';
  if (cell === null) return 'is-to-fill';
  return String(cell).length <= shortText ? 'is-short' : '';
}

function table(schedule: Schedule, job: Job, { box, marking, status }: TableParts): TemplateResult {
  const figures = schedule.columns.map((_, i) => isFigures(schedule, i));
  const parts = schedule.rows.map(([name]) => marking.part(String(name ?? '')));
  const shown = (number: number, i: number): TemplateResult | string => {
    const text = cellText(schedule.rows[number]?.[i], schedule.columns[i]!);
    return box(number, i) ?? (i === 0 ? rowName(text, parts[number], marking) : text);
  };
  const rowClass = (part: PickedPart | undefined): string =>
    part && marking.isAlong(part) ? 'is-marked' : '';
  return html`${schedule.notes.map((note) => html`<p class="schedule-note">${note}</p>`)}<table>
    <caption>${schedule.title}</caption>
    <thead>
      <tr class="paper-title">
        <th colspan=${schedule.columns.length}>${paperTitle(schedule, job, status)}</th>
      </tr>
      <tr>
        ${schedule.columns.map(
          (column, i) => html`<th scope="col" class=${figures[i] ? 'is-figure' : ''}>${heading(column)}</th>`,
        )}
      </tr>
    </thead>
    <tbody>
      ${schedule.rows.map(
        (row, number) =>
          html`<tr class=${rowClass(parts[number])}>
            ${schedule.columns.map(
              (column, i) =>
                html`<td class=${cellClass(row[i], figures[i] === true)} data-label=${labelOf(column)}>${shown(number, i)}</td>`,
            )}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** The papers of the electrician and the maker as tables: one at a time on the screen, all of them on paper. */
export class ScheduleTables extends StoreElement {
  static override properties = { chosen: { state: true } };
  declare chosen: string;
  private isPrinting = false;

  protected override shows({ answer, draft, measured, marked }: State): readonly unknown[] {
    return [answer?.sizing, draft?.readings, measured, marked];
  }

  constructor() {
    super();
    this.chosen = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.store.get().frozen?.brought.readings.length) this.chosen = 'test-sheet';
    window.addEventListener('beforeprint', this.beforePrint);
    window.addEventListener('afterprint', this.afterPrint);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('beforeprint', this.beforePrint);
    window.removeEventListener('afterprint', this.afterPrint);
    super.disconnectedCallback();
  }

  /** Paper takes what is there when this returns, so that everything is drawn at once. */
  private readonly beforePrint = (): void => {
    this.isPrinting = true;
    this.requestUpdate();
    this.performUpdate();
  };

  private readonly afterPrint = (): void => {
    this.isPrinting = false;
    this.requestUpdate();
  };

  private async saveCsv(schedule: Schedule): Promise<void> {
    const { answer } = this.store.get();
    if (!answer) return;
    const reply = await askScheduleCsv(schedule.id, answer.job);
    if (reply.kind === 'answer') saveFile(`${schedule.id}.csv`, reply.value);
    else if (reply.kind !== 'withdrawn') {
      this.store.set({ notice: { title: 'The table was not saved.', sentences: [reply.detail] } });
    }
  }

  private marking({ sizing }: Answer): Marking {
    const belonging = belongingTo(sizing, this.store.get().marked);
    return {
      part: (name) => partNamed(sizing, name),
      isAlong: ({ cable, feedPoint, driver }) =>
        belonging.cables.has(cable ?? '') ||
        belonging.feedPoints.has(feedPoint ?? '') ||
        belonging.drivers.has(driver ?? ''),
      pick: (part) => pick(this.store, part),
    };
  }

  /** The boxes for readings stand on the test sheet; those of an issued one are kept in the workshop's folder. */
  private boxOf(schedule: Schedule): Box {
    const { draft, frozen, measured } = this.store.get();
    if (schedule.id !== 'test-sheet' || (frozen && !measured)) return () => undefined;
    return (row, column) => {
      const readings = draft?.readings ?? {};
      const [box, tick] = [
        readingBox(schedule, row, column, readings),
        tickBox(schedule, row, column, readings),
      ];
      return tick ? tickEntry(this.store, tick) : box && readingEntry(this.store, box);
    };
  }

  private move(event: KeyboardEvent, schedules: readonly Schedule[], index: number): void {
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    const next = schedules[(index + step + schedules.length) % schedules.length];
    if (step === 0 || !next) return;
    event.preventDefault();
    this.chosen = next.id;
    void this.updateComplete.then(() => document.getElementById(`tab-${next.id}`)?.focus());
  }

  private tab(
    schedule: Schedule,
    schedules: readonly Schedule[],
    index: number,
    chosen: string,
  ): TemplateResult {
    const is = schedule.id === chosen;
    return html`<button
      type="button"
      role="tab"
      id="tab-${schedule.id}"
      aria-selected=${is ? 'true' : 'false'}
      aria-controls="schedule-${schedule.id}"
      tabindex=${is ? 0 : -1}
      @click=${() => {
        this.chosen = schedule.id;
      }}
      @keydown=${(event: KeyboardEvent) => this.move(event, schedules, index)}
    >
      ${schedule.title}
    </button>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { answer } = this.store.get();
    const schedules = answer?.sizing.schedules ?? [];
    const first = schedules[0];
    if (!answer || !first) return nothing;
    const chosen = schedules.some((schedule) => schedule.id === this.chosen) ? this.chosen : first.id;
    return html`<h2>Schedules</h2>
      <div class="tabs" role="tablist" aria-label="Schedules">
        ${schedules.map((schedule, i) => this.tab(schedule, schedules, i, chosen))}
      </div>
      ${schedules.map((schedule) => this.panel(schedule, answer, schedule.id === chosen))}`;
  }

  /** A table that is not looked at is drawn for paper only: hidden rows cost as much as others. */
  private panel(schedule: Schedule, answer: Answer, isChosen: boolean): TemplateResult {
    return html`<section
      class="schedule ${isChosen ? '' : 'is-away'} is-${schedule.id}"
      role="tabpanel"
      id="schedule-${schedule.id}"
      aria-labelledby="tab-${schedule.id}"
      tabindex="0"
    >
      ${schedule.id === 'test-sheet' ? html`<reading-verdict .store=${this.store}></reading-verdict>` : nothing}
      ${isChosen || this.isPrinting ? this.content(schedule, answer) : nothing}
    </section>`;
  }

  private content(schedule: Schedule, answer: Answer): TemplateResult {
    const isReading = this.store.get().frozen !== undefined;
    const save = html`<button type="button" @click=${() => void this.saveCsv(schedule)}>Save as CSV</button>`;
    const status = documentStatus(this.store.get());
    const parts = { box: this.boxOf(schedule), marking: this.marking(answer), status };
    return html`${table(schedule, answer.job, parts)}
      <p class="table-foot">${counted(schedule.rows.length, 'row')} ${isReading ? nothing : save}</p>`;
  }
}

customElements.define('schedule-tables', ScheduleTables);
