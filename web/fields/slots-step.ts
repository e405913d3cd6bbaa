import { html, type TemplateResult } from 'lit';
import type { Job } from '../../src/job/job.ts';
import { counted, quantity } from '../format.ts';
import { lengthsText, readLengths, readSegments, segmentsText } from '../state/slot-list.ts';
import { chooseSlotSource, chooseSpacing } from '../state/slot-ways.ts';
import { type FormContext, field } from './field.ts';
import { hungFold } from './hung-fold.ts';
import { listField } from './list-field.ts';
import { radios } from './radios.ts';
import type { Step } from './step.ts';

type Slots = Job['slots'];

const sources = [
  ['generator', 'Even spacing'],
  ['lengths', 'Lengths'],
  ['segments', 'Lines'],
] as const;

function generated(form: FormContext, slots: Extract<Slots, { from: 'generator' }>): TemplateResult {
  const by = slots.spacing.by;
  const spacing = [
    ['pitch', 'Pitch'],
    ['count', 'Number'],
  ] as const;
  const inEach =
    form.draft.job.panels.length === 0
      ? {}
      : { help: 'In each panel that has no number of slots of its own.' };
  return html`${field(form, ['slots', 'axis'])} ${field(form, ['slots', 'width_mm'])}
    ${radios('Spaced by', spacing, by, (value) => chooseSpacing(form.store, value))}
    ${field(form, ['slots', 'spacing', by === 'pitch' ? 'pitch_mm' : 'count'], inEach)}
    ${(['left_mm', 'right_mm', 'foot_mm', 'head_mm'] as const).map((key) => field(form, ['slots', key]))}`;
}

function listed(form: FormContext, slots: Extract<Slots, { from: 'lengths' }>): TemplateResult {
  return html`${listField(form, {
    name: 'slots.lengths_mm',
    label: 'Slot lengths, left to right',
    hint: 'In mm, one a line, or pasted from a spreadsheet column.',
    text: lengthsText(slots.lengths_mm),
    noun: 'length',
    read: readLengths,
  })}
  ${field(form, ['slots', 'width_mm'])} ${field(form, ['slots', 'first_mm'])} ${field(form, ['slots', 'pitch_mm'])}
  ${field(form, ['slots', 'level_mm'])} ${field(form, ['slots', 'align'])}`;
}

function drawn(form: FormContext, slots: Extract<Slots, { from: 'segments' }>): TemplateResult {
  return html`${listField(form, {
    name: 'slots.segments',
    label: 'Slots as centre lines',
    hint: 'One a line: start from the left and bottom, finish from the left and bottom, in mm; a fifth number is the width of that slot alone.',
    text: segmentsText(slots.segments),
    noun: 'slot',
    read: readSegments,
  })}
  ${field(form, ['slots', 'width_mm'])}
  <drawing-in .store=${form.store}></drawing-in>`;
}

function digest({ slots, panels }: Job): string {
  if (slots.from === 'lengths') return `${counted(slots.lengths_mm.length, 'slot')} from a list`;
  if (slots.from === 'segments') return `${counted(slots.segments.length, 'slot')} as drawn`;
  if (slots.spacing.by === 'count')
    return `${counted(slots.spacing.count, 'slot')}${panels.length === 0 ? '' : ' in each panel'}, ${slots.axis}`;
  return `${slots.axis}, every ${quantity(slots.spacing.pitch_mm, 'mm')}`;
}

/** Where the slots are, in one of three ways; the ways not in use are kept. */
export function slotsStep(form: FormContext): Step {
  const { slots } = form.draft.job;
  const body =
    slots.from === 'generator'
      ? generated(form, slots)
      : slots.from === 'lengths'
        ? listed(form, slots)
        : drawn(form, slots);
  return {
    title: 'Slots',
    picture: 'wall',
    digest: digest(form.draft.job),
    holds: ['slots', 'hung'],
    body: html`${radios('Slots given as', sources, slots.from, (from) => chooseSlotSource(form.store, from))} ${body}
      ${hungFold(form)}`,
  };
}
