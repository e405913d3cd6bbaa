import { askedCircuit, askedHeat, askedLight } from '../../src/asked.ts';

/** The questions asked the other way round, and what each answers. */
export const askedQuestions = {
  circuit: {
    summary: 'Longest run, least cable, fewest feed points, volts to set',
    answer: askedCircuit.meta({ id: 'AskedCircuit', title: 'The circuit asked the other way round' }),
  },
  heat: {
    summary: 'Depths and powers that pass, and what a carrier or an open slot changes',
    answer: askedHeat.meta({ id: 'AskedHeat', title: 'Heat asked the other way round' }),
  },
  light: {
    summary: 'Strip for the wanted brightness, what it saves, and what hides the lamps',
    answer: askedLight.meta({ id: 'AskedLight', title: 'Light asked the other way round' }),
  },
} as const;

export type AskedQuestion = keyof typeof askedQuestions;
