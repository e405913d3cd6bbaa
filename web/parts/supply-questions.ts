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

/** Which models of drivers would do, alone or mixed, side by side. */
export class DriversQuestions extends StoreElement {
  private readonly asking = new Asking<AskedDrivers>(this, askDrivers);

  protected override shows({ answer, draft, standing }: State): readonly unknown[] {
    return [answer, draft, standing];
  }

  private rows({ value, of }: Given<AskedDrivers>): TemplateResult {
    return html`<table class="small-table">
      <caption>
        Which drivers
      </caption>
      <thead>
        <tr>
          <th scope="col">Drivers</th>
          <th scope="col" class="is-figure">Price</th>
          <th scope="col" class="is-figure">Most loaded</th>
          <th scope="col" class="is-figure">From the mains</th>
          <th scope="col"><span class="unseen">Apply</span></th>
        </tr>
      </thead>
      <tbody>
        ${value.rows.map(
          (row) =>
            html`<tr>
              <th scope="row">
                ${kindText[row.kind]}${row.name} ${verdict(row)}
                ${row.why === null ? '' : html`<span class="hint">${row.why}</span>`}
              </th>
              <td class="is-figure">${row.price_cents === null ? none : money(row.price_cents)}</td>
              <td class="is-figure">${row.load === null ? none : percent(row.load, 0)}</td>
              <td class="is-figure">${drawn(row.input_W)}</td>
              <td class="is-act">${applyButton(this.store, driversProposal(row))}</td>
            </tr>`,
        )}
      </tbody>
    </table>
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
    return html`<table class="small-table">
      <caption>
        Which layout
      </caption>
      <thead>
        <tr>
          <th scope="col">Layout</th>
          <th scope="col" class="is-figure">Cable in all</th>
          <th scope="col" class="is-figure">Worst drop, of ${percent(of.job.site.dropLimit)}</th>
          <th scope="col"><span class="unseen">Apply</span></th>
        </tr>
      </thead>
      <tbody>
        ${value.rows.map(
          (row) =>
            html`<tr>
              <th scope="row">
                ${row.zoneName === null ? 'The wall' : `Zone ${row.zoneName}`}: ${choiceText('layout', row.layout, '')}
                ${verdict(row)} ${row.why === null ? '' : html`<span class="hint">${row.why}</span>`}
              </th>
              <td class="is-figure">${row.cable_m === null ? none : quantity(row.cable_m, 'm', 1)}</td>
              <td class="is-figure">${row.drop === null ? none : percent(row.drop)}</td>
              <td class="is-act">${applyButton(this.store, layoutRowProposal(row, of.job))}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
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
