import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import type { KeptJob, ListedJob } from '../../server/contract/kept-jobs.ts';
import { counted, moment } from '../format.ts';
import type { State } from '../state/store.ts';
import { duplicate, openKept, remove, rename, restore, toggleWorkshop } from '../state/workshop.ts';
import './job-revisions.ts';
import './own-products.ts';
import './person-name.ts';
import { StoreElement } from './store-element.ts';

/** A name that is being given to a job of the list. */
interface Naming {
  readonly id: string;
  readonly kind: 'rename' | 'duplicate';
  readonly name: string;
}

const longestName = 60;

const isJob = (entry: ListedJob): entry is KeptJob => entry.id !== null;

/** What stands in the folder and is no job: nothing can be done with it here, but nobody misses it in silence. */
const stranger = ({ name, trouble }: ListedJob): TemplateResult =>
  html`<tr>
    <td data-label="Document">\u2013</td>
    <th scope="row">${name}<p class="sentence">${trouble}</p></th>
    <td colspan="5"></td>
  </tr>`;

/** The workshop's jobs as a register of drawings: open, duplicate, rename, to the bin and back. */
export class WorkshopJobs extends StoreElement {
  static override properties = { naming: { state: true } };
  declare naming: Naming | undefined;

  protected override shows({ workshop, draft }: State): readonly unknown[] {
    return [workshop, draft?.kept];
  }

  private startNaming(job: KeptJob, kind: Naming['kind']): void {
    const name = kind === 'rename' ? job.name : `${job.name} (copy)`.slice(0, longestName);
    this.naming = { id: job.id, kind, name };
    void this.updateComplete.then(() => this.querySelector<HTMLInputElement>('#naming')?.select());
  }

  private finishNaming(event: Event, job: KeptJob): void {
    event.preventDefault();
    const { naming } = this;
    if (!naming || naming.name.trim() === '') return;
    this.naming = undefined;
    void (naming.kind === 'rename' ? rename : duplicate)(this.store, job, naming.name.trim());
  }

  private namingForm(job: KeptJob, naming: Naming): TemplateResult {
    const isRename = naming.kind === 'rename';
    return html`<form class="naming" @submit=${(event: Event) => this.finishNaming(event, job)}>
      <label for="naming">${isRename ? 'New name' : 'Name of the copy'}</label>
      <input
        id="naming"
        type="text"
        maxlength=${longestName}
        autocomplete="off"
        .value=${live(naming.name)}
        @input=${(event: InputEvent) => {
          this.naming = { ...naming, name: (event.target as HTMLInputElement).value };
        }}
      />
      <button type="submit" ?disabled=${naming.name.trim() === ''}>${isRename ? 'Rename' : 'Copy'}</button>
      <button
        type="button"
        @click=${() => {
          this.naming = undefined;
        }}
      >
        Leave it
      </button>
    </form>`;
  }

  private actions(job: KeptJob, isBusy: boolean): TemplateResult {
    const name = job.name || job.id;
    const button = (text: string, act: () => void): TemplateResult =>
      html`<button type="button" aria-label="${text}: ${name}" ?disabled=${isBusy} @click=${act}>${text}</button>`;
    const readable = html`${button('Duplicate', () => this.startNaming(job, 'duplicate'))}
      ${button('Rename', () => this.startNaming(job, 'rename'))}`;
    return html`<div class="row-tools">
      ${button('Open', () => void openKept(this.store, job.id))} ${job.trouble === null ? readable : nothing}
      ${button('To the bin', () => void remove(this.store, job))}
    </div>`;
  }

  private row(job: KeptJob, { workshop, draft }: State): TemplateResult {
    const isHere = draft?.kept?.id === job.id;
    const isNaming = this.naming?.id === job.id ? this.naming : undefined;
    return html`<tr class=${isHere ? 'is-here' : ''}>
      <td data-label="Document">${job.documentNumber || '\u2013'}</td>
      <th scope="row">
        ${job.name || 'Job without a name'}${isHere ? html` <span class="here">on the page</span>` : nothing}
        ${job.trouble === null ? nothing : html`<p class="sentence">${job.trouble}</p>`}
      </th>
      <td data-label="Client">${job.client || '\u2013'}</td>
      <td data-label="Rev.">${job.revision || '\u2013'}</td>
      <td data-label="Issued">${job.revisions.length === 0 ? 'none' : job.revisions.length}</td>
      <td data-label="Kept" class="is-short">${moment(job.saved, new Date())}${job.savedBy === '' ? '' : ` by ${job.savedBy}`}</td>
      <td class="tools-cell">
        ${isNaming ? this.namingForm(job, isNaming) : this.actions(job, workshop.busy !== undefined)}
      </td>
    </tr>`;
  }

  private register(state: State): TemplateResult {
    const { jobs, trouble } = state.workshop;
    if (trouble !== undefined) return html`<p class="sentence">The list cannot be shown. ${trouble}</p>`;
    if (jobs.length === 0) {
      return html`<p class="hint">No job is kept here yet. “Keep” puts the one on the page into the workshop’s folder.</p>`;
    }
    return html`<table class="register">
      <caption class="unseen">Jobs kept in this workshop, the latest first</caption>
      <thead>
        <tr>
          ${['Document', 'Job', 'Client', 'Rev.', 'Issued', 'Kept'].map((text) => html`<th scope="col">${text}</th>`)}
          <th scope="col"><span class="unseen">What to do with it</span></th>
        </tr>
      </thead>
      <tbody>
        ${repeat(
          jobs,
          (job) => job.id ?? `no job: ${job.name}`,
          (job) => (isJob(job) ? this.row(job, state) : stranger(job)),
        )}
      </tbody>
    </table>`;
  }

  private bin({ bin, busy }: State['workshop']): TemplateResult | typeof nothing {
    if (bin.length === 0) return nothing;
    return html`<details class="folded-list">
      <summary>${counted(bin.length, 'job')} in the bin</summary>
      <ul class="bin">
        ${bin.map(
          ({ id, name, deleted }) =>
            html`<li>
              <span>${name || 'Job without a name'}, deleted ${moment(deleted, new Date())}</span>
              <button
                type="button"
                aria-label="Bring back: ${name}"
                ?disabled=${busy !== undefined}
                @click=${() => void restore(this.store, id)}
              >
                Bring back
              </button>
            </li>`,
        )}
      </ul>
    </details>`;
  }

  override render(): TemplateResult | typeof nothing {
    const state = this.store.get();
    if (!state.workshop.isOpen) return nothing;
    return html`<section class="workshop" aria-labelledby="workshop-title">
      <div class="workshop-head">
        <h2 id="workshop-title" tabindex="-1">Jobs in this workshop</h2>
        <button type="button" @click=${() => void toggleWorkshop(this.store, false)}>Close the list</button>
      </div>
      <person-name .store=${this.store}></person-name>
      ${this.register(state)} ${this.bin(state.workshop)}
      <job-revisions .store=${this.store}></job-revisions>
      <own-products .store=${this.store}></own-products>
    </section>`;
  }
}

customElements.define('workshop-jobs', WorkshopJobs);
