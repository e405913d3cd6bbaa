import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { CircuitRun } from '../../src/answer/circuit.ts';
import { drawPlot, type Plot, plotScales } from '../drawing/plot.ts';
import { brightestOf, drawnSlots } from '../drawing/wall-slots.ts';
import { fixed, onPaper, percent } from '../format.ts';
import { belongingTo, pickedName } from '../state/belonging.ts';
import type { Answer, State } from '../state/store.ts';
import { Measured } from './measured.ts';
import { StoreElement } from './store-element.ts';

interface SlotLight {
  readonly run: string;
  readonly slot: string;
  readonly number: number;
  readonly low: number;
  readonly mean: number;
  readonly high: number;
  readonly neighbour: number | null;
}

function slotLights({ sizing }: Answer): SlotLight[] {
  const brightest = brightestOf(sizing);
  const described = (circuit: CircuitRun, slot: string, number: number): SlotLight => {
    const light = circuit.unit_light.map((value) => value / brightest);
    return {
      run: circuit.run,
      slot,
      number,
      low: Math.min(...light),
      high: Math.max(...light),
      mean: light.reduce((a, b) => a + b, 0) / light.length,
      neighbour: circuit.neighbour,
    };
  };
  return drawnSlots(sizing).flatMap(({ slot, circuit }, i) =>
    circuit ? [described(circuit, slot.id, i + 1)] : [],
  );
}

/** From dimmest to brightest unit of each slot, with its mean, as one path each for the whole wall. */
function whiskers(lights: readonly SlotLight[], plot: Plot, marked: ReadonlySet<string>): SVGTemplateResult {
  const { x, y } = plotScales(plot);
  const half = Math.max(1, Math.min(6, 0.3 * Math.abs(x(1) - x(0))));
  const stroke = (one: SlotLight): string =>
    `M${onPaper(x(one.number))} ${onPaper(y(one.low))}V${onPaper(y(one.high))}`;
  const bar = (one: SlotLight): string =>
    `M${onPaper(x(one.number) - half)} ${onPaper(y(one.mean))}h${onPaper(2 * half)}`;
  const chosen = lights.filter((one) => marked.has(one.run));
  return svg`<path class="whisker" d=${lights.map(stroke).join('')}></path>
    <path class="whisker-mean" d=${lights.map(bar).join('')}></path>
    <path class="whisker-chosen" d=${chosen.map((one) => stroke(one) + bar(one)).join('')}></path>`;
}

function comparisonPlot(lights: readonly SlotLight[], width: number): Plot {
  const low = Math.min(...lights.map((one) => one.low));
  const from = Math.min(0.95, Math.floor(low * 20 - 0.2) / 20);
  return {
    title: `Light of ${lights.length} slots relative to the brightest cut unit; the dimmest is at ${percent(low)}`,
    width,
    height: 180,
    x: {
      from: 0.5,
      to: (lights.at(-1)?.number ?? 1) + 0.5,
      label: 'slot',
      write: (v) => (Number.isInteger(v) ? fixed(v, 0) : ''),
    },
    y: {
      from: Math.max(0, from),
      to: 1.01,
      label: 'light, relative to the brightest cut unit',
      write: (v) => percent(v, 0),
    },
    series: [],
    band: undefined,
    levels: [{ at: 1, text: '', kind: 'nominal' }],
  };
}

const widestGap = (lights: readonly SlotLight[]): SlotLight | undefined =>
  lights.reduce<SlotLight | undefined>(
    (worst, one) => (one.neighbour !== null && one.neighbour > (worst?.neighbour ?? -1) ? one : worst),
    undefined,
  );

/** The light of every slot beside its neighbours. */
export class WallComparison extends StoreElement {
  private readonly measured = new Measured(this);

  protected override shows({ answer, chosenRun, marked }: State): readonly unknown[] {
    return [answer?.sizing, chosenRun, marked];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, chosenRun, marked } = this.store.get();
    const lights = answer ? slotLights(answer) : [];
    if (lights.length === 0) return nothing;
    const plot = comparisonPlot(lights, this.measured.width || 600);
    const worst = widestGap(lights);
    const lit = answer ? belongingTo(answer.sizing, marked).runs : new Set<string>();
    const shown = lit.size > 0 ? lit : new Set(chosenRun === undefined ? [] : [chosenRun]);
    return html`<h2>Light across the wall</h2>
      ${drawPlot(plot, whiskers(lights, plot, shown))}
      <p class="remark">
        Each stroke runs from the dimmest to the brightest cut unit of a slot; the bar is its mean.${lit.size > 0 && marked ? ` Thick: what ${pickedName(marked)} lights.` : nothing}
        ${
          worst && worst.neighbour !== null
            ? html`The widest step between neighbours is ${percent(worst.neighbour)}, at
                <button type="button" class="plain" @click=${() => this.store.set({ chosenRun: worst.run })}>
                  slot ${worst.slot}</button
                >.`
            : nothing
        }
      </p>`;
  }
}

customElements.define('wall-comparison', WallComparison);
