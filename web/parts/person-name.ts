import { html, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { longestPerson, person, rememberPerson } from '../state/person.ts';
import { StoreElement } from './store-element.ts';

/** Asks once who works here; the name stands with what is kept, issued and measured from this browser. */
export class PersonName extends StoreElement {
  static override properties = { isChanging: { state: true }, name: { state: true } };
  declare isChanging: boolean;
  declare name: string;

  constructor() {
    super();
    this.isChanging = person() === '';
    this.name = person();
  }

  private take(event: Event): void {
    event.preventDefault();
    rememberPerson(this.name);
    this.name = person();
    this.isChanging = this.name === '';
  }

  private change(): void {
    this.isChanging = true;
    void this.updateComplete.then(() => this.querySelector('input')?.focus());
  }

  override render(): TemplateResult {
    if (!this.isChanging)
      return html`<p class="person">
        ${this.name} works here.
        <button type="button" class="plain" @click=${() => this.change()}>Somebody else</button>
      </p>`;
    return html`<form class="person" @submit=${(event: Event) => this.take(event)}>
      <label>
        Who works here?
        <input
        type="text"
        maxlength=${longestPerson}
        autocomplete="name"
        .value=${live(this.name)}
        @input=${(event: InputEvent) => {
          this.name = (event.target as HTMLInputElement).value;
        }}
      /></label>
      <button type="submit">Remember it</button>
      <span class="hint">It stands beside what you keep, issue and measure, and is remembered in this browser.</span>
    </form>`;
  }
}

customElements.define('person-name', PersonName);
