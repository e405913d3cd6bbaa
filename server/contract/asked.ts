import {
  askedCircuit,
  askedDrivers,
  askedHeat,
  askedLayouts,
  askedLight,
  askedStrip,
} from '../../src/answer/asked.ts';
import { stripSheet } from '../../src/job/strip-sheet.ts';

/** The questions asked of a job the other way round, and what each answers. */
export const askedQuestions = {
  circuit: {
    summary: 'Longest run, least cable, fewest feed points, volts to set',
    answer: askedCircuit.meta({ id: 'AskedCircuit', title: 'The circuit asked the other way round' }),
  },
  heat: {
    summary: 'Depths and powers that pass, and what an aluminium flat or an open slot changes',
    answer: askedHeat.meta({ id: 'AskedHeat', title: 'Heat asked the other way round' }),
  },
  light: {
    summary: 'Strip for the wanted brightness, what it saves, and what hides the LEDs',
    answer: askedLight.meta({ id: 'AskedLight', title: 'Light asked the other way round' }),
  },
  drivers: {
    summary: 'Each model or mix of drivers: how many, price, load, watts, and whether it passes',
    answer: askedDrivers.meta({ id: 'AskedDrivers', title: 'Which drivers' }),
  },
  layouts: {
    summary: 'Each layout of cables, for the wall and by zone: metres, worst drop, and what fails',
    answer: askedLayouts.meta({ id: 'AskedLayouts', title: 'Which layout' }),
  },
} as const;

export type AskedQuestion = keyof typeof askedQuestions;

/** What is asked about a strip, and what comes back; no job is needed. */
export const stripQuestion = {
  sheet: stripSheet.meta({
    id: 'StripSheet',
    title: 'Data sheet of a strip',
    description:
      'What a data sheet prints or a meter shows of a strip of one colour. A strip of several channels is not asked about: they share a rail, and neither a longest run nor two volts tell its rails apart.',
  }),
  answer: askedStrip.meta({
    id: 'AskedStrip',
    title: 'A strip worked out from its data sheet',
    description:
      'Fields of strip.data, what each was taken from, and the drop of a run solved again with the fitted rail beside the drop it was fitted to.',
  }),
};

export type { StripSheet } from '../../src/job/strip-sheet.ts';
