import { quantity } from '../format.ts';
import type { Movable, Shift } from '../state/moving.ts';
import type { WallFrame } from './wall-frame.ts';

/** Shorter drags are clicks. */
const least_px = 4;

/** Nearer than this on the screen, things draw one another. */
export const reach_px = 8;

const namespace = 'http://www.w3.org/2000/svg';

/** Where something is, in words: `240 mm from the left, −140 mm from the foot`. */
export const whereText = ({ x_mm, y_mm }: Pick<Movable, 'x_mm' | 'y_mm'>): string =>
  `${quantity(x_mm, 'mm')} from the left, ${quantity(y_mm, 'mm')} from the foot`;

const movedTo = (movable: Movable, { across_mm, up_mm }: Shift): Movable => ({
  ...movable,
  x_mm: movable.x_mm + across_mm,
  y_mm: movable.y_mm + up_mm,
});

/** The outline that follows the pointer, with where it is. */
function outline(say: (at: Movable) => string): {
  readonly group: SVGGElement;
  readonly show: (at: Movable, frame: WallFrame) => void;
} {
  const group = document.createElementNS(namespace, 'g');
  group.setAttribute('class', 'dragged');
  const box = document.createElementNS(namespace, 'rect');
  const text = document.createElementNS(namespace, 'text');
  box.setAttribute('class', 'dragged-box');
  text.setAttribute('class', 'dragged-where');
  group.append(box, text);
  const show = (at: Movable, { x, y, scale, width }: WallFrame): void => {
    const left = x(at.x_mm);
    const attributes = {
      x: left,
      y: y(at.y_mm + at.height_mm),
      width: Math.max(1, at.width_mm * scale),
      height: Math.max(1, at.height_mm * scale),
    };
    for (const [name, value] of Object.entries(attributes)) box.setAttribute(name, String(value));
    const isLeft = left < width / 2;
    text.setAttribute('x', String(isLeft ? left : left + attributes.width));
    text.setAttribute('y', String(Math.max(14, attributes.y - 6)));
    text.setAttribute('text-anchor', isLeft ? 'start' : 'end');
    text.textContent = say(at);
  };
  return { group, show };
}

/** Follows the pointer with something that is moved, kept to what it comes near; Escape leaves it where it was. */
export function dragOnWall(
  drawing: SVGSVGElement,
  begin: PointerEvent,
  of: {
    readonly movable: Movable;
    readonly frame: WallFrame;
    readonly snap: (shift: Shift) => Shift;
    readonly done: (shift: Shift) => void;
    /** What is said of it where it is; else where that is from the corner of the panel. */
    readonly say?: (shift: Shift) => string;
  },
): void {
  const { movable, frame, snap, done } = of;
  const say = (at: Movable): string => (of.say && shift ? of.say(shift) : whereText(at));
  const { scale } = frame;
  const perPixel = frame.width / drawing.getBoundingClientRect().width;
  const { group, show } = outline(say);
  const stop = new AbortController();
  const { signal } = stop;
  let shift: Shift | undefined;
  const move = (event: PointerEvent): void => {
    const [dx, dy] = [event.clientX - begin.clientX, event.clientY - begin.clientY];
    if (shift === undefined && Math.hypot(dx, dy) < least_px) return;
    event.preventDefault();
    shift = snap({ across_mm: (dx * perPixel) / scale, up_mm: (-dy * perPixel) / scale });
    show(movedTo(movable, shift), frame);
    if (!group.isConnected) drawing.append(group);
  };
  const end = (): void => {
    stop.abort();
    group.remove();
  };
  window.addEventListener('pointermove', move, { signal });
  window.addEventListener('keydown', ({ key }) => key === 'Escape' && end(), { signal });
  window.addEventListener('pointercancel', end, { signal });
  window.addEventListener(
    'pointerup',
    () => {
      end();
      if (shift !== undefined) done(shift);
    },
    { signal },
  );
}
