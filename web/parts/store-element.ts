import { LitElement, type PropertyDeclarations } from 'lit';
import type { Store } from '../state/store.ts';

/**
 * An element that shows the state of the page. It renders into the document itself, so that one style sheet,
 * labels and printing reach it, and again whenever the state changes.
 */
export class StoreElement extends LitElement {
  static override properties: PropertyDeclarations = { store: { attribute: false } };
  declare store: Store;
  private deaf: (() => void) | undefined;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.deaf = this.store.listen(() => this.requestUpdate());
  }

  override disconnectedCallback(): void {
    this.deaf?.();
    super.disconnectedCallback();
  }
}
