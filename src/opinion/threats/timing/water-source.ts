import { limits } from '../../../findings/limits.js';
import { type WaterFacts, waterFacts } from '../../../findings/water-source/water-source-of-trial.js';
import { formatPValue } from '../../../words/format-number.js';
import { countInWords, listInWords, numberInWords, shareInWords } from '../../../words/quantity.js';
import { isNull } from '../facts.js';
import { couldNotLook, found, type Measure, notFound, type Search } from '../threat.js';

/** Condensing, rain and water at the head are one question, where the water comes from, and count once. */
export const waterFromElsewhere: Search = {
  code: 'water-from-elsewhere',
  domain: 'departures-and-timing',
  name: 'Walls wet by something else than rising damp',
  lookedFor:
    'a treatment against rising damp was tried on walls that condense, get wet with rain or are wettest at the head',
  direction: 'away from the claim',
  remedy:
    'Before the trial measure height and depth profiles, surface temperature and rain, and take walls that rising water wets.',
  look: ({ facts }) => {
    const { trial, used, sides } = facts;
    if ((trial.protocol.against ?? 'rising-damp') !== 'rising-damp') return undefined;
    const water = waterFacts(trial, used, sides);
    const { heights, rain, surface } = water;
    if (heights === undefined && rain === undefined && surface === undefined)
      return couldNotLook(
        'three heights in `stations.csv`, or `surface_c` or `rain_mm` in `climate.csv`',
        'Neither moisture at three heights, nor surface temperature, nor rain at enough visits is on record.',
      );
    const text = factsInWords(water);
    const signs = signsIn(water);
    if (signs.length === 0) return notFound(text, measureOf(water));
    return found(
      isNull(facts) ? 'serious' : 'minor',
      `${text} So the water may come from elsewhere (${listInWords(signs)}): ${isNull(facts) ? 'a treatment against rising damp would then have nothing to act on, whatever it does to damp that rises' : 'the difference then says little of what the treatment does to rising damp'}.`,
      measureOf(water),
    );
  },
};

function signsIn({ heights, rain, surface }: WaterFacts): readonly string[] {
  return [
    ...(surface !== undefined && surface.condensingShare >= limits.condensing.value ? ['condensation'] : []),
    ...(rain !== undefined && rain.estimate > 0 && rain.pValue < limits.afterRain.value ? ['rain'] : []),
    ...(heights?.shape === 'rising' ? ['water at the head'] : []),
  ];
}

function factsInWords({ heights, rain, surface }: WaterFacts): string {
  return [
    ...(surface === undefined
      ? []
      : [
          `Before the treatment the surfaces of ${countInWords(surface.walls, 'wall')} were below the dew point for ${shareInWords(surface.condensingShare, 1)} of the time.`,
        ]),
    ...(rain === undefined
      ? []
      : [
          `Changes of untreated walls from visit to visit and rain have a rank correlation of ${numberInWords(rain.estimate, 2)} (${rain.n} changes, p ${formatPValue(rain.pValue)}).`,
        ]),
    ...(heights === undefined ? [] : [`Moisture over height ${shapes[heights.shape]}.`]),
  ].join(' ');
}

const shapes = {
  falling: 'fell from the foot up',
  rising: 'rose from the foot up',
  flat: 'hardly differed',
  peaked: 'was highest part way up',
  undecided: 'showed no clear shape',
} as const;

/** The first that is known. */
function measureOf({ rain, surface }: WaterFacts): { readonly measure?: Measure } {
  if (surface !== undefined)
    return { measure: { value: surface.condensingShare, unit: 'of the time below the dew point' } };
  if (rain !== undefined)
    return {
      measure: {
        value: rain.estimate,
        unit: 'rank correlation with rain',
        interval: rain.interval,
        pValue: rain.pValue,
      },
    };
  return {};
}
