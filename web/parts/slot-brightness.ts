import { html, nothing, type TemplateResult } from 'lit';
import type { LightAnswer, LightZone } from '../../src/answer/light.ts';
import { drawPlot, type Plot, type Series } from '../drawing/plot.ts';
import { counted, entryText, levelText, percent, quantity, roughly, span } from '../format.ts';
import type { Answer, State } from '../state/store.ts';
import './light-questions.ts';
import { Measured } from './measured.ts';
import { roomFigures, viewFigures } from './room-figures.ts';
import { StoreElement } from './store-element.ts';

/** Small contrasts need a second decimal to be more than nothing. */
const contrast = (ratio: number): string => percent(ratio, ratio < 0.01 ? 2 : 1);

/**
 * Ripple and threshold on one scale: what lies between the two lines, the eye takes for even. The axis is as wide as
 * the larger of the two needs, so that neither is lost where both are small; its figures say how wide that is.
 */
function ripplePlot(light: LightAnswer, { threshold }: LightZone, width: number): Plot {
  const values = light.profile.map((point) => point.relative);
  const swing = values.reduce((most, value) => Math.max(most, Math.abs(value - 1)), 0);
  const reach = Math.max(3 * threshold, 1.25 * swing);
  const [first, last] = [light.profile[0]?.along_mm ?? 0, light.profile.at(-1)?.along_mm ?? 1];
  const level = (at: number): Series['points'] => [
    [first, at],
    [last, at],
  ];
  return {
    title: `Light along two LED pitches on the slot: contrast ${contrast(light.ripple)}, the eye sees from ${contrast(threshold)}`,
    width,
    height: 170,
    x: {
      from: first,
      to: last,
      label: 'mm along the slot, two LED pitches',
      write: (value) => entryText(value, false),
    },
    y: {
      from: 1 - reach,
      to: 1 + reach,
      label: 'light on the slot, relative to its mean',
      write: (v) => percent(v, reach < 0.004 ? 2 : reach < 0.04 ? 1 : 0),
    },
    series: [{ name: 'light', points: light.profile.map((p) => [p.along_mm, p.relative] as const) }],
    band: { low: level(1 - threshold), high: level(1 + threshold) },
    levels: [
      { at: 1 + threshold, text: 'the eye sees what goes beyond the band', kind: 'limit' },
      { at: 1 - threshold, text: '', kind: 'limit' },
    ],
  };
}

const channelPower = ({ sizing }: Answer): number =>
  sizing.products.strip.channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);

const lowestRow = ({ levels, lowest_cd_per_m2 }: LightZone): (readonly [string, string])[] =>
  levels.lowest === null || lowest_cd_per_m2 === null
    ? []
    : [[`At the lowest level, ${levelText(levels.lowest)}`, quantity(lowest_cd_per_m2, 'cd/m²')]];

/** Between what it may be; answers issued earlier do not say. */
const bandRow = ({ band_cd_per_m2: band }: LightZone): (readonly [string, string])[] =>
  band === undefined
    ? []
    : [['It may be between', span(roughly(band.least, ''), 'and', roughly(band.greatest, ''), 'cd/m²')]];

/** What the warm strip gives of the light on its data sheet; nothing where that does not say what it loses. */
const warmRow = ({ warm }: LightAnswer): (readonly [string, string])[] =>
  warm === undefined
    ? []
    : [
        [
          'Light of the warm strip, at full',
          `${percent(warm.fluxShare)} of its data sheet, at ${quantity(warm.strip_degC, '°C')}`,
        ],
      ];

/** The zone of the chosen slot; the first where none is chosen. */
function zoneOf({ sizing: { light, setOut } }: Answer, chosenRun: string | undefined): LightZone {
  const slot = setOut.runs.find(({ id }) => id === chosenRun)?.slot;
  return light.zones.find(({ slots }) => slot !== undefined && slots.includes(slot)) ?? light.zones[0]!;
}

function figures(answer: Answer, zone: LightZone): TemplateResult {
  const { light } = answer.sizing;
  const { full_cd_per_m2, outFraction, ripple } = zone.ofWidth ?? light;
  const working = zone.levels.working.map(levelText).join(' and ');
  const chosen_W_per_m = channelPower(answer);
  const rows: readonly (readonly [string, string])[] = [
    ['Wanted at the working level', quantity(zone.wanted_cd_per_m2, 'cd/m²')],
    [`At the working level, ${working}`, `${quantity(zone.luminance_cd_per_m2, 'cd/m²')}: ${zone.level}`],
    ...bandRow(zone),
    ['At full', quantity(full_cd_per_m2, 'cd/m²')],
    ...lowestRow(zone),
    [
      'Strip that would do at full',
      `${quantity(zone.needed_W_per_m, 'W/m')}, ${quantity(zone.neededFlux_lm_per_m, 'lm/m')}`,
    ],
    ['Strip chosen, at full', quantity(chosen_W_per_m, 'W/m')],
    ...warmRow(light),
    ['Light that leaves the slot', percent(outFraction)],
    ['Hot spots', `${zone.dots} Contrast ${contrast(ripple)}; seen from ${contrast(zone.threshold)}.`],
  ];
  return html`<dl class="figures-list is-wide">
    ${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}
  </dl>`;
}

/** A brightness and the levels that give it, in one cell. */
const litAt = (luminance_cd_per_m2: number, levels: readonly number[]): TemplateResult =>
  html`${quantity(luminance_cd_per_m2, 'cd/m²')} <small>at ${levels.map(levelText).join(' and ')}</small>`;

function zoneRow(zone: LightZone, isChosen: boolean): TemplateResult {
  const { name, slots, wanted_cd_per_m2, luminance_cd_per_m2, levels, lowest_cd_per_m2 } = zone;
  const { lowest, working } = levels;
  return html`<tr class=${isChosen ? 'is-chosen' : ''}>
    <th scope="row">${name} <small>${counted(slots.length, 'slot')}</small></th>
    <td class="is-figure">${quantity(wanted_cd_per_m2, 'cd/m²')}</td>
    <td class="is-figure">${litAt(luminance_cd_per_m2, working)}</td>
    <td class="is-figure">
      ${lowest === null || lowest_cd_per_m2 === null ? '–' : litAt(lowest_cd_per_m2, [lowest])}
    </td>
  </tr>`;
}

/** Levels and brightness of every zone in rows, where they differ; that of the chosen slot is marked. */
function zoneTable({ sizing: { light } }: Answer, chosen: LightZone): TemplateResult | typeof nothing {
  if (light.zones.length === 1) return nothing;
  return html`<table class="small-table is-zones">
    <caption>
      The zones at their levels
    </caption>
    <thead>
      <tr>
        <th scope="col">Zone</th>
        <th scope="col" class="is-figure">Wanted</th>
        <th scope="col" class="is-figure">Reached</th>
        <th scope="col" class="is-figure">Lowest</th>
      </tr>
    </thead>
    <tbody>
      ${light.zones.map((zone) => zoneRow(zone, zone === chosen))}
    </tbody>
  </table>`;
}

/** How bright a slot looks, whether its lamps show, and how little strip would do. */
export class SlotBrightness extends StoreElement {
  private readonly measured = new Measured(this);

  protected override shows({ answer, chosenRun }: State): readonly unknown[] {
    return [answer?.sizing, chosenRun];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, chosenRun } = this.store.get();
    if (!answer) return nothing;
    const { light } = answer.sizing;
    const zone = zoneOf(answer, chosenRun);
    return html`<h2>Brightness of a slot${light.zones.length === 1 ? '' : `, ${zone.name}`}</h2>
      ${light.profile.length > 1 ? drawPlot(ripplePlot(light, zone, this.measured.width || 600)) : nothing}
      ${figures(answer, zone)} ${zoneTable(answer, zone)} ${viewFigures(answer.sizing)} ${roomFigures(answer.sizing)}
      <light-questions .store=${this.store}></light-questions>`;
  }
}

customElements.define('slot-brightness', SlotBrightness);
