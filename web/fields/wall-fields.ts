import { html, nothing, type TemplateResult } from 'lit';
import type { Job } from '../../src/job/job.ts';
import type { Wall, WallLayerChoice } from '../../src/job/wall.ts';
import { airGap, newLayer, wallPresets } from '../../src/job/wall-presets.ts';
import { counted } from '../format.ts';
import { alter, apply, removeItem } from '../state/edit.ts';
import { choiceText } from '../words.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { foldOut } from './step.ts';

type Behind = Job['section']['behind'];

const kinds: readonly Behind[] = ['insulation', 'inner wall', 'layers'];

const withWall = (job: Job, wall: Wall): Job => ({
  ...job,
  section: { ...job.section, behind: 'layers', wall },
});

/** What is behind the backing; layers begin as a common wall, and are kept when something else is chosen. */
function behindList(form: FormContext): TemplateResult {
  const { behind } = form.draft.job.section;
  const take = (index: number): void =>
    alter(form.store, (job) => {
      const kind = kinds[index]!;
      if (kind === 'layers') return withWall(job, job.section.wall ?? wallPresets[0]!.wall);
      return { ...job, section: { ...job.section, behind: kind } };
    });
  return listChoice({
    name: 'section.behind',
    label: 'Behind the backing',
    titles: kinds.map((kind) => choiceText('behind', kind, '')),
    chosen: kinds.indexOf(behind),
    take,
    help: 'Insulation is the cautious choice: take it where you do not know what stands there.',
  });
}

const takeWall = (form: FormContext, wall: Wall): void =>
  apply(form.store, { what: '', fields: ['section.wall'], edit: (job) => withWall(job, wall) });

function presetList(form: FormContext, wall: Wall): TemplateResult {
  const same = JSON.stringify(wall);
  return listChoice({
    name: 'section.wall',
    label: 'Begin from a common wall',
    titles: ['as listed below', ...wallPresets.map(({ name }) => name)],
    chosen: 1 + wallPresets.findIndex((preset) => JSON.stringify(preset.wall) === same),
    take: (index) => index > 0 && takeWall(form, wallPresets[index - 1]!.wall),
    help: 'Puts the layers of that wall in place of those below; change them to what stands there.',
  });
}

/** One layer: material and thickness, and beneath a fold what a maker's sheet or a frame says otherwise. */
function layerItem(form: FormContext, wall: Wall, index: number): TemplateResult {
  const layer = wall.layers[index]!;
  const at = (key: string, options = {}) => field(form, ['section', 'wall', 'layers', index, key], options);
  const isAir = layer.material === 'air, not ventilated';
  return html`<div class="item">
    ${at('material', { label: `Layer ${index + 1}` })} ${at('thickness_mm')}
    ${at('timberShare', { help: 'Studs with their plates; leave steel studs out. 0 for none.' })}
    ${layer.timberShare === 0 ? nothing : at('bridge_W_per_mK', { empty: '0.13', help: 'Of the studs, or of the mortar between blocks.' })}
    ${
      isAir
        ? at('emissivity', { empty: '0.9', help: 'About 0.05 for clean foil on one face.' })
        : at('conductivity_W_per_mK', {
            empty: 'usual',
            help: 'From its maker’s data sheet; left empty, a usual value counts.',
          })
    }
    ${at('source', { help: 'Printed beside the layer, such as the data sheet and its date.' })}
    ${wall.layers.length < 2 ? nothing : html`<button type="button" @click=${() => removeItem(form.store, ['section', 'wall', 'layers'], index)}>Remove this layer</button>`}
  </div>`;
}

const most = 10;

function layersFold(form: FormContext, wall: Wall): TemplateResult {
  const { layers } = wall;
  const put = (next: readonly WallLayerChoice[]) => (): void =>
    takeWall(form, { ...wall, layers: [...next] });
  return foldOut(
    `${counted(layers.length, 'layer')}, from the backing outwards`,
    html`${layers.map((_, i) => layerItem(form, wall, i))}
      ${
        layers.length >= most
          ? nothing
          : html`<button type="button" @click=${put([...layers, newLayer])}>Add a layer</button>
            <button type="button" @click=${put([airGap, ...layers])}>Add an air gap behind the backing</button>`
      }`,
  );
}

/** The wall behind the backing: insulation, a plain inner wall, or layer by layer. */
export function wallFields(form: FormContext): TemplateResult {
  const { behind, wall } = form.draft.job.section;
  if (behind !== 'layers' || wall === null) return behindList(form);
  const at = (key: string, options = {}) => field(form, ['section', 'wall', key], options);
  const isRoom = wall.beyond === 'room';
  return html`${behindList(form)} ${presetList(form, wall)} ${layersFold(form, wall)} ${at('beyond')}
    ${at('beyond_degC', {
      ...(isRoom && { empty: 'room' }),
      help: isRoom
        ? 'Left empty, it is as warm as the room of the piece.'
        : 'The warmest it gets; for a wall in the sun, how warm its outer face gets.',
    })}`;
}
