import { html, nothing, type TemplateResult } from 'lit';
import type { AskedCircuit } from '../../src/answer/asked.ts';
import { askCircuit } from '../api.ts';
import { counted, percent, quantity } from '../format.ts';
import { Asking, type Given } from '../state/asking.ts';
import { arrangementProposal, cableProposal, voltsProposal } from '../state/proposals.ts';
import type { State } from '../state/store.ts';
import { applyButton, askedFold, remarkList } from './asked-fold.ts';
import { StoreElement } from './store-element.ts';

const metres = (length_m: number | null): string => (length_m === null ? 'none' : quantity(length_m, 'm', 2));

const enoughText = (enough: boolean): TemplateResult =>
  html`<span class="verdict ${enough ? 'is-enough' : 'is-short'}">${enough ? 'enough' : 'not enough'}</span>`;

/** What a run may be, how thin its cable, how few its feed points, and which volts suit the wall. */
export class CircuitQuestions extends StoreElement {
  private readonly asking = new Asking<AskedCircuit>(this, askCircuit);

  protected override shows({ answer, draft, standing }: State): readonly unknown[] {
    return [answer, draft, standing];
  }

  private subject({ value }: Given<AskedCircuit>): TemplateResult {
    return html`<p>
      Asked of
      <button type="button" class="plain" @click=${() => this.store.set({ chosenRun: value.run })}>run ${value.run}</button
      >, which drops most: ${metres(value.run_m)} of strip on ${metres(value.lead_m)} of cable.
    </p>`;
  }

  private longest({ value, of }: Given<AskedCircuit>): TemplateResult {
    const { dropLimit, fallLimit } = of.job.site;
    const makers_mm = of.sizing.products.strip.longestRun_mm;
    const reaches = ({ byDrop_m, byFall_m }: AskedCircuit['longest'][number]): boolean =>
      Math.min(byDrop_m ?? 0, byFall_m ?? 0) >= value.run_m;
    return html`<table class="small-table">
        <caption>
          How long a run could be
        </caption>
        <thead>
          <tr>
            <th scope="col">Fed</th>
            <th scope="col" class="is-figure">by a drop of ${percent(dropLimit)}</th>
            <th scope="col" class="is-figure">by a brightness drop-off of ${percent(fallLimit, 0)}</th>
            <th scope="col"><span class="unseen">Apply</span></th>
          </tr>
        </thead>
        <tbody>
          ${value.longest.map(
            (row) =>
              html`<tr>
                <th scope="row">${row.arrangement} ${enoughText(reaches(row))}</th>
                <td class="is-figure">${metres(row.byDrop_m)}</td>
                <td class="is-figure">${metres(row.byFall_m)}</td>
                <td class="is-act">${applyButton(this.store, arrangementProposal(row, of.job))}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <p class="remark">
        With the same cable up to each feed point. The shorter of the two counts.
        ${typeof makers_mm === 'number' ? `The maker of the strip names ${quantity(makers_mm, 'mm')} at most from one end.` : ''}
      </p>`;
  }

  private sizes({ value, of }: Given<AskedCircuit>): TemplateResult | typeof nothing {
    if (value.sizes.length === 0) return nothing;
    const least = value.sizes.find(({ entry }) => entry === value.leastSize);
    return html`<table class="small-table">
        <caption>
          ${
            least === undefined
              ? 'How thin a cable: none of these is thick enough'
              : `How thin a cable: ${least.name} is enough`
          }
        </caption>
        <thead>
          <tr>
            <th scope="col">Every cable</th>
            <th scope="col" class="is-figure">Worst drop, of ${percent(of.job.site.dropLimit)}</th>
            <th scope="col"><span class="unseen">Apply</span></th>
          </tr>
        </thead>
        <tbody>
          ${value.sizes.map(
            ({ entry, name, drop, enough }) =>
              html`<tr class=${entry === least?.entry ? 'is-least' : ''}>
                <th scope="row">
                  ${name}
                  ${entry === least?.entry ? html`<span class="verdict is-enough">least that is enough</span>` : enoughText(enough)}
                </th>
                <td class="is-figure">${percent(drop)}</td>
                <td class="is-act">${applyButton(this.store, cableProposal(entry))}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <p class="remark">By drop alone. Whether a cable may carry its current, and what protects it, stands among the findings.</p>`;
  }

  private feeds({ value, of }: Given<AskedCircuit>): TemplateResult | typeof nothing {
    if (value.feeds.length === 0) return nothing;
    const least = value.leastFeedCount;
    const { length } = of.job.feeds.exceptions;
    return html`<table class="small-table">
        <caption>
          How few feed points: ${least === null ? 'no number of them is enough' : `${counted(least, 'for a run is', 'for a run are')} enough`}
        </caption>
        <thead>
          <tr>
            <th scope="col">Fed</th>
            <th scope="col" class="is-figure">Drop</th>
            <th scope="col" class="is-figure">Brightness drop-off</th>
            <th scope="col"><span class="unseen">Apply</span></th>
          </tr>
        </thead>
        <tbody>
          ${value.feeds.map(
            (row) =>
              html`<tr class=${row.feedCount === least ? 'is-least' : ''}>
                <th scope="row">${row.arrangement} ${enoughText(row.enough)}</th>
                <td class="is-figure">${percent(row.drop)}</td>
                <td class="is-figure">${percent(row.fall)}</td>
                <td class="is-act">${applyButton(this.store, arrangementProposal(row, of.job))}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${length > 0 ? html`<p class="remark">${counted(length, 'slot that is', 'slots that are')} fed another way ${length === 1 ? 'stays' : 'stay'} so.</p>` : nothing}`;
  }

  private volts({ value, of }: Given<AskedCircuit>): TemplateResult {
    const { middle } = value;
    if (!middle) {
      return html`<p><strong>Volts to set:</strong> none within a tenth of the drivers’ own put the wall about nominal.</p>`;
    }
    const set_V = of.job.drivers.set_V;
    return html`<p class="with-apply">
      <span>
        <strong>Volts to set at the drivers: ${quantity(middle.set_V, 'V')}.</strong>
        The cut units of the wall then get from ${percent(middle.lowest)} to ${percent(middle.highest)} of their nominal
        volts. ${set_V === null ? 'The drivers stand at their nominal volts now.' : `The drivers stand at ${quantity(set_V, 'V')} now.`}
        Their data sheet says whether they can be trimmed.
      </span>
      ${applyButton(this.store, voltsProposal(middle.set_V))}
    </p>`;
  }

  override render(): TemplateResult {
    return askedFold(this.asking, this.store, {
      title: 'Ask the circuit',
      digest: 'How long could a run be, how thin a cable, how few feed points, which volts to set?',
      body: (given) =>
        html`${this.subject(given)} ${this.volts(given)}
          <div class="three-tables">
            <div class="asked-part">${this.longest(given)}</div>
            <div class="asked-part">${this.sizes(given)}</div>
            <div class="asked-part">${this.feeds(given)}</div>
          </div>
          ${remarkList(given.value.remarks)}`,
    });
  }
}

customElements.define('circuit-questions', CircuitQuestions);
