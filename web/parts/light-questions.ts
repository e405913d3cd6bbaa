import { html, nothing, type TemplateResult } from 'lit';
import type { AskedLight } from '../../src/answer/asked.ts';
import { brightnessBand } from '../../src/answer/brightness.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { askLight } from '../api.ts';
import { counted, fixed, levelText, quantity } from '../format.ts';
import { Asking, type Given } from '../state/asking.ts';
import { cavityProposal, levelOf, stripProposal } from '../state/proposals.ts';
import type { State } from '../state/store.ts';
import { applyButton, askedFold, remarkList } from './asked-fold.ts';
import { StoreElement } from './store-element.ts';

type Strip = AskedLight['strips'][number];

const watts = (w_per_m: number): string => quantity(w_per_m, 'W/m', w_per_m < 10 ? 2 : 1);

/** Whether a catalogue strip has lamps enough to hide them at the depth of the job; undefined where none has. */
function hidesDots(id: string, least: number | null): boolean | undefined {
  const lamps = stripCatalogue.find((entry) => entry.id === id)?.lampsPerMetre;
  return lamps === undefined || least === null ? undefined : lamps >= least;
}

/** What a strip is worth here: `enough, hot spots hidden`. */
function stripVerdict({ id, enough }: Strip, least: number | null): TemplateResult {
  const hides = hidesDots(id, least);
  const dots = hides === undefined ? '' : hides ? ', hot spots hidden' : ', hot spots show';
  const kind = enough && hides !== false ? 'is-enough' : 'is-short';
  return html`<span class="verdict ${kind}">${enough ? 'enough' : 'not enough'}${dots}</span>`;
}

/** How little strip the wanted brightness needs, what the chosen one costs beyond that, and what hides the lamps. */
export class LightQuestions extends StoreElement {
  private readonly asking = new Asking<AskedLight>(this, askLight);

  protected override shows({ answer, draft, standing }: State): readonly unknown[] {
    return [answer, draft, standing];
  }

  private wanted({ value, of }: Given<AskedLight>): TemplateResult {
    const { needed, given } = value;
    const { zones } = of.sizing.light;
    const wanted = Math.max(...zones.map((zone) => zone.wanted_cd_per_m2));
    const most = zones.length > 1 ? ' in the zone that wants most' : '';
    const asked = `${quantity(wanted, 'cd/m²')}, ${brightnessBand(wanted).name}${most}`;
    if (needed.level > 1) {
      return html`<p>
        <strong>The chosen strip is not enough.</strong> Wanted: ${asked}. At full it gives
        ${quantity(given.seen_cd_per_m2, 'cd/m²')} at nominal current; it would take ${quantity(needed.flux_lm_per_m, 'lm/m')}, and it has
        ${quantity(given.flux_lm_per_m, 'lm/m')}.
      </p>`;
    }
    return html`<p>
      <strong>The chosen strip is enough at a working level of ${levelText(levelOf(needed.level))}.</strong> Wanted: ${asked}, at the
      dimmest cut unit of the wall. At full ${quantity(needed.flux_lm_per_m, 'lm/m')} would do; the strip has
      ${quantity(given.flux_lm_per_m, 'lm/m')} and gives ${quantity(given.seen_cd_per_m2, 'cd/m²')} at full.
    </p>`;
  }

  private saving({ value, of }: Given<AskedLight>): TemplateResult | typeof nothing {
    const { needed, given, saving } = value;
    const share = needed.watts_per_m / given.watts_per_m;
    if (share >= 1) return nothing;
    const whole_W = saving.watts / (1 - share);
    const rated_W = of.sizing.drivers.drivers.reduce((sum, driver) => sum + driver.rated_W, 0);
    const rows: readonly (readonly [string, string, string, string])[] = [
      [
        'Strip',
        watts(given.watts_per_m),
        watts(needed.watts_per_m),
        `${watts(given.watts_per_m - needed.watts_per_m)} less`,
      ],
      [
        'Whole wall',
        quantity(whole_W, 'W'),
        quantity(whole_W - saving.watts, 'W'),
        `${quantity(saving.watts, 'W')} less`,
      ],
      [
        'Drivers, with reserve',
        quantity(rated_W, 'W'),
        quantity(saving.drivers_W, 'W'),
        rated_W > saving.drivers_W ? `${quantity(rated_W - saving.drivers_W, 'W')} less` : 'no less',
      ],
      ['Strip temperature', '', '', `${quantity(saving.kelvins, 'K', saving.kelvins < 10 ? 1 : 0)} cooler`],
    ];
    return html`<table class="small-table is-saving">
      <caption>
        What the chosen strip costs against one that would do, both at full
      </caption>
      <thead>
        <tr>
          <th scope="col"><span class="unseen">What</span></th>
          <th scope="col" class="is-figure">Chosen</th>
          <th scope="col" class="is-figure">Would do</th>
          <th scope="col" class="is-figure">Saved</th>
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ([name, ...cells]) =>
            html`<tr>
              <th scope="row">${name}</th>
              ${cells.map((cell) => html`<td class="is-figure">${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private strip(row: Strip, least: number | null): TemplateResult {
    const level = row.enough ? levelText(levelOf(row.level)) : 'full, and not enough';
    return html`<tr>
      <th scope="row">
        ${row.name}
        ${stripVerdict(row, least)}
      </th>
      <td class="is-figure">${level}</td>
      <td class="is-figure">${watts(row.watts_per_m)}</td>
      <td class="is-act">${applyButton(this.store, stripProposal(row.id, row.level, row.name))}</td>
    </tr>`;
  }

  private strips({ value }: Given<AskedLight>): TemplateResult | typeof nothing {
    if (value.strips.length === 0) return nothing;
    const enoughCount = value.strips.filter((row) => row.enough).length;
    return html`<table class="small-table is-strips">
        <caption>
          ${fixed(enoughCount, 0)} of ${counted(value.strips.length, 'strip')} of the catalogue
          ${enoughCount === 1 ? 'gives' : 'give'} it
        </caption>
        <thead>
          <tr>
            <th scope="col">Strip</th>
            <th scope="col" class="is-figure">Working level</th>
            <th scope="col" class="is-figure">Draws then, on average</th>
            <th scope="col"><span class="unseen">Apply</span></th>
          </tr>
        </thead>
        <tbody>
          ${value.strips.map((row) => this.strip(row, value.leastLampsPerMetre))}
        </tbody>
      </table>
      <p class="remark">
        The weaker strip at the higher working level is the better one: drivers, cables and heat are sized for full. A
        dimmer limited to the working level spares heat, and nothing else where it switches.
      </p>`;
  }

  private dots({ value, of }: Given<AskedLight>): TemplateResult {
    const { leastDepth_mm, leastLampsPerMetre } = value;
    const lamps = of.sizing.products.strip.lampsPerMetre;
    const byLamps =
      leastLampsPerMetre === null
        ? ''
        : `At the depth of the job ${fixed(leastLampsPerMetre, 0)} LEDs per metre do; this strip has ${fixed(lamps, 0)}.`;
    if (leastDepth_mm === null) {
      return html`<p><strong>No depth looked at hides the hot spots of this strip.</strong> ${byLamps}</p>`;
    }
    const deep = of.job.section.cavity_mm >= leastDepth_mm;
    return html`<p class="with-apply">
      <span>
        <strong>A cavity of ${quantity(leastDepth_mm, 'mm')} hides the hot spots.</strong>
        The job has ${quantity(of.job.section.cavity_mm, 'mm')}, which is ${deep ? 'enough' : 'too little'}. ${byLamps}
      </span>
      ${deep ? nothing : applyButton(this.store, cavityProposal(leastDepth_mm))}
    </p>`;
  }

  override render(): TemplateResult {
    return askedFold(this.asking, this.store, {
      title: 'Ask the light',
      digest:
        'Which strip gives the wanted brightness, what does the chosen one cost beyond it, what hides the hot spots?',
      body: (given) =>
        html`${this.wanted(given)} ${this.saving(given)} ${this.strips(given)} ${this.dots(given)}
          ${remarkList(given.value.remarks)}`,
    });
  }
}

customElements.define('light-questions', LightQuestions);
