import type { HungThingAnswer } from '../answer/hung.ts';
import { mm } from '../words.ts';
import { type Check, reaching, remedy, type Sized } from './context.ts';

/** Room kept free behind what hangs in a slot (judgement: timber moves, hooks are pushed in). */
const leastClear_mm = 5;

const words: Readonly<Record<HungThingAnswer['clearances'][number]['to'], string>> = {
  strip: 'the strip',
  profile: 'the profile',
  cover: 'the cover of the slot',
  cable: 'a cable on the backing',
  backing: 'the backing',
};

const calledOf = ({ name }: HungThingAnswer, i: number): string => (name === '' ? `Thing ${i + 1}` : name);

const basis = `geometry of the section; ${leastClear_mm} mm are kept free (judgement), a strip with its LEDs taken as 3 mm high`;

const noFigures = { value: null, limit: null, margin: null, unit: '' };
const beyond = (past_mm: number): Pick<Check, 'value' | 'limit' | 'margin' | 'unit'> => ({
  ...{ value: past_mm, limit: 0, margin: -past_mm, unit: 'mm' },
});

/** A thing that no slot takes, or that is longer than what it is put in. */
function misplaced(thing: HungThingAnswer, i: number): Check | null {
  const called = calledOf(thing, i);
  const at = `hung[${i + 1}]`;
  const field = thing.slot === null ? `${at}.slot` : thing.slides ? `${at}.width_mm` : `${at}.place_mm`;
  if (thing.slot !== null && thing.past_mm <= 0) return null;
  const sentence =
    thing.slot === null
      ? `${called} hangs in a slot that is not there.`
      : `${called} goes ${mm(thing.past_mm)} beyond an end of slot ${thing.slot}.`;
  return {
    ...{ id: `hung-${i + 1}`, question: 'set-out', status: 'fails', place: { field } },
    ...{ title: `${called} in its slot`, ...(thing.slot === null ? noFigures : beyond(thing.past_mm)) },
    ...{ basis: 'the slots of the set-out', sentence },
    remedies: [
      remedy(field, thing.slot === null ? 'Name a slot that is there.' : 'Move it, or make it narrower.'),
    ],
  };
}

/** How it stands to the closest of what lies behind. */
function clearance(thing: HungThingAnswer, i: number): Check {
  const called = calledOf(thing, i);
  const least = thing.clearances[0]!;
  const where = thing.slides ? `anywhere along slot ${thing.slot}` : `in slot ${thing.slot}`;
  const most_mm = thing.reach_mm - (leastClear_mm - least.clear_mm);
  const field = `hung[${i + 1}].reach_mm`;
  const passes = least.clear_mm >= leastClear_mm;
  const stands =
    least.clear_mm < 0
      ? `runs ${mm(-least.clear_mm)} into ${words[least.to]}`
      : `stays ${mm(least.clear_mm)} clear of ${words[least.to]}`;
  const dark =
    thing.dark_mm === null ? '' : ` It darkens about ${mm(Math.round(thing.dark_mm))} of the slot.`;
  return reaching({
    ...{ id: `hung-${i + 1}`, question: 'depth', place: { field, ...(thing.slot && { slot: thing.slot }) } },
    status: passes ? 'passes' : least.clear_mm < 0 ? 'fails' : 'watch',
    title: `${called} clear of what lies behind`,
    ...{ value: least.clear_mm, limit: leastClear_mm, unit: 'mm', basis },
    sentence: `${called}, ${mm(thing.reach_mm)} behind the face, ${stands} ${where}.${dark}`,
    remedies: passes
      ? []
      : [
          ...(least.to === 'cover'
            ? [remedy('section.cover', 'Leave the slot open, or give the cover a hole for it.')]
            : []),
          ...(most_mm > 0
            ? [remedy(field, `Let it reach ${mm(Math.floor(most_mm))} behind the face at most.`)]
            : []),
          ...(least.to === 'cable' && !thing.slides
            ? [remedy(`hung[${i + 1}].place_mm`, 'Hang it where no cable lies.')]
            : []),
          ...(least.to === 'cover' ? [] : [remedy('section.cavity_mm', 'Make the cavity deeper.')]),
        ],
  });
}

/** Checks of what hangs in the slots: in its slot, and clear of strip, profile, cover, cable and backing. */
export const hungFindings = (sized: Sized): Check[] =>
  sized.hung.map((thing, i) => misplaced(thing, i) ?? clearance(thing, i));
