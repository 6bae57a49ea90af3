import type { LossAtPlace } from '../../../analysis/index.js';
import { verdictCode } from '../../../analysis/verdict-code.js';
import { limits } from '../../../findings/limits.js';
import { present } from '../../../plain/present.js';
import { countInWords, shareInWords } from '../../../words/quantity.js';
import { codeOfPrimary, type Facts } from '../facts.js';
import type { ThreatNumbers } from '../grounds.js';
import { found, notFound, type Search } from '../threat.js';
import { alarmAt, numbersOf } from '../threat-words.js';

export const stationsLost: Search = {
  code: 'stations-lost',
  domain: 'missing-data',
  name: 'Stations lost by arm, height or depth',
  lookedFor: 'stations that were read before were lost more often in one arm, at any height or depth',
  direction: 'either way',
  remedy: 'Keep every station to the end, and read spare ones beside it from the start.',
  look: ({ facts, numbers }) => {
    const { losses } = numbers;
    const places = [losses.all, ...losses.heights, ...losses.depths];
    const { treated, untreated } = losses.all.lost;
    if (treated.stations + untreated.stations === 0) return undefined;
    const uneven = places.filter((place) => weightOf(place) !== undefined);
    const [worst = losses.all] = [...uneven].sort(
      (one, other) => Math.abs(other.difference ?? 0) - Math.abs(one.difference ?? 0),
    );
    const text = lossInWords(worst);
    const measure = {
      value: worst.difference ?? 0,
      unit: 'difference of the shares lost',
      ...present({ pValue: worst.pValue }),
    };
    if (uneven.length === 0) return notFound(text, { measure });
    const common = commonInWords(facts, numbers);
    const isSerious = common.turns || uneven.some((place) => weightOf(place) === 'serious');
    return found(isSerious ? 'serious' : 'minor', `${text}${common.text}`, { measure });
  },
};

/** By Fisher's exact test, so that a station or two lost by chance are no finding; serious where the shares lie far apart. */
function weightOf({ isUneven, difference = 0, pValue = 1 }: LossAtPlace): 'minor' | 'serious' | undefined {
  const alarm = isUneven && Math.abs(difference) > limits.placesLostApart.value ? alarmAt(pValue) : undefined;
  if (alarm === undefined) return undefined;
  return Math.abs(difference) > limits.placesLostFarApart.value ? 'serious' : 'minor';
}

function lossInWords({ of, at_mm, lost: { treated, untreated } }: LossAtPlace): string {
  const where = { all: '', height: ` at ${at_mm} mm above the floor`, depth: ` at ${at_mm} mm depth` }[of];
  const side = ({ lost, stations }: typeof treated) =>
    `${lost} of ${stations}${stations === 0 ? '' : ` (${shareInWords(lost, stations)})`}`;
  return `Stations${where} with a before and no after value: treated walls ${side(treated)}, untreated ${side(untreated)}.`;
}

function commonInWords(
  facts: Facts,
  { commonPlaces }: ThreatNumbers,
): { readonly text: string; readonly turns: boolean } {
  if (commonPlaces.kind !== 'estimated') return { text: '', turns: false };
  const { estimate } = commonPlaces;
  const { margin, outcome } = facts.trial.protocol;
  const code = estimate.interval && verdictCode(estimate.interval, margin, outcome.better);
  const turns = code !== undefined && code !== codeOfPrimary(facts);
  const text = ` On the heights and depths that both arms kept, the difference is ${numbersOf(estimate)}${turns ? ', which is another verdict' : ''}.`;
  return { text, turns };
}

export const stationsRenamed: Search = {
  code: 'stations-renamed',
  domain: 'missing-data',
  name: 'Stations named anew',
  lookedFor: 'the same stations, by name, were read before and after',
  direction: 'either way',
  remedy: 'Keep the name of a station though each core destroys its spot; number the cores, not the places.',
  look: ({ facts }) => {
    const renamed = facts.walls.filter(({ places }) => places === 'renamed').length;
    if (facts.walls.length === 0) return undefined;
    if (renamed === 0) return notFound('Each wall’s change is that of stations read before and after.');
    return found(
      renamed === facts.walls.length ? 'minor' : 'serious',
      `In ${countInWords(renamed, 'wall')} of ${facts.walls.length} no station has both a before and an after value. Their change is the mean of all after stations less that of all before stations, and other heights or depths may stand behind it.`,
      { measure: { value: renamed, unit: 'walls' } },
    );
  },
};
