import { type SVGTemplateResult, svg } from 'lit';
import type { Movable, Shift } from '../state/moving.ts';
import { whereText } from './drag-on-wall.ts';
import type { WallFrame } from './wall-frame.ts';

/** How things on the wall are moved. */
export interface Moves {
  readonly press: (event: PointerEvent, movable: Movable) => void;
  readonly step: (movable: Movable, shift: Shift) => void;
}

const ways: Readonly<Record<string, readonly [across: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** What an arrow key shifts by: 1 mm, with Shift 10 mm; undefined of any other key. */
export function shiftOf({ key, shiftKey }: Pick<KeyboardEvent, 'key' | 'shiftKey'>): Shift | undefined {
  const way = ways[key];
  const by = shiftKey ? 10 : 1;
  return way && { across_mm: by * way[0], up_mm: by * way[1] };
}

/** Handles of driver places and openings, which can be dragged, and moved by the arrow keys. */
export function wallHandles(
  movables: readonly Movable[],
  frame: WallFrame,
  moves: Moves,
): SVGTemplateResult[] {
  const { x, y, scale } = frame;
  const onKey = (event: KeyboardEvent, movable: Movable): void => {
    const shift = shiftOf(event);
    if (!shift || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    moves.step(movable, shift);
  };
  return movables.map(
    (movable) => svg`<rect
      class="move-handle" tabindex="0" role="button" data-move=${movable.key}
      aria-label="${movable.name}, ${whereText(movable)}: drag it, or move it by the arrow keys"
      x=${x(movable.x_mm)} y=${y(movable.y_mm + movable.height_mm)}
      width=${movable.width_mm * scale} height=${movable.height_mm * scale}
      @pointerdown=${(event: PointerEvent) => moves.press(event, movable)}
      @keydown=${(event: KeyboardEvent) => onKey(event, movable)}
    ></rect>`,
  );
}
