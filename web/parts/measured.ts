import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** The width an element has on the page, so that drawings are made for it and their lettering keeps its size. */
export class Measured implements ReactiveController {
  width = 0;
  private readonly host: ReactiveControllerHost & Element;
  private readonly watcher: ResizeObserver;

  constructor(host: ReactiveControllerHost & Element) {
    this.host = host;
    this.watcher = new ResizeObserver(([entry]) => {
      const width = Math.round(entry?.contentRect.width ?? 0);
      if (width === 0 || width === this.width) return;
      this.width = width;
      this.host.requestUpdate();
    });
    host.addController(this);
  }

  hostConnected(): void {
    this.watcher.observe(this.host);
  }

  hostDisconnected(): void {
    this.watcher.disconnect();
  }
}
