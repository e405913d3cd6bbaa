import type { HeatAnswer } from '../answer/heat.ts';
import { freezing_K } from '../constants.ts';
import type { HeatIssue } from '../heat/issues.ts';
import { type Decay, decayBetween, fitDecay, projectedLife, type TestedDecay } from '../heat/life.ts';
import type { LifeTest } from '../job/life-test.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { figures } from '../words.ts';

type Life = HeatAnswer['life'];

/** The life that is given: until this share of the light is left. */
const share = 0.7;

const noData: Life = {
  hours: null,
  atLeast: false,
  sentence:
    'No life is given: that takes a life test of the LEDs (LM-80 report) from the maker of the strip. Cooler strip lasts longer.',
};

interface Tested extends TestedDecay {
  readonly test: LifeTest;
  readonly to_h: number;
}

function fitted(tests: readonly LifeTest[]): Outcome<Tested[], HeatIssue> {
  const fits: Tested[] = [];
  for (const test of tests.toSorted((a, b) => a.case_degC - b.case_degC)) {
    const fit = fitDecay(test.readings);
    if (!fit.ok) return fit;
    fits.push({ ...fit.value, test, temperature_K: test.case_degC + freezing_K });
  }
  return found(fits);
}

const tooHot = (solder_K: number, hottest: Tested): HeatIssue => ({
  code: 'life-outside-tested-temperatures',
  place: { field: 'strip.lifeTests' },
  quantities: { temperature_K: solder_K, hottest_K: hottest.temperature_K },
  sentence: `The LEDs reach ${(solder_K - freezing_K).toFixed(0)} °C and were tested at ${figures(hottest.test.case_degC)} °C at most: bring them down, or enter a hotter test.`,
});

/** Decay at the solder point: of the coolest test below it, between the two tests about it, of none above. */
function decayAt(tests: readonly Tested[], solder_K: number): Outcome<Decay, HeatIssue> {
  const hotter = tests.findIndex((test) => test.temperature_K >= solder_K);
  if (hotter < 0) return refused(tooHot(solder_K, tests.at(-1)!));
  if (hotter === 0) return found(tests[0]!);
  const [cool, hot] = [tests[hotter - 1]!, tests[hotter]!];
  // Lamps that did not fade in a test leave nothing to interpolate: the hotter test is the careful one.
  if (!(cool.alpha_per_h > 0 && hot.alpha_per_h > 0)) return found(hot);
  return decayBetween([cool, hot], solder_K);
}

/**
 * Life of the strip at its solder point by IES TM-21 from the job's life tests, no further than the report may go
 * (the shortest test and the smallest sample count); a plain sentence where there is no test or it does not reach.
 */
export function lifeAnswer(
  tests: readonly LifeTest[],
  temperatures: HeatAnswer['temperatures'],
  unknown: string | null = null,
): Life {
  const solder = temperatures.find((row) => row.id === 'solder');
  if (tests.length === 0 || !solder) return noData;
  if (unknown !== null)
    return { ...noData, sentence: 'No life is given: how warm the LEDs get is not known.' };
  const fits = fitted(tests);
  if (!fits.ok) return { ...noData, sentence: fits.issues[0]!.sentence };
  const decay = decayAt(fits.value, solder.high_degC + freezing_K);
  if (!decay.ok) return { ...noData, sentence: decay.issues[0]!.sentence };
  const life = projectedLife(decay.value, {
    share,
    test_h: Math.min(...fits.value.map((fit) => fit.to_h)),
    sampleCount: Math.min(...tests.map((test) => test.sampleCount)),
  });
  const hours = Math.round(life.reported_h / 100) * 100;
  return {
    hours: life.reported_h,
    atLeast: life.capped,
    sentence: `At ${solder.high_degC.toFixed(0)} °C the strip keeps 70 % of its light for ${life.capped ? 'more than ' : 'about '}${hours.toLocaleString('en')} hours${life.capped ? '; the test was too short to say more' : ''}.`,
  };
}
