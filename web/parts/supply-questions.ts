import { html, type TemplateResult } from 'lit';
import type { AskedDrivers, AskedLayouts } from '../../src/answer/asked.ts';
import { askDrivers, askLayouts } from '../api.ts';
import { money, percent, quantity } from '../format.ts';
import { Asking, type Given } from '../state/asking.ts';
import type { State } from '../state/store.ts';
import { driversProposal, layoutRowProposal } from '../state/supply-proposals.ts';
import { choiceText } from '../words.ts';
import { applyButton, askedFold, remarkList } from './asked-fold.ts';
import { StoreElement } from './store-element.ts';

const verdict = ({ passes }: { readonly passes: boolean }): TemplateResult =>
  html`<span class="verdict ${passes ? 'is-enough' : 'is-short'}">${passes ? 'passes' : 'not passed'}</span>`;

const none = '–';

const drawn = (input_W: number | null): string => (input_W === null ? none : quantity(input_W, 'W', 0));

const kindText = { 'as it is': 'The job as it is: ', 'one model': '', mix: 'Mixed: ' } as const;

interface QuestionTable {
  readonly caption: string;
  /** Of the columns after the first, which are figures. */
  readonly figures: readonly string[];
  readonly first: string;
  readonly rows: readonly QuestionRow[];
}

interface QuestionRow {
  readonly name: TemplateResult;
  readonly passes: boolean;
  readonly why: string | null;
  readonly figures: readonly string[];
  readonly act: unknown;
}

/** Choices side by side: what each is, whether it passes and why not, its figures, and a button that takes it. */
function questionTable({ caption, first, figures, rows }: QuestionTable): TemplateResult {
  return html`<table class="small-table">
    <caption>
      ${caption}
    </caption>
    <thead>
      <tr>
        <th scope="col">${first}</th>
        ${figures.map((label) => html`<th scope="col" class="is-figure">${label}</th>`)}
        <th scope="col"><span class="unseen">Apply</span></th>
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        (row) =>
          html`<tr>
            <th scope="row">
              ${row.name} ${verdict(row)} ${row.why === null ? '' : html`<span class="hint">${row.why}</span>`}
            </th>
            ${row.figures.map((text) => html`<td class="is-figure">${text}</td>`)}
            <td class="is-act">${row.act}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Which models of drivers would do, alone or mixed, side by side. */
export class DriversQuestions extends StoreElement {
  private readonly asking = new Asking<AskedDrivers>(this, askDrivers);

  protected override shows({ answer, draft, standing }: State): readonly unknown[] {
    return [answer, draft, standing];
  }

  private rows({ value, of }: Given<AskedDrivers>): TemplateResult {
    const table = questionTable({
      caption: 'Which drivers',
      first: 'Drivers',
      figures: ['Price', 'Most loaded', 'From the mains'],
      rows: value.rows.map((row) => ({
        ...{ passes: row.passes, why: row.why, act: applyButton(this.store, driversProposal(row)) },
        name: html`${kindText[row.kind]}${row.name}`,
        figures: [
          row.price_cents === null ? none : money(row.price_cents),
          row.load === null ? none : percent(row.load, 0),
          drawn(row.input_W),
        ],
      })),
    });
    return html`${table}
    ${of.job.prices.note === '' ? '' : html`<p class="remark">Prices: ${of.job.prices.note}</p>`}`;
  }

  override render(): TemplateResult {
    return askedFold(this.asking, this.store, {
      title: 'Ask for other drivers',
      digest: 'Which model, or which mix, how many of them, at what price?',
      body: (given) => html`${this.rows(given)} ${remarkList(given.value.remarks)}`,
    });
  }
}

/** Which layouts of cables would do, for the wall and zone by zone, side by side. */
export class LayoutQuestions extends StoreElement {
  private readonly asking = new Asking<AskedLayouts>(this, askLayouts);

  protected override shows({ answer, draft, standing }: State): readonly unknown[] {
    return [answer, draft, standing];
  }

  private rows({ value, of }: Given<AskedLayouts>): TemplateResult {
    return questionTable({
      caption: 'Which layout',
      first: 'Layout',
      figures: ['Cable in all', `Worst drop, of ${percent(of.job.site.dropLimit)}`],
      rows: value.rows.map((row) => ({
        ...{ passes: row.passes, why: row.why, act: applyButton(this.store, layoutRowProposal(row, of.job)) },
        name: html`${row.zoneName === null ? 'The wall' : `Zone ${row.zoneName}`}: ${choiceText('layout', row.layout, '')}`,
        figures: [
          row.cable_m === null ? none : quantity(row.cable_m, 'm', 1),
          row.drop === null ? none : percent(row.drop),
        ],
      })),
    });
  }

  override render(): TemplateResult {
    return askedFold(this.asking, this.store, {
      title: 'Ask for another layout',
      digest: 'One cable to each feed point, a trunk, a ring or from run to run: how much cable, which drop?',
      body: (given) => html`${this.rows(given)} ${remarkList(given.value.remarks)}`,
    });
  }
}

customElements.define('drivers-questions', DriversQuestions);
customElements.define('layout-questions', LayoutQuestions);
