import { html, nothing, type TemplateResult } from 'lit';
import { mostRoomPoints, newRoom, newRoomPoint, type Room } from '../../src/job/room.ts';
import { counted } from '../format.ts';
import { alter, apply, removeItem } from '../state/edit.ts';
import { freeRoomPlaceName } from '../state/free-names.ts';
import { type FormContext, field } from './field.ts';
import { foldOut } from './step.ts';

const roomPath = ['light', 'room'] as const;
const pointsPath = [...roomPath, 'points'];

function setRoom(form: FormContext, room: Room | null): void {
  apply(form.store, {
    what: '',
    fields: ['light.room'],
    edit: (job) => ({ ...job, light: { ...job.light, room } }),
  });
}

function addPoint(form: FormContext): void {
  alter(form.store, (job) => {
    const { room } = job.light;
    if (room === null) return job;
    const points = [...room.points, newRoomPoint(freeRoomPlaceName(room.points))];
    return { ...job, light: { ...job.light, room: { ...room, points } } };
  });
}

function point(form: FormContext, index: number): TemplateResult {
  const at = (key: string, options: Parameters<typeof field>[2]): TemplateResult =>
    field(form, [...pointsPath, index, key], options);
  return html`<div class="item">
    ${at('name', { help: 'What findings and papers call it.' })}
    ${at('plane', { help: 'Which way the surface looks that the light is to fall on.' })}
    ${at('distance_mm', { help: 'Square from the lit wall into the room.' })}
    ${at('height_mm', { help: '0 for the floor, about 750 mm for a desk.' })}
    ${at('along_mm', { empty: 'before the middle', help: 'From the left edge of the panel; left empty, before its middle.' })}
    ${at('wanted_lx', { empty: 'none', help: 'Checked only where something is wanted: 5 lx find a way, 100 lx light a passage, 300 to 500 lx a desk (common practice).' })}
    <button type="button" @click=${() => removeItem(form.store, pointsPath, index)}>Remove this place</button>
  </div>`;
}

function roomFields(form: FormContext, { points }: Room): TemplateResult {
  const at = (key: string, help: string): TemplateResult => field(form, [...roomPath, key], { help });
  return html`${at('width_mm', 'Size and reflectance decide how much light the room throws back.')}
    ${at('depth_mm', 'From the lit wall to the wall across.')} ${at('height_mm', 'From floor to ceiling.')}
    ${at('reflectance', 'Of walls, floor and ceiling together: 0.2 dark, 0.5 usual, 0.7 white.')}
    ${at('maintenance', 'What dust and ageing leave of the light before it is cleaned or renewed; 0.8 is common practice.')}
    ${points.map((_, i) => point(form, i))}
    ${points.length < mostRoomPoints ? html`<button type="button" @click=${() => addPoint(form)}>Add a place in the room</button>` : nothing}
    <button type="button" @click=${() => setRoom(form, null)}>Ask nothing of the room</button>`;
}

/** The room before the wall, and where light is wanted in it; nothing is asked of it unless somebody does. */
export function roomFold(form: FormContext): TemplateResult {
  const { room } = form.draft.job.light;
  return foldOut(
    room === null ? 'Light in the room' : `Light at ${counted(room.points.length, 'place')} in the room`,
    html`<p class="hint">How much light the wall gives a floor, a desk or the wall across. Other lamps are not counted.</p>
      ${room === null ? html`<button type="button" @click=${() => setRoom(form, newRoom())}>Ask for light in the room</button>` : roomFields(form, room)}`,
  );
}
