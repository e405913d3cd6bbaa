import { html, nothing, type TemplateResult } from 'lit';
import type { Finding } from '../../src/answer/findings.ts';
import type { Law, Quantity, Working } from '../../src/answer/workings.ts';
import { workingFigure } from '../format.ts';

/** A symbol as it is written by hand: what follows the underscore below the line. */
function symbolText(symbol: string): TemplateResult {
  const [letter = '', below] = symbol.split('_');
  return html`<var>${letter}${below === undefined ? nothing : html`<sub>${below}</sub>`}</var>`;
}

type Writes = (symbol: string) => unknown;

const joined = (symbols: readonly string[], sign: string, write: Writes): unknown[] =>
  symbols.map((symbol, i) => (i === 0 ? write(symbol) : [sign, write(symbol)]));

/** A law with each of its quantities written one way: by its symbol, or by its figure. */
function lawText(law: Law, write: Writes): unknown {
  switch (law.is) {
    case 'sum':
      return [joined(law.plus, ' + ', write), law.minus.map((symbol) => [' − ', write(symbol)])];
    case 'product':
      return [joined(law.times, ' × ', write), law.over.map((symbol) => [' ÷ ', write(symbol)])];
    case 'power':
      return [write(law.base), html`<sup>${write(law.exponent)}</sup>`];
    case 'least':
      return ['the least of ', joined(law.of, ' and ', write)];
    case 'greatest':
      return ['the greater of ', joined(law.of, ' and ', write)];
    case 'whole':
      return ['whole ones of ', write(law.of)];
  }
}

const figureOf = ({ value, unit }: Pick<Quantity, 'value' | 'unit'>): string => workingFigure(value, unit);

/** A number that needs no name, such as one or none: written as it is, without a line of its own. */
const isPlain = ({ symbol, law }: Quantity): boolean => law === null && /^[a-z]{3,}$/.test(symbol);

function line(
  quantity: Quantity,
  figures: ReadonlyMap<string, string>,
  plain: ReadonlySet<string>,
): TemplateResult {
  const { symbol, meaning, law, source } = quantity;
  const byLaw =
    law === null
      ? nothing
      : html`${lawText(law, (each) => (plain.has(each) ? figures.get(each) : symbolText(each)))} = ${lawText(law, (each) => figures.get(each))} = `;
  return html`<li class="working-row">
    <span class="working-meaning">${meaning}</span>
    <span class="working-line">${symbolText(symbol)} = ${byLaw}<strong>${figureOf(quantity)}</strong></span>
    ${source === null ? nothing : html`<span class="working-source">${source}</span>`}
  </li>`;
}

/** Whether the figure keeps to its limit, and which way a quantity would have to go: "holds up to about 0.7 V". */
function turnText(isKept: boolean, now: Quantity, value: number): string {
  const there = workingFigure(value, now.unit);
  const isMore = value > now.value;
  if (isKept) return `keeps to its limit ${isMore ? 'up to' : 'down to'} about ${there}`;
  return `would keep to its limit at about ${there} or ${isMore ? 'more' : 'less'}`;
}

function turns({ quantities, turns, result, limit, must }: Working): TemplateResult | typeof nothing {
  if (turns.length === 0 || limit === null) return nothing;
  const of = (symbol: string): Quantity => quantities.find((each) => each.symbol === symbol)!;
  const over = of(result).value - of(limit).value;
  const isKept = must === 'reach' ? over >= 0 : over <= 0;
  return html`<p>What would change that, one thing at a time and the rest of this working as it is:</p>
    <ul>
      ${turns.map(
        ({ symbol, value }) =>
          html`<li class="working-turn">
            ${symbolText(symbol)}, ${of(symbol).meaning}, now ${figureOf(of(symbol))}:
            ${turnText(isKept, of(symbol), value)}.
          </li>`,
      )}
    </ul>`;
}

const endOf = ({ result, limit, must }: Working): TemplateResult =>
  limit === null
    ? html`<p>${symbolText(result)} is held against no limit.</p>`
    : html`<p>
        Judged: ${symbolText(result)} must ${must === 'reach' ? 'reach' : 'not exceed'} ${symbolText(limit)}.
      </p>`;

export const workingId = ({ id }: Finding): string => `working-${id}`;

/** The working behind the figures of a finding, line by line. */
export function workingLines(finding: Finding, working: Working): TemplateResult {
  const figures = new Map(working.quantities.map((each) => [each.symbol, figureOf(each)]));
  const plain = new Set(working.quantities.filter(isPlain).map(({ symbol }) => symbol));
  return html`<section class="working" id=${workingId(finding)} aria-label="Working of ${finding.title}">
    <ol>
      ${working.quantities.flatMap((each) => (isPlain(each) ? [] : [line(each, figures, plain)]))}
    </ol>
    ${endOf(working)} ${turns(working)}
  </section>`;
}
