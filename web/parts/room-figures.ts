import { html, nothing, type TemplateResult } from 'lit';
import type { RoomPointLight } from '../../src/answer/room-light.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { percent, quantity, roughly, span } from '../format.ts';

const lux = (x: number): string => roughly(x, '');

const surface = ({ plane, height_mm, distance_mm }: RoomPointLight): string => {
  const on = plane === 'facing wall' ? 'facing wall' : height_mm === 0 ? 'floor' : 'level';
  const up = height_mm === 0 ? '' : `, ${quantity(height_mm, 'mm')} up`;
  return `${on}${up}, ${quantity(distance_mm, 'mm')} away`;
};

const pointRow = (point: RoomPointLight): TemplateResult => {
  const { direct_lx, bounced_lx, maintained_lx, band_lx } = point.working;
  return html`<tr>
    <th scope="row">${point.name} <small>${surface(point)}</small></th>
    <td class="is-figure">${lux(direct_lx)}</td>
    <td class="is-figure">${lux(bounced_lx)}</td>
    <td class="is-figure">
      ${lux(maintained_lx)} <small>${span(lux(band_lx.least), 'to', lux(band_lx.greatest))}</small>
    </td>
    <td class="is-figure">${lux(point.full.maintained_lx)}</td>
    <td class="is-figure">${point.wanted_lx === null ? '–' : lux(point.wanted_lx)}</td>
  </tr>`;
};

const viewWords = (angle_deg: number): string => {
  if (angle_deg === 0) return 'straight ahead';
  return `${quantity(Math.abs(angle_deg), '°', 0)} from the ${angle_deg > 0 ? 'right' : 'left'}`;
};

/** What is seen of a slot from straight ahead and from the side, at full. Answers issued earlier have none. */
export function viewFigures({ light: { views } }: Sizing): TemplateResult | typeof nothing {
  if (views === undefined || views.length === 0) return nothing;
  return html`<table class="small-table is-views">
    <caption>
      A slot seen from the side, at full
    </caption>
    <thead>
      <tr>
        <th scope="col">From</th>
        <th scope="col" class="is-figure">Brightness on average</th>
        <th scope="col" class="is-figure">Past the sides of the slot</th>
        <th scope="col">LEDs themselves</th>
      </tr>
    </thead>
    <tbody>
      ${views.map(
        ({ angle_deg, full_cd_per_m2, pastReveal, showsLamps }) => html`<tr>
          <th scope="row">${viewWords(angle_deg)}</th>
          <td class="is-figure">${roughly(full_cd_per_m2, 'cd/m²')}</td>
          <td class="is-figure">${percent(pastReveal, 0)}</td>
          <td>${showsLamps ? 'in view, and far brighter' : 'out of view'}</td>
        </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Lumens of the wall, and the light at every place of the room that is asked for. Answers issued earlier have neither. */
export function roomFigures({ roomLight }: Sizing): TemplateResult | typeof nothing {
  if (roomLight === undefined) return nothing;
  const { wall, points, method, doubts } = roomLight;
  const lumens = html`<p>
    The wall sends about <strong>${roughly(wall.working_lm, 'lm')}</strong> into the room at the working level,
    ${roughly(wall.full_lm, 'lm')} at full.
  </p>`;
  if (points.length === 0) return lumens;
  return html`${lumens}
    <div class="designs-scroll" role="region" aria-label="Light in the room" tabindex="0"><table class="small-table is-room">
      <caption>
        Light in the room, lx
      </caption>
      <thead>
        <tr>
          <th scope="col">Where</th>
          <th scope="col" class="is-figure">Straight</th>
          <th scope="col" class="is-figure">Bounced</th>
          <th scope="col" class="is-figure">Maintained</th>
          <th scope="col" class="is-figure">At full</th>
          <th scope="col" class="is-figure">Wanted</th>
        </tr>
      </thead>
      <tbody>
        ${points.map(pointRow)}
      </tbody>
    </table></div>
    <p class="remark">
      Straight and bounced are of a new wall at the working level; maintained, and at full, is what the maintenance factor leaves of both. ${method[0]?.toUpperCase()}${method.slice(1)}.
    </p>
    ${(doubts ?? []).map((doubt) => html`<p class="sentence">${doubt}</p>`)}`;
}
