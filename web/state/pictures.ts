/** The pictures beside the form, by what they show. */
export const pictures = ['wall', 'run', 'comparison', 'section', 'slot'] as const;

export type PictureId = (typeof pictures)[number];

/** How a picture is called where one is asked to go to it or to keep it. */
export const pictureName: Readonly<Record<PictureId, string>> = {
  wall: 'the wall',
  run: 'the run',
  comparison: 'the light across the wall',
  section: 'the section',
  slot: 'the brightness of a slot',
};

const element = (id: PictureId): HTMLElement | null => document.getElementById(`picture-${id}`);

/** From this width on, form and pictures stand side by side and each scrolls by itself. */
const sideBySide = '(min-width: 700px)';

/** Whether a picture stands in sight below what stays at the top, as far as it has room there. */
function isInSight(shown: HTMLElement): boolean {
  const { top, bottom } = shown.getBoundingClientRect();
  const stuck =
    Number.parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) +
    Number.parseFloat(getComputedStyle(shown).scrollMarginTop);
  return top >= stuck - 12 && (bottom <= window.innerHeight || top <= stuck + 12);
}

/** Brings a picture into sight; one that is there stays where it is. */
export function goToPicture(id: PictureId): void {
  const shown = element(id);
  if (!shown || isInSight(shown)) return;
  const isStill = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
  shown.scrollIntoView({ block: 'start', behavior: isStill ? 'instant' : 'smooth' });
}

/** The picture follows the step somebody works at, where it has a place beside the form. */
export function followStep(id: PictureId): void {
  if (window.matchMedia(sideBySide).matches) goToPicture(id);
}
