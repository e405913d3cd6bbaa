import { html, type TemplateResult } from 'lit';
import { newJob } from '../../src/job/new-job.ts';
import { begin, openDemo, openFile, saveJob } from '../state/files.ts';
import { redo, undo } from '../state/history.ts';
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

/** Name of the tool, and what is done with whole jobs. */
export class JobBar extends StoreElement {
  private beginEmpty(): void {
    begin(this.store, emptyWall());
    this.store.set({ answer: undefined });
  }

  private openPicker(): void {
    const picker = document.createElement('input');
    picker.type = 'file';
    picker.accept = '.json,application/json';
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
    const { past, future, demoJobs, draft } = this.store.get();
    return html`<p class="mark">
        <svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true">
          <rect class="mark-board" x="0.5" y="0.5" width="25" height="25"></rect>
          <path class="mark-slot" d="M8 5v16M13 5v16M18 5v11"></path>
        </svg>
        Slotwatt
      </p>
      <h1>${draft?.job.title.job || 'Job without a name'}</h1>
      <div class="bar-tools">
        <button type="button" @click=${this.beginEmpty}>New wall</button>
        <label class="unseen" for="demo-jobs">Demo jobs</label>
        <select id="demo-jobs" @change=${this.chooseDemo}>
          <option>Demo jobs</option>
          ${demoJobs.map((demo) => html`<option title=${demo.summary}>${demo.title}: ${demo.summary}</option>`)}
        </select>
        <button type="button" @click=${this.openPicker}>Open</button>
        <button type="button" ?disabled=${!draft} @click=${() => saveJob(this.store)}>Save</button>
        <button type="button" ?disabled=${past.length === 0} @click=${() => undo(this.store)}>Undo</button>
        <button type="button" ?disabled=${future.length === 0} @click=${() => redo(this.store)}>Redo</button>
        <button type="button" @click=${() => window.print()}>Print</button>
      </div>`;
  }
}

customElements.define('job-bar', JobBar);
