import { html, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';

/** A choice of a few ways side by side. */
export function radios<Value extends string>(
  legend: string,
  options: readonly (readonly [Value, string])[],
  chosen: Value,
  take: (value: Value) => void,
): TemplateResult {
  return html`<fieldset class="radios">
    <legend>${legend}</legend>
    ${options.map(
      ([value, text]) =>
        html`<label
          ><input
            type="radio"
            name=${legend}
            .checked=${live(value === chosen)}
            @change=${() => take(value)}
          /><span>${text}</span></label
        >`,
    )}
  </fieldset>`;
}
