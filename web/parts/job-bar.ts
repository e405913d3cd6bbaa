import { html, type TemplateResult } from 'lit';
import { newJob } from '../../src/job/new-job.ts';
import { moment } from '../format.ts';
import { draftStanding } from '../state/document-status.ts';
import { begin, openDemo } from '../state/files.ts';
import { redo, undo } from '../state/history.ts';
import { jumpToPapers } from '../state/jump.ts';
import { openFile } from '../state/open-file.ts';
import { saveJob } from '../state/save-job.ts';
import { emptyState, type State } from '../state/store.ts';
import { differsFromKept, keep, toggleWorkshop } from '../state/workshop.ts';
import { StoreElement } from './store-element.ts';

/** A wall without slots: nothing is drawn into it until somebody says where the slots go. */
function emptyWall(): ReturnType<typeof newJob> {
  const plain = newJob();
  const slots = {
    from: 'lengths',
    width_mm: 20,
    first_mm: 150,
    pitch_mm: 150,
    level_mm: 150,
    align: 'foot',
    lengths_mm: [],
  } as const;
  return { ...plain, slots: { ...slots, lengths_mm: [] } };
}

/** How the page stands to the workshop's folder of jobs. */
function keptText({ draft, workshop, frozen }: State): string {
  if (!draft || frozen) return '';
  const { kept } = draft;
  if (!kept) return 'Not kept in the workshop yet.';
  const when = moment(kept.saved, new Date());
  const entry = workshop.jobs.find((job) => job.id === kept.id);
  if (workshop.jobs.length > 0 && !entry) return 'No longer in the workshop.';
  if (kept.isCopy) return `The last good copy, of ${when}; not kept in place of the damaged file yet.`;
  const newer = entry && entry.etag !== kept.etag ? ' Somebody kept another version since.' : '';
  const standing = draftStanding({ ...emptyState, draft, workshop });
  const is = differsFromKept(draft) ? `Differs from what was kept ${when}.` : `As kept ${when}.`;
  return `${is}${newer} ${standing}`.trim();
}

/** Name of the tool, and what is done with whole jobs. */
export class JobBar extends StoreElement {
  private beginEmpty(): void {
    begin(this.store, emptyWall());
    this.store.set({ answer: undefined });
  }

  private toggleJobs(): void {
    const { isOpen } = this.store.get().workshop;
    void toggleWorkshop(this.store, !isOpen);
    if (!isOpen) setTimeout(() => document.getElementById('workshop-title')?.focus());
  }

  private openPicker(): void {
    const picker = document.createElement('input');
    picker.type = 'file';
    picker.accept = '.json,application/json,.pdf,application/pdf';
    picker.addEventListener('change', () => {
      const [file] = picker.files ?? [];
      if (file) void openFile(this.store, file);
    });
    picker.click();
  }

  private chooseDemo(event: Event): void {
    const menu = event.target as HTMLSelectElement;
    const demo = this.store.get().demoJobs[menu.selectedIndex - 1];
    menu.selectedIndex = 0;
    if (demo) void openDemo(this.store, demo.id);
  }

  override render(): TemplateResult {
    const state = this.store.get();
    const { past, future, demoJobs, draft, workshop, frozen } = state;
    const isReading = frozen !== undefined;
    return html`<p class="mark">
        <svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true">
          <rect class="mark-board" x="0.5" y="0.5" width="25" height="25"></rect>
          <path class="mark-slot" d="M8 5v16M13 5v16M18 5v11"></path>
        </svg>
        Slotwatt
      </p>
      <div class="job-name">
        <h1>${(frozen?.answer.job ?? draft?.job)?.title.job || 'Job without a name'}</h1>
        <p class="kept-line" role="status">${keptText(state)}</p>
      </div>
      <div class="bar-tools">
        <button
          type="button"
          aria-expanded=${workshop.isOpen ? 'true' : 'false'}
          @click=${() => this.toggleJobs()}
        >
          Jobs
        </button>
        <button
          type="button"
          ?disabled=${!draft || isReading || workshop.busy !== undefined}
          @click=${() => void keep(this.store)}
        >
          Keep
        </button>
        <button type="button" @click=${this.beginEmpty}>New wall</button>
        <label class="unseen" for="demo-jobs">Demo jobs</label>
        <select id="demo-jobs" @change=${this.chooseDemo}>
          <option>Demo jobs</option>
          ${demoJobs.map((demo) => html`<option title=${demo.summary}>${demo.title}: ${demo.summary}</option>`)}
        </select>
        <button type="button" @click=${this.openPicker}>Open file</button>
        <button type="button" ?disabled=${!draft || isReading} @click=${() => void saveJob(this.store)}>Save file</button>
        <button type="button" ?disabled=${past.length === 0 || isReading} @click=${() => undo(this.store)}>Undo</button>
        <button type="button" ?disabled=${future.length === 0 || isReading} @click=${() => redo(this.store)}>Redo</button>
        <button type="button" @click=${() => jumpToPapers(this.store)}>Print</button>
      </div>`;
  }
}

customElements.define('job-bar', JobBar);
