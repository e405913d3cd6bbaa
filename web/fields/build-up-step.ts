import { html, nothing } from 'lit';
import { quantity } from '../format.ts';
import { type FormContext, field } from './field.ts';
import { foldOut, type Step } from './step.ts';

/** The piece itself: its outside measures. */
export function pieceStep(form: FormContext): Step {
  const { width_mm, height_mm } = form.draft.job.panel;
  return {
    title: 'The piece',
    picture: 'wall',
    digest: `${quantity(width_mm, 'mm')} × ${quantity(height_mm, 'mm')}`,
    holds: ['panel'],
    body: html`${field(form, ['panel', 'width_mm'])} ${field(form, ['panel', 'height_mm'])}`,
  };
}

/** The horizontal cut through the build-up, from the wall to the room. */
export function buildUpStep(form: FormContext): Step {
  const { section } = form.draft.job;
  const at = (...path: string[]) => field(form, ['section', ...path]);
  return {
    title: 'Build-up',
    picture: 'section',
    digest: `${quantity(section.available_mm, 'mm')} available, cavity ${quantity(section.cavity_mm, 'mm')}`,
    holds: ['section'],
    body: html`${at('available_mm')} ${at('tolerance_mm')} ${at('behind')} ${at('backing', 'material')}
      ${at('backing', 'thickness_mm')} ${at('cavity_mm')} ${at('batten_mm')} ${at('front', 'material')}
      ${at('front', 'thickness_mm')} ${at('cover')}
      ${section.cover === 'open' ? nothing : at('coverThickness_mm')} ${at('strip')} ${at('stripOffset_mm')}
      ${at('carrier')}
      ${section.carrier === 'none' ? nothing : html`${at('carrierWidth_mm')} ${at('carrierThickness_mm')}`}
      ${foldOut('Finishes inside', html`${at('backFinish')} ${at('sideFinish')} ${at('frontFinish')}`)}`,
  };
}
