import { html, nothing, type TemplateResult } from 'lit';
import type { LightAnswer } from '../../src/sizing.ts';
import { drawPlot, type Plot } from '../drawing/plot.ts';
import { fixed, percent, quantity } from '../format.ts';
import { shownValue } from '../state/sheet.ts';
import type { Answer, State } from '../state/store.ts';
import './light-questions.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

/** Unevenness at its true size: the axis spans a tenth of the light, or more where the ripple asks for it. */
function ripplePlot(light: LightAnswer, width: number): Plot {
  const values = light.profile.map((point) => point.relative);
  const reach = Math.max(0.05, ...values.map((value) => Math.abs(value - 1) * 1.15));
  return {
    title: `Light along two lamp pitches on the slot: contrast ${percent(light.ripple)}, the eye sees from ${percent(light.threshold)}`,
    width,
    height: 170,
    x: {
      from: light.profile[0]?.along_mm ?? 0,
      to: light.profile.at(-1)?.along_mm ?? 1,
      label: 'mm along the slot, two lamp pitches',
      write: (value) => fixed(value, 0),
    },
    y: {
      from: 1 - reach,
      to: 1 + reach,
      label: 'light on the slot, relative to its mean',
      write: (v) => percent(v, 0),
    },
    series: [{ name: 'light', points: light.profile.map((p) => [p.along_mm, p.relative] as const) }],
    band: undefined,
    levels: [
      { at: 1 + light.threshold, text: '', kind: 'limit' },
      { at: 1 - light.threshold, text: 'the eye sees beyond these lines', kind: 'limit' },
    ],
  };
}

const channelPower = (answer: Answer): number => {
  const channels = shownValue(answer.job, ['strip', 'data', 'channels']);
  return (Array.isArray(channels) ? channels : []).reduce(
    (sum, channel) => sum + Number(channel.watts_per_m),
    0,
  );
};

function figures(answer: Answer): TemplateResult {
  const { light } = answer.sizing;
  const chosen_W_per_m = channelPower(answer);
  const rows: readonly (readonly [string, string])[] = [
    ['Wanted', quantity(light.wanted_cd_per_m2, 'cd/m²')],
    ['This strip gives', `${quantity(light.luminance_cd_per_m2, 'cd/m²')}: ${light.level}`],
    [
      'Strip that would be enough',
      `${quantity(light.needed_W_per_m, 'W/m')}, ${quantity(light.neededFlux_lm_per_m, 'lm/m')}`,
    ],
    ['Strip chosen', quantity(chosen_W_per_m, 'W/m')],
    ['Light that leaves the slot', percent(light.outFraction)],
    ['Dots', `${light.dots} (contrast ${percent(light.ripple)}, seen from ${percent(light.threshold)})`],
  ];
  return html`<dl class="figures-list is-wide">
    ${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}
  </dl>`;
}

/** How bright a slot looks, whether its lamps show, and how little strip would do. */
export class SlotBrightness extends StoreElement {
  private readonly measured = new Measured(this);

  protected override shows({ answer }: State): readonly unknown[] {
    return [answer];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer } = this.store.get();
    if (!answer) return nothing;
    const { light } = answer.sizing;
    return html`<h2>Brightness of a slot</h2>
      ${light.profile.length > 1 ? drawPlot(ripplePlot(light, this.measured.width || 600)) : nothing}
      ${figures(answer)}
      <light-questions .store=${this.store}></light-questions>`;
  }
}

customElements.define('slot-brightness', SlotBrightness);
