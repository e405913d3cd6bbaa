import { LitElement } from 'lit';
import type { State, Store } from '../state/store.ts';

/**
 * An element that shows the state of the page. It renders into the document itself, so that one style sheet,
 * labels and printing reach it, and again whenever what it shows changes.
 */
export class StoreElement extends LitElement {
  /** One for the life of the element; set before its script may be there, so that it is no property Lit would take away. */
  declare store: Store;
  private deaf: (() => void) | undefined;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  /** The parts of the state this element shows; it renders again only when one of them is another. */
  protected shows(state: State): readonly unknown[] {
    return [state];
  }

  override connectedCallback(): void {
    super.connectedCallback();
    let shown = this.shows(this.store.get());
    this.deaf = this.store.listen(() => {
      const now = this.shows(this.store.get());
      if (now.every((part, i) => part === shown[i])) return;
      shown = now;
      this.requestUpdate();
    });
  }

  override disconnectedCallback(): void {
    this.deaf?.();
    super.disconnectedCallback();
  }
}
