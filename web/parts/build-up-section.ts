import { html, nothing, type TemplateResult } from 'lit';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import type { Section } from '../../src/answer/section.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { isothermScale } from '../drawing/isotherms.ts';
import { isNarrow, sectionCut } from '../drawing/section-cut.ts';
import { fixed, percent, quantity, span } from '../format.ts';
import type { State } from '../state/store.ts';
import './heat-questions.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

/** The limits beside the one that decides. */
function furtherLimits({ limits }: HeatAnswer['temperatures'][number]): TemplateResult | typeof nothing {
  const further = limits.slice(1).map(({ limit_degC }) => fixed(limit_degC, 0));
  return further.length === 0 ? nothing : html`<br /><small>also ${further.join(' and ')}</small>`;
}

function temperatureTable(heat: HeatAnswer, marked: string | undefined, isNumbered: boolean): TemplateResult {
  return html`<table class="small-table">
    <caption>${heat.unknown === null ? 'Temperatures at the worst place' : 'Not known: temperatures of an upright slot'}</caption>
    <thead>
      <tr>
        <th scope="col">Where</th>
        <th scope="col" class="is-figure">About</th>
        <th scope="col" class="is-figure">Between</th>
        <th scope="col" class="is-figure">Limit</th>
      </tr>
    </thead>
    <tbody>
      ${heat.temperatures.map(
        (t, i) =>
          html`<tr id="reading-${t.id}" tabindex="-1" class=${t.id === marked ? 'is-marked' : ''}>
            <th scope="row">${isNumbered && t.x_mm !== null ? `${i + 1} ` : ''}${t.name}</th>
            <td class="is-figure">${quantity(t.value_degC, '°C')}</td>
            <td class="is-figure">${span(fixed(t.low_degC, 0), 'and', fixed(t.high_degC, 0), '°C')}</td>
            <td class="is-figure">${t.limit_degC === null ? 'none' : quantity(t.limit_degC, '°C')}${furtherLimits(t)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

function heatTable({ heat, conditions }: Sizing): TemplateResult {
  const level = conditions.length > 0 ? 'on average under the limit of the dimmer' : 'at full';
  return html`<table class="small-table">
    <caption>Where the watts go</caption>
    <tbody>
      <tr>
        <th scope="row">Strip takes, ${level}</th>
        <td class="is-figure">${quantity(heat.strip_W_per_m, 'W/m')}</td>
      </tr>
      <tr>
        <th scope="row">Left as heat</th>
        <td class="is-figure">${quantity(heat.heat_W_per_m, 'W/m')}</td>
      </tr>
      ${heat.paths.map(
        (path) =>
          html`<tr>
            <td>${path.name}</td>
            <td class="is-figure">${quantity(path.watts_per_m, 'W/m')}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

function depthTable(section: Section, tolerance_mm: number): TemplateResult {
  const left_mm = section.available_mm - section.depth_mm - tolerance_mm;
  return html`<table class="small-table">
    <caption>Depth, from the wall</caption>
    <tbody>
      ${section.layers.map(
        (layer) =>
          html`<tr>
            <td>${layer.name}</td>
            <td class="is-figure">${quantity(layer.thickness_mm, 'mm')}</td>
          </tr>`,
      )}
      <tr>
        <td>Tolerance</td>
        <td class="is-figure">${quantity(tolerance_mm, 'mm')}</td>
      </tr>
      <tr class="is-sum">
        <th scope="row">Used of ${quantity(section.available_mm, 'mm')}</th>
        <td class="is-figure">${quantity(section.depth_mm + tolerance_mm, 'mm')}</td>
      </tr>
      <tr>
        <td>${left_mm < 0 ? 'Too deep by' : 'Left'}</td>
        <td class="is-figure">${quantity(Math.abs(left_mm), 'mm')}</td>
      </tr>
    </tbody>
  </table>`;
}

/** The wall behind layer by layer with its resistances, where it is listed. */
function wallTable({ section: { behind } }: Sizing): TemplateResult | typeof nothing {
  if (!behind) return nothing;
  const row = (name: string, value: number, unit = 'm²K/W') =>
    html`<tr>
      <td>${name}</td>
      <td class="is-figure">${quantity(value, unit, 2)}</td>
    </tr>`;
  const air = behind.beyond === 'room' ? 'Face towards the room beyond' : 'Face towards outside air';
  return html`<table class="small-table">
    <caption>Wall behind, from the backing</caption>
    <tbody>
      ${behind.layers.map(({ name, thickness_mm, resistance_m2K_per_W }) => row(`${name}, ${quantity(thickness_mm, 'mm')}`, resistance_m2K_per_W))}
      ${row(air, behind.film_m2K_per_W)}
      <tr class="is-sum">
        <th scope="row">To air of ${quantity(behind.beyond_degC, '°C')}</th>
        <td class="is-figure">${quantity(behind.resistance_m2K_per_W, 'm²K/W', 2)}</td>
      </tr>
      ${row('U-value of the wall by itself', behind.U_W_per_m2K, 'W/(m²K)')}
    </tbody>
  </table>`;
}

/** The profile's own temperatures and light, in a line. */
function profileRemark({
  heat: { profile, unknown },
  light: { ofProfile },
}: Sizing): TemplateResult | typeof nothing {
  if (!profile || !ofProfile) return nothing;
  const { mean_degC, coverInside_degC, coverOutside_degC, contact_W_per_m } = profile;
  const cover =
    coverInside_degC === null || coverOutside_degC === null
      ? 'without a cover'
      : `its cover ${quantity(coverInside_degC, '°C')} inside and ${quantity(coverOutside_degC, '°C')} outside`;
  const cutOff =
    ofProfile.cutOff_deg === null
      ? ''
      : `, straight light within ${quantity(ofProfile.cutOff_deg, '°')} of its normal`;
  return html`<p class="remark">
    ${unknown === null ? 'On average the profile is' : 'Its temperatures are not known. In an upright slot the profile would be, on average,'}
    ${quantity(mean_degC, '°C')}, ${cover}; it ${unknown === null ? 'gives' : 'would give'}
    ${quantity(contact_W_per_m, 'W/m', 1)} to the timber it touches. ${percent(ofProfile.leavingShare)} of the light
    leaves it${cutOff}.
  </p>`;
}

/** The build-up in section with what it comes to in depth, heat and temperature. */
class BuildUpSection extends StoreElement {
  private readonly measured = new Measured(this);

  protected override shows({ answer, marked }: State): readonly unknown[] {
    return [answer?.sizing, marked];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, marked } = this.store.get();
    if (!answer) return nothing;
    const width = this.measured.width || 600;
    const { heat } = answer.sizing;
    return html`<h2>Section</h2>
      ${sectionCut(answer, width, marked?.reading)} ${heat.field ? isothermScale(heat.field) : nothing}
      <div class="three-tables">
        ${temperatureTable(heat, marked?.reading, isNarrow(width))} ${heatTable(answer.sizing)} ${depthTable(answer.sizing.section, answer.job.section.tolerance_mm)}
        ${answer.job.section.behind === 'layers' ? wallTable(answer.sizing) : nothing}
      </div>
      ${heat.unknown === null ? nothing : html`<p class="sentence">${heat.unknown}</p>`}
      ${profileRemark(answer.sizing)}
      <p class="remark">
        ${heat.method[0]?.toUpperCase()}${heat.method.slice(1)}. ${heat.validity} ${heat.life.sentence}
      </p>
      ${answer.sizing.notes
        .filter(({ sheet, sentence }) => sheet === 'section' && sentence !== heat.unknown)
        .map(({ sentence }) => html`<p class="remark">${sentence}</p>`)}
      <heat-questions .store=${this.store}></heat-questions>`;
  }
}

customElements.define('build-up-section', BuildUpSection);
