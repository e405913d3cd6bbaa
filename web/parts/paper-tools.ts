import { html, nothing, type TemplateResult } from 'lit';
import { askSizing, type Reply } from '../api.ts';
import {
  askDrawing,
  askHandOverPage,
  askIssuedPack,
  askLabels,
  askMeasuredSheet,
  askPack,
  type Paper,
  type PaperSize,
} from '../api-papers.ts';
import { plainName, saveFile } from '../state/files.ts';
import { notPrinted } from '../state/printed-characters.ts';
import { issuedFile } from '../state/save-job.ts';
import type { Answer, Frozen, State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

/** A file somebody can have: the word on its button and where it comes from. */
interface Offer {
  readonly text: string;
  readonly make: () => Promise<Reply<Paper>>;
}

interface Row {
  readonly what: string;
  readonly offers: readonly Offer[];
}

const sizes: readonly PaperSize[] = ['A4', 'A3'];
const kinds = ['svg', 'dxf'] as const;

const jsonFile = (name: string, content: unknown): Paper => ({
  name: `${name}.json`,
  content: new Blob([`${JSON.stringify(content, undefined, 2)}\n`], { type: 'application/json' }),
});

/** Job and careful answer in one document. */
async function wholeJson({ job, sizing }: Answer): Promise<Reply<Paper>> {
  const reply: Reply<Answer['sizing']> =
    sizing.accuracy === 'careful'
      ? { kind: 'answer', value: sizing }
      : await askSizing(job, 'careful', new AbortController().signal);
  if (reply.kind !== 'answer') return reply;
  return { kind: 'answer', value: jsonFile(`${plainName(job)}-answer`, { job, sizing: reply.value }) };
}

function drawingRow(what: string, drawing: 'elevation' | 'section', { job }: Answer): Row {
  const offers = kinds.map((kind) => ({
    text: kind.toUpperCase(),
    make: () => askDrawing(job, drawing, kind),
  }));
  return { what, offers };
}

function rowsOf(answer: Answer): Row[] {
  const { job } = answer;
  return [
    {
      what: 'Everything on paper, one PDF',
      offers: sizes.map((size) => ({ text: `PDF, ${size}`, make: () => askPack(job, size) })),
    },
    {
      what: 'Cable labels',
      offers: [
        { text: 'PDF to cut', make: () => askLabels(job, 'pdf') },
        { text: 'CSV', make: () => askLabels(job, 'csv') },
      ],
    },
    drawingRow('Elevation', 'elevation', answer),
    drawingRow('Section', 'section', answer),
    { what: 'Everything as data', offers: [{ text: 'JSON', make: () => wholeJson(answer) }] },
  ];
}

/** Papers of an issued revision come from what was frozen with it, never from a fresh calculation. */
function frozenRows(state: State, { id, entry, answer }: Frozen): Row[] {
  const readings = Object.values(state.measured?.boxes ?? {});
  const whole = jsonFile(`${id}-${entry.id}`, { ...entry, ...answer, readings });
  const packs = (boxes: 'empty' | 'measured'): Offer[] =>
    sizes.map((size) => ({
      text: `PDF, ${size}`,
      make: () => askIssuedPack(id, entry.id, { size, boxes }),
    }));
  const csv = { text: 'Test sheet, CSV', make: () => askMeasuredSheet(id, entry.id) };
  const measured = { what: 'With what was measured', offers: [...packs('measured'), csv] };
  return [
    { what: `Revision ${entry.revision} on paper, one PDF`, offers: packs('empty') },
    {
      what: `Revision ${entry.revision} for the site, without a network`,
      offers: [{ text: 'Page in one file', make: () => askHandOverPage(id, entry.id) }],
    },
    ...(readings.length > 0 ? [measured] : []),
    {
      what: `Revision ${entry.revision} as data`,
      offers: [{ text: 'JSON', make: async () => ({ kind: 'answer', value: whole }) }],
    },
    {
      what: `Revision ${entry.revision} to be opened again, with its readings`,
      offers: [{ text: 'Job file', make: async () => ({ kind: 'answer', value: issuedFile(state) }) }],
    },
  ];
}

/** The papers as files: for the printer, for other drawing programs, for other programs. */
export class PaperTools extends StoreElement {
  static override properties = { busy: { state: true }, trouble: { state: true } };
  declare busy: string | undefined;
  declare trouble: string | undefined;

  protected override shows({
    answer,
    draft,
    frozen,
    standing,
    measured,
    printed,
  }: State): readonly unknown[] {
    return [answer, frozen, frozen && draft?.readings, standing, measured, printed];
  }

  private async save(name: string, { make }: Offer): Promise<void> {
    this.busy = name;
    this.trouble = undefined;
    const reply = await make();
    this.busy = undefined;
    if (reply.kind === 'answer') saveFile(reply.value.name, reply.value.content);
    else if (reply.kind !== 'withdrawn') this.trouble = `${name} was not made. ${reply.detail}`;
  }

  private row({ what, offers }: Row): TemplateResult {
    return html`<dt>${what}</dt>
      <dd>
        ${offers.map((offer) => {
          const name = `${what}: ${offer.text}`;
          return html`<button
            type="button"
            aria-label=${name}
            aria-busy=${this.busy === name ? 'true' : 'false'}
            ?disabled=${this.busy !== undefined || this.store.get().standing.is === 'waiting'}
            @click=${() => void this.save(name, offer)}
          >
            ${this.busy === name ? 'Making it…' : offer.text}
          </button>`;
        })}
      </dd>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, frozen, standing, printed } = this.store.get();
    if (!answer) return nothing;
    const isOld = standing.is !== 'current' && standing.is !== 'waiting';
    return html`<h2>Papers</h2>
      <dl class="paper-rows">${(frozen ? frozenRows(this.store.get(), frozen) : rowsOf(answer)).map((row) => this.row(row))}</dl>
      ${notPrinted(answer.job, printed).map(({ sentence }) => html`<p class="hint unprintable">${sentence}</p>`)}
      <p class="paper-state" role="status">
        ${this.busy === undefined ? '' : `${this.busy} is being made with care; this takes a few seconds.`}
      </p>
      ${this.trouble === undefined ? nothing : html`<p class="sentence" role="alert">${this.trouble}</p>`}
      ${isOld ? html`<p class="hint">They show the last job that worked.</p>` : nothing}`;
  }
}

customElements.define('paper-tools', PaperTools);
