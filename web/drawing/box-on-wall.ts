import type { Box } from '../../src/numeric/part-in-box.ts';
import type { WallFrame } from './wall-frame.ts';

/** Two corners in drawing units, y down. */
interface Drawn {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A box of the drawing on the wall, mm from the panel's lower left corner. */
export function boxOnWall({ x0, y0, x1, y1 }: Drawn, frame: WallFrame): Box {
  const x_mm = (x: number): number => (x - frame.x(0)) / frame.scale;
  const y_mm = (y: number): number => (frame.y(0) - y) / frame.scale;
  return {
    left: x_mm(Math.min(x0, x1)),
    right: x_mm(Math.max(x0, x1)),
    bottom: y_mm(Math.max(y0, y1)),
    top: y_mm(Math.min(y0, y1)),
  };
}

/** Shorter drags are clicks. */
const least_px = 5;

const namespace = 'http://www.w3.org/2000/svg';

/** Follows the mouse with a box until it is let go of, and says which box that was; Escape gives it up. */
export function drawBox(drawing: SVGSVGElement, begin: PointerEvent, done: (box: Drawn) => void): void {
  const at = ({ clientX, clientY }: PointerEvent): DOMPoint =>
    new DOMPoint(clientX, clientY).matrixTransform(drawing.getScreenCTM()!.inverse());
  const from = at(begin);
  const shown = document.createElementNS(namespace, 'rect');
  shown.setAttribute('class', 'pick-box');
  const stop = new AbortController();
  const boxTo = (event: PointerEvent): Drawn => ({
    x0: from.x,
    y0: from.y,
    x1: at(event).x,
    y1: at(event).y,
  });
  const move = (event: PointerEvent): void => {
    const { x0, y0, x1, y1 } = boxTo(event);
    if (!shown.isConnected && Math.hypot(x1 - x0, y1 - y0) < least_px) return;
    const box = {
      x: Math.min(x0, x1),
      y: Math.min(y0, y1),
      width: Math.abs(x1 - x0),
      height: Math.abs(y1 - y0),
    };
    for (const [name, value] of Object.entries(box)) shown.setAttribute(name, String(value));
    drawing.append(shown);
  };
  const end = (): void => {
    stop.abort();
    shown.remove();
  };
  const { signal } = stop;
  begin.preventDefault();
  window.addEventListener('pointermove', move, { signal });
  window.addEventListener('keydown', ({ key }) => key === 'Escape' && end(), { signal });
  window.addEventListener('pointercancel', end, { signal });
  window.addEventListener(
    'pointerup',
    (event) => {
      const wasDrawn = shown.isConnected;
      end();
      if (wasDrawn) done(boxTo(event));
    },
    { signal },
  );
}
