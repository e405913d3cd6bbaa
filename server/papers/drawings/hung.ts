import type { Sizing } from '../../../src/answer/sizing.ts';
import { filled, lettering, type Mark, outline, type Point } from '../ink/mark.ts';

const em_mm = 1.8;

type Thing = Sizing['hung'][number];

/** A band of the slot about the middle of a thing. */
function band({ x0_mm, y0_mm, x1_mm, y1_mm }: Thing, length_mm: number, wide_mm: number): Point[] {
  const whole = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm);
  const [ex, ey] = [(x1_mm - x0_mm) / whole, (y1_mm - y0_mm) / whole];
  const [mx, my] = [(x0_mm + x1_mm) / 2, (y0_mm + y1_mm) / 2];
  const corner = (a: number, b: number): Point => [
    mx + (a * length_mm * ex - b * wide_mm * ey) / 2,
    my + (a * length_mm * ey + b * wide_mm * ex) / 2,
  ];
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}

function thingMarks(thing: Thing, slotWidth_mm: number, perPaper: number): Mark[] {
  const em = em_mm * perPaper;
  const { name, slides, dark_mm, width_mm } = thing;
  const [x, y] = [(thing.x0_mm + thing.x1_mm) / 2, (thing.y0_mm + thing.y1_mm) / 2];
  return [
    ...(dark_mm === null ? [] : [filled('DARK_ENDS', ...band(thing, dark_mm, slotWidth_mm))]),
    outline('HUNG', ...band(thing, width_mm, slotWidth_mm + 1.2 * perPaper)),
    lettering({
      layer: 'LETTERING',
      at: [x + slotWidth_mm / 2 + perPaper, y - em / 3],
      text: `${name}${slides ? ', slides' : ''}`,
      em,
    }),
  ];
}

/** What hangs in the slots and the piece of the slot it darkens; what slides in the middle of its way. Answers issued earlier have none. */
export const hungMarks = ({ hung, setOut }: Sizing, perPaper: number): Mark[] =>
  (hung ?? []).flatMap((thing) => {
    const slot = setOut.slots.find(({ id }) => id === thing.slot);
    return slot ? thingMarks(thing, slot.width_mm, perPaper) : [];
  });
