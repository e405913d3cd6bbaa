import { html, nothing, svg, type TemplateResult } from 'lit';
import { type FindingStatus, isOnCondition, statuses } from '../../src/answer/finding-status.ts';
import type { Finding } from '../../src/answer/findings.ts';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import { counted, decimalsOf, percent, quantity } from '../format.ts';
import { jumpTo, jumpToField, jumpToReading } from '../state/jump.ts';
import { remedyProposal } from '../state/proposals.ts';
import { placeName } from '../state/reasons.ts';
import type { State } from '../state/store.ts';
import { statusText } from '../words.ts';
import { applyButton } from './asked-fold.ts';
import { workingId, workingLines } from './finding-working.ts';
import { StoreElement } from './store-element.ts';

const shapes = {
  fails: svg`<path d="M2 2h12v12H2z"></path><path class="inside" d="M5 5l6 6M11 5l-6 6"></path>`,
  watch: svg`<path d="M8 1.5L15 14H1z"></path><path class="inside" d="M8 6v4M8 11.6v1"></path>`,
  passes: svg`<circle cx="8" cy="8" r="6.5"></circle><path class="inside" d="M5 8.2l2.2 2.3L11 5.8"></path>`,
  note: svg`<path class="outline" d="M2.5 4h11M2.5 8h11M2.5 12h7"></path>`,
} satisfies Record<FindingStatus, unknown>;

/** The shape of a status; the word stands beside it. */
export const statusShape = (status: FindingStatus): TemplateResult =>
  html`<svg class="shape is-${status}" width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
    ${shapes[status]}
  </svg>`;

/** `2 failed, 1 with a warning, 20 on condition, 9 passed`: only what there is. */
export function statusCounts(findings: readonly Finding[]): string {
  const [held, own] = [findings.filter(isOnCondition), findings.filter((each) => !isOnCondition(each))];
  return statuses
    .flatMap((status): [string, number][] => [
      [statusText[status].many, own.filter((finding) => finding.status === status).length],
      ...(status === 'watch' ? [['on condition', held.length] as [string, number]] : []),
    ])
    .filter(([, n]) => n > 0)
    .map(([words, n]) => `${n} ${words}`)
    .join(', ');
}

/** The temperature of the section a finding is about, if it is about one. */
function readingOf(finding: Finding, { temperatures }: HeatAnswer): string | undefined {
  return temperatures.find(({ id }) => finding.id === `heat-${id}`)?.id;
}

/** A finding's figure with some decimals more than usual; a ratio is written in percent. */
function figure(value: number | null, { unit }: Finding, more: number): string {
  if (value === null) return '';
  if (unit === 'ratio') return percent(value, 1 + more);
  return quantity(value, unit, more === 0 ? undefined : decimalsOf(quantity(value, unit)) + more);
}

/** Value and limit, with the decimals it takes to tell them apart, so that the verdict can be read off them. */
function valueAndLimit(finding: Finding): [value: string, limit: string] {
  const { value, limit } = finding;
  const written = (more: number): [string, string] => [
    figure(value, finding, more),
    figure(limit, finding, more),
  ];
  const more = [0, 1, 2, 3].find((digits) => value === limit || written(digits)[0] !== written(digits)[1]);
  return written(more ?? 0);
}

/** A difference of temperatures is in kelvins. */
const marginUnit = (unit: string): string => (unit === '°C' ? 'K' : unit);

/** How many decimals a difference deserves: those of the coarser of its figures, whole numbers being exact; all where it would vanish. */
function marginDecimals(margin: number, figures: readonly string[]): number {
  const decimals = figures.map(decimalsOf);
  const least = Math.min(...decimals.filter((digits) => digits > 0));
  const isShown = Number.isFinite(least) && Math.abs(margin) >= 0.5 * 10 ** -least;
  return isShown ? least : Math.max(...decimals);
}

/** A margin is written so that it is the difference of the two figures it lies between, as they stand there. */
function marginText({ margin, unit }: Finding, figures: readonly string[]): string {
  if (margin === null) return '';
  if (unit === 'ratio') return percent(margin, Math.max(1, ...figures.map(decimalsOf)));
  return quantity(margin, marginUnit(unit), marginDecimals(margin, figures));
}

/** A count against none: the sentence says what is counted, and "60 of 0" adds nothing to it. */
const isCountOfNone = ({ unit, limit }: Finding): boolean => unit === '' && limit === 0;

/** A figure, which opens the working behind it where there is one. */
function figureButton(finding: Finding, text: string, name: string, toggle: Toggle): TemplateResult {
  if (!finding.working) return html`${text}`;
  return html`<button
    type="button"
    class="plain to-working"
    aria-label="${text}: working behind the ${name}"
    aria-expanded=${toggle.isOpen ? 'true' : 'false'}
    aria-controls=${toggle.isOpen ? workingId(finding) : nothing}
    @click=${toggle.turn}
  >${text}</button>`;
}

/** Whether the working of a finding is open, and what opens and closes it. */
interface Toggle {
  readonly isOpen: boolean;
  readonly turn: () => void;
}

function measures(finding: Finding, toggle: Toggle): TemplateResult | typeof nothing {
  if (isCountOfNone(finding)) return nothing;
  const [value, limit] = valueAndLimit(finding);
  const parts = [
    ['value', value] as const,
    ['limit', limit] as const,
    ['margin', marginText(finding, [value, limit])] as const,
  ].filter(([, text]) => text !== '');
  if (parts.length === 0) return nothing;
  return html`<dl class="measures">
    ${parts.map(([name, text]) => html`<div><dt>${name}</dt><dd>${figureButton(finding, text, name, toggle)}</dd></div>`)}
    </dl>
    ${finding.working && toggle.isOpen ? workingLines(finding, finding.working) : nothing}`;
}

/** What to change, the best first; each leads to the field that changes it, and is done by a button where one field does it. */
function remedyList(
  { remedies }: Finding,
  lead: (field: string) => void,
  act: (field: string) => TemplateResult | typeof nothing,
): TemplateResult | typeof nothing {
  if (remedies.length === 0) return nothing;
  return html`<ul class="remedies">
    ${remedies.map(({ sentence, field }) =>
      field === null
        ? html`<li>${sentence}</li>`
        : html`<li><button type="button" class="plain" @click=${() => lead(field)}>${sentence}</button> ${act(field)}</li>`,
    )}
  </ul>`;
}

/** Every check in one list, the worst first; a click leads to the place. */
export class FindingList extends StoreElement {
  /** Findings whose working is open. */
  private readonly worked = new Set<string>();
  private readonly wide = window.matchMedia('(min-width: 700px)').matches;

  protected override shows({ answer, draft }: State): readonly unknown[] {
    return [answer?.sizing, draft?.job];
  }

  /** An issued revision is only looked at. */
  private act(finding: Finding, field: string): TemplateResult | typeof nothing {
    const { answer, frozen } = this.store.get();
    if (!answer || frozen) return nothing;
    return applyButton(this.store, remedyProposal(finding, field, answer.job));
  }

  private toggle({ id }: Finding): Toggle {
    const isOpen = this.worked.has(id);
    const turn = (): void => {
      if (isOpen) this.worked.delete(id);
      else this.worked.add(id);
      this.requestUpdate();
    };
    return { isOpen, turn };
  }

  private item(finding: Finding): TemplateResult {
    const { place } = finding;
    const heat = this.store.get().answer?.sizing.heat;
    const reading = heat && readingOf(finding, heat);
    const where = reading ?? placeName(place);
    const leads = where !== '' || place.field !== undefined;
    const lead = (): void => (reading ? jumpToReading(this.store, reading) : jumpTo(this.store, place));
    return html`<li id="finding-${finding.id}" tabindex="-1" class="finding is-${finding.status}">
      <h3>
        ${statusShape(finding.status)}<span class="status-word">${statusText[finding.status].one}</span>
        ${
          leads
            ? html`<button type="button" class="plain" @click=${lead}>${finding.title}</button>`
            : finding.title
        }
      </h3>
      ${measures(finding, this.toggle(finding))}
      <p>${finding.sentence}</p>
      ${remedyList(
        finding,
        (field) => jumpToField(this.store, field),
        (field) => this.act(finding, field),
      )}
      <p class="basis">
        Rests on: ${finding.basis}${/[.)]$/.test(finding.basis) ? '' : '.'}
        ${
          where !== '' && place.field !== undefined && finding.remedies.length === 0
            ? html`<button type="button" class="plain" @click=${() => jumpToField(this.store, place.field!)}>
                Change it</button
              >`
            : nothing
        }
      </p>
    </li>`;
  }

  private fold(
    summary: string,
    findings: readonly Finding[],
    isOpen: boolean,
  ): TemplateResult | typeof nothing {
    if (findings.length === 0) return nothing;
    return html`<details class="passed" ?open=${isOpen}>
      <summary>${summary}</summary>
      <ol class="findings">
        ${findings.map((finding) => this.item(finding))}
      </ol>
    </details>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { answer } = this.store.get();
    if (!answer) return nothing;
    const { findings, conditions } = answer.sizing;
    const sorted = statuses.flatMap((status) => findings.filter((finding) => finding.status === status));
    const open = sorted.filter(
      (each) => (each.status === 'fails' || each.status === 'watch') && !isOnCondition(each),
    );
    const held = sorted.filter(isOnCondition);
    const rest = sorted.filter((finding) => finding.status === 'passes' || finding.status === 'note');
    const only = conditions.map(({ short }) => short).join(', ');
    return html`<h2>${counted(findings.length, 'finding')}</h2>
      <p class="counts">${statusCounts(findings)}</p>
      <ol class="findings">
        ${open.map((finding) => this.item(finding))}
      </ol>
      ${this.fold(`${held.length} more: each would pass, and holds ${only}`, held, false)}
      ${this.fold(statusCounts(rest), rest, open.length === 0 && this.wide)}`;
  }
}

customElements.define('finding-list', FindingList);
