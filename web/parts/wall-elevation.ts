import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { boxOnWall, drawBox } from '../drawing/box-on-wall.ts';
import { overallDimensions, pitchDimension } from '../drawing/dimensions.ts';
import { dragOnWall, reach_px, whereText } from '../drawing/drag-on-wall.ts';
import { comparedColour, comparedMarks } from '../drawing/glow.ts';
import { placeOutlines, wallDevices } from '../drawing/wall-devices.ts';
import { type FramedWall, type WallFrame, wallFrame } from '../drawing/wall-frame.ts';
import { type Moves, shiftOf, wallHandles } from '../drawing/wall-handles.ts';
import {
  brightestOf,
  type DrawnSlot,
  drawnSlots,
  type SlotChoice,
  type SlotStyle,
  slotLight,
  slotNumbers,
  slotTargets,
} from '../drawing/wall-slots.ts';
import { cableLines, type WiringChoice, wiringSymbols } from '../drawing/wall-wiring.ts';
import { levelText, percent, quantity } from '../format.ts';
import { belongingTo } from '../state/belonging.ts';
import {
  cutLineNear,
  cutLineOf,
  cutLineText,
  type FeedAlong,
  feedAlong,
  feedMovable,
  moveFeed,
  shiftTo,
} from '../state/feed-along.ts';
import { pick } from '../state/jump.ts';
import { type Movable, movablesOf, moveBy, type Shift, snapped } from '../state/moving.ts';
import { between, toggled, within } from '../state/picked-slots.ts';
import type { Answer, Draft, State, WallView } from '../state/store.ts';
import './picked-part.ts';
import './picked-slots.ts';
import { panelOpenings } from '../drawing/panel-openings.ts';
import { wallHung } from '../drawing/wall-hung.ts';
import { panelDimensions, panelFaces } from '../drawing/wall-panels.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

const views: readonly (readonly [WallView, string])[] = [
  ['glow', 'Glow'],
  ['compare', 'Light compared'],
  ['line', 'Line drawing'],
];

const zooms = [1, 2, 4] as const;

const steps: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

/** The piece from the front, to scale, glowing as computed; slots are chosen on it. */
export class WallElevation extends StoreElement {
  static override properties = { zoom: { state: true }, said: { state: true } };
  declare zoom: number;
  /** What was moved where, to be read out. */
  declare said: string;
  private readonly measured = new Measured(this);

  constructor() {
    super();
    this.zoom = 1;
    this.said = '';
  }

  protected override shows(state: State): readonly unknown[] {
    const { answer, draft, frozen, standing, chosenRun, pickedSlots, marked, view } = state;
    return [
      answer?.sizing,
      frozen,
      draft?.job.drivers.places,
      draft?.job.openings,
      answer ? '' : draft,
      answer ? '' : standing,
      chosenRun,
      pickedSlots,
      marked,
      view,
    ];
  }

  private focusSlot(slot: string): void {
    void this.updateComplete.then(() =>
      this.querySelector<SVGElement>(`[data-slot="${CSS.escape(slot)}"]`)?.focus(),
    );
  }

  /** From the chosen slot to this one. */
  private pickTo({ slot }: DrawnSlot): void {
    const { answer, chosenRun } = this.store.get();
    const { slots, runs } = answer!.sizing.setOut;
    const chosen = runs.find(({ id }) => id === chosenRun)?.slot ?? slot.id;
    this.store.set({ pickedSlots: between(slots, chosen, slot.id) });
  }

  /** A click chooses a slot; with Shift it picks all from the chosen one on, with Ctrl one more. */
  private readonly choose: SlotChoice['choose'] = (drawn, event) => {
    const { pickedSlots } = this.store.get();
    if (event.shiftKey) this.pickTo(drawn);
    else if (event.ctrlKey || event.metaKey)
      this.store.set({ pickedSlots: toggled(pickedSlots, drawn.slot.number) });
    else if (drawn.run) this.store.set({ chosenRun: drawn.run.id, pickedSlots: [] });
  };

  /** Moves something of the job, and says where it is now, or why not. */
  private moveOnWall(movable: Movable, shift: Shift, goesOn: boolean): void {
    const why = moveBy(this.store, movable, shift, goesOn);
    const now = movablesOf(this.store.get().draft!.job).find(({ key }) => key === movable.key);
    this.said = why ?? (now ? `${now.name}: ${whereText(now)}.` : '');
  }

  /** Drags something along the wall, near things drawing it. */
  private drag(event: PointerEvent, movable: Movable): void {
    const drawing = this.querySelector<SVGSVGElement>('.elevation');
    const { answer, frozen } = this.store.get();
    if (!drawing || !answer || frozen || event.button !== 0) return;
    const frame = this.frame({ job: answer.job, cables: answer.sizing.cables });
    const near = { job: answer.job, setOut: answer.sizing.setOut, reach_mm: reach_px / frame.scale };
    dragOnWall(drawing, event, {
      movable,
      frame,
      snap: (shift) => snapped(movable, shift, near),
      done: (shift) => this.moveOnWall(movable, shift, false),
    });
  }

  /** The slot of a number, where slots are lines that can be moved. */
  private lineOf(number: number): Movable | undefined {
    const { draft, frozen } = this.store.get();
    if (!draft || frozen || draft.job.slots.from !== 'segments') return undefined;
    return movablesOf(draft.job).find(({ key }) => key === `slots.segments[${number}]`);
  }

  private move(drawn: readonly DrawnSlot[]): SlotChoice['move'] {
    return (event, index) => {
      const line = this.lineOf(drawn[index]!.slot.number);
      const shift = event.ctrlKey ? shiftOf(event) : undefined;
      if (line && shift) {
        event.preventDefault();
        this.moveOnWall(line, shift, true);
        return;
      }
      const step = steps[event.key];
      const next =
        event.key === 'Home'
          ? 0
          : event.key === 'End'
            ? drawn.length - 1
            : step === undefined
              ? index
              : index + step;
      const there = drawn[Math.min(drawn.length - 1, Math.max(0, next))];
      const acts = event.key === 'Enter' || event.key === ' ' || next !== index;
      if (event.key === 'Escape') this.store.set({ pickedSlots: [] });
      if (!there?.run || !acts) return;
      event.preventDefault();
      if (event.shiftKey && next !== index) this.pickTo(there);
      else this.store.set({ chosenRun: there.run.id, pickedSlots: [] });
      this.focusSlot(there.run.slot);
    };
  }

  /** The feed point of an id with its run; says why where it stays where it is. */
  private feedOf(id: string): FeedAlong | undefined {
    const { answer, frozen } = this.store.get();
    const feed = answer && !frozen ? feedAlong(answer.sizing.setOut, id) : undefined;
    if (typeof feed !== 'string') return feed;
    this.said = feed;
    return undefined;
  }

  /** Drags a feed point along its run, from cut line to cut line. */
  private dragFeed(event: PointerEvent, id: string): void {
    const drawing = this.querySelector<SVGSVGElement>('.elevation');
    const { answer } = this.store.get();
    const feed = event.button === 0 ? this.feedOf(id) : undefined;
    if (!drawing || !answer || !feed) return;
    const frame = this.frame({ job: answer.job, cables: answer.sizing.cables });
    dragOnWall(drawing, event, {
      movable: feedMovable(feed, 2 * (reach_px / frame.scale)),
      frame,
      snap: (shift) => shiftTo(feed, cutLineNear(feed, shift)),
      say: (shift) => cutLineText(feed, cutLineNear(feed, shift)),
      done: (shift) => {
        this.said = moveFeed(this.store, feed, cutLineNear(feed, shift), false);
      },
    });
  }

  /** Arrow keys move the picked feed point along its run: to the right and up is towards the right and upper end. */
  private stepFeed(event: KeyboardEvent, id: string): void {
    const shift = shiftOf(event);
    const { draft } = this.store.get();
    const feed =
      shift && draft && !event.ctrlKey && !event.altKey && !event.metaKey ? this.feedOf(id) : undefined;
    if (!shift || !draft || !feed) return;
    event.preventDefault();
    const { run } = feed;
    const along =
      shift.across_mm * Math.sign(run.x1_mm - run.x0_mm) || shift.up_mm * Math.sign(run.y1_mm - run.y0_mm);
    this.said = moveFeed(this.store, feed, cutLineOf(draft.job, feed) + along, true);
  }

  private readonly moves: Moves = {
    press: (event, movable) => this.drag(event, movable),
    step: (movable, shift) => this.moveOnWall(movable, shift, true),
  };

  private frame(wall: FramedWall): WallFrame {
    const highest = Math.max(420, Math.min(640, window.innerHeight - 300));
    return wallFrame(wall, {
      width: Math.max(260, this.measured.width) * this.zoom,
      highest: highest * this.zoom,
    });
  }

  /** A wall nobody has put a slot into yet. */
  private bareWall({ job }: Draft): TemplateResult {
    const frame = this.frame({ job, cables: [] });
    return html`<div class="drawing-scroll" id="elevation" tabindex="-1">
      <svg
        class="elevation view-line"
        viewBox="0 0 ${frame.width} ${frame.height}"
        width=${frame.width}
        height=${frame.height}
        role="img"
        aria-label="The panel, without slots yet"
      >
        ${panelFaces(job, frame)} ${panelOpenings(job, frame)} ${panelDimensions(job, frame)} ${overallDimensions(job.panel, frame)}
        <text class="bare-words" text-anchor="middle" x=${frame.x(job.panel.width_mm / 2)} y=${frame.y(job.panel.height_mm / 2)}>
          No slots yet: paste their lengths, or space them evenly.
        </text>
      </svg>
    </div>`;
  }

  private drawing(answer: Answer, state: State): TemplateResult {
    const { sizing, job } = answer;
    const frame = this.frame({ job, cables: sizing.cables });
    const style: SlotStyle = {
      frame,
      panel: job.panel,
      view: state.view,
      hueHex: sizing.light.colourHex,
      brightest: brightestOf(sizing),
    };
    const drawn = drawnSlots(sizing);
    const choice: SlotChoice = {
      chosenRun: state.chosenRun,
      picked: state.pickedSlots,
      choose: this.choose,
      move: this.move(drawn),
    };
    const wiring: WiringChoice = {
      picked: state.marked ?? {},
      belonging: belongingTo(sizing, state.marked),
      pick: (part) => pick(this.store, part),
      ...(state.frozen
        ? {}
        : {
            feed: {
              press: (event, { id }) => this.dragFeed(event, id),
              key: (event, { id }) => this.stepFeed(event, id),
            },
          }),
    };
    return html`<svg
      class="elevation view-${state.view}"
      viewBox="0 0 ${frame.width} ${frame.height}"
      width=${frame.width}
      height=${frame.height}
      role="group"
      aria-label="Elevation of the piece, ${quantity(job.panel.width_mm, 'mm')} wide and ${quantity(job.panel.height_mm, 'mm')} high"
    >
      ${panelFaces(job, frame)} ${panelOpenings(job, frame)} ${placeOutlines(answer, frame)} ${cableLines(answer, frame, wiring)}
      ${
        state.frozen || !state.draft
          ? nothing
          : wallHandles(
              movablesOf(state.draft.job).filter(({ key }) => !key.startsWith('slots')),
              frame,
              this.moves,
            )
      }
      ${slotLight(drawn, style)} ${wallHung(sizing, frame)} ${slotNumbers(drawn, style, state.chosenRun)} ${slotTargets(drawn, style, choice)}
      ${wallDevices(answer, frame, wiring)} ${wiringSymbols(answer, frame, wiring)}
      ${pitchDimension(sizing.setOut, job.panel, frame)} ${panelDimensions(job, frame)} ${overallDimensions(job.panel, frame)}
    </svg>`;
  }

  private chooser(answer: Answer, chosenRun: string | undefined): TemplateResult {
    const { runs } = answer.sizing.setOut;
    const at = runs.findIndex((run) => run.id === chosenRun);
    const go = (index: number): void => {
      const run = runs[index];
      if (run) this.store.set({ chosenRun: run.id });
    };
    return html`<div class="chooser">
      <button type="button" aria-label="Previous slot" ?disabled=${at <= 0} @click=${() => go(at - 1)}>‹</button>
      <label for="chosen-slot">Slot</label>
      <select
        id="chosen-slot"
        @change=${(event: Event) => go((event.target as HTMLSelectElement).selectedIndex)}
      >
        ${runs.map((run) => html`<option ?selected=${run.id === chosenRun}>${run.slot}</option>`)}
      </select>
      <button type="button" aria-label="Next slot" ?disabled=${at >= runs.length - 1} @click=${() => go(at + 1)}>
        ›
      </button>
    </div>`;
  }

  private tools(answer: Answer, state: State): TemplateResult {
    return html`<div class="drawing-tools">
      ${this.chooser(answer, state.chosenRun)}
      <div class="switch" role="group" aria-label="How the wall is shown">
        ${views.map(
          ([view, text]) =>
            html`<button
              type="button"
              aria-pressed=${state.view === view ? 'true' : 'false'}
              @click=${() => this.store.set({ view })}
            >
              ${text}
            </button>`,
        )}
      </div>
      <div class="switch" role="group" aria-label="Size of the drawing">
        ${zooms.map(
          (zoom) =>
            html`<button
              type="button"
              aria-pressed=${this.zoom === zoom ? 'true' : 'false'}
              @click=${() => {
                this.zoom = zoom;
              }}
            >
              ${zoom === 1 ? 'Whole' : `${zoom} ×`}
            </button>`,
        )}
      </div>
    </div>`;
  }

  /** A box drawn over the wall with the mouse picks every slot it meets. */
  private startBox(event: PointerEvent, answer: Answer): void {
    const drawing = this.querySelector<SVGSVGElement>('.elevation');
    const isOnThing =
      (event.target as Element).closest(
        '.slot, .feed-point, .wiring-target, .move-handle, [data-cable], [data-driver]',
      ) !== null;
    const number = Number((event.target as Element).closest<SVGElement>('.slot')?.dataset.number);
    const line = this.lineOf(number);
    if (line && !event.shiftKey && !event.ctrlKey) this.drag(event, line);
    if (!drawing || isOnThing || event.button !== 0 || event.pointerType !== 'mouse') return;
    const frame = this.frame({ job: answer.job, cables: answer.sizing.cables });
    drawBox(drawing, event, (box) => {
      const mm = boxOnWall(box, frame);
      this.store.set({ pickedSlots: within(answer.sizing.setOut.slots, mm) });
    });
  }

  /** Another size keeps the chosen slot in sight. */
  protected override updated(changed: PropertyValues): void {
    const box = this.querySelector('.drawing-scroll');
    const chosen = this.querySelector('.chosen-outline');
    if (!changed.has('zoom') || !box || !chosen) return;
    const [view, slot] = [box.getBoundingClientRect(), chosen.getBoundingClientRect()];
    box.scrollBy(
      (slot.left + slot.right - view.left - view.right) / 2,
      (slot.top + slot.bottom - view.top - view.bottom) / 2,
    );
  }

  override render(): TemplateResult {
    const state = this.store.get();
    const { answer, draft, standing } = state;
    if (!answer && draft && standing.is === 'incomplete') return this.bareWall(draft);
    if (!answer) return html`<p class="drawing-empty">The drawing appears here with the first answer.</p>`;
    return html`${this.tools(answer, state)}
      <div class="drawing-scroll" id="elevation" tabindex="-1" @pointerdown=${(event: PointerEvent) => this.startBox(event, answer)}>
        ${this.drawing(answer, state)}
      </div>
      ${state.frozen ? nothing : html`<p class="hint wall-note pick-hint">Shift with a click or an arrow key, or a box drawn over the wall, picks several slots to change at once. Driver places and openings can be dragged, or moved by the arrow keys; so can a feed point along its strip, once it is picked${answer.job.slots.from === 'segments' ? '; so can slots, by the arrow keys with Ctrl' : ''}.</p>`}
      <p class="unseen" role="status">${this.said}</p>
      <picked-slots .store=${this.store}></picked-slots>
      <picked-part .store=${this.store}></picked-part>
      ${state.view === 'compare' ? comparisonScale() : nothing} ${state.view === 'glow' ? glowLevel(answer) : nothing}`;
  }
}

/** At which levels the wall glows. */
function glowLevel({ sizing: { light } }: Answer): TemplateResult {
  const each = light.zones.map(({ name, levels, luminance_cd_per_m2 }) => {
    const of = light.zones.length === 1 ? '' : `${name} `;
    return `${of}${levels.working.map(levelText).join(' and ')} of full: ${quantity(luminance_cd_per_m2, 'cd/m²')}`;
  });
  return html`<p class="hint wall-note">Drawn at the working level, ${each.join('; ')}.</p>`;
}

/** The scale of the comparison, with its numbers. */
function comparisonScale(): TemplateResult {
  return html`<div class="comparison-scale" role="img" aria-label="Scale of light relative to the brightest cut unit">
    <span>Light, relative to the brightest cut unit of the wall</span>
    <ol>
      ${comparedMarks.map(
        (mark, i) =>
          html`<li>
            <svg width="26" height="12" aria-hidden="true">
              <rect width="26" height="12" fill=${comparedColour(mark)}></rect>
            </svg>
            ${i === 0 ? 'at most ' : ''}${percent(mark, Number.isInteger(mark * 100) ? 0 : 1)}
          </li>`,
      )}
    </ol>
  </div>`;
}

customElements.define('wall-elevation', WallElevation);
