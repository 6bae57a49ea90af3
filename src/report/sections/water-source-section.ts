import type { Look, SignCode } from '../../findings/water-source/signs.js';
import type { WaterFacts } from '../../findings/water-source/water-source-of-trial.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { WaterSource } from '../../trial/index.js';
import { formatNumber, formatPValue, formatStated } from '../../words/format-number.js';
import { countInWords, listInWords, shareInWords } from '../../words/quantity.js';
import { paragraph, type Section } from '../document.js';

const sources: Readonly<Record<WaterSource, string>> = {
  'rising-damp': 'Rising damp',
  'penetrating-rain': 'Penetrating damp (rain)',
  condensation: 'Condensation',
  hygroscopic: 'Hygroscopic salts',
  leak: 'A leak',
};

const signWords: Readonly<Record<SignCode, string>> = {
  'wettest-at-foot': 'wettest at the foot',
  'wettest-at-head': 'wettest at the head',
  'wettest-part-way': 'wettest part way up',
  'alike-at-all-heights': 'alike at all heights',
  'wetter-at-surface': 'wetter near the surface than inside',
  'wetter-inside': 'wetter inside than near the surface',
  'mostly-hygroscopic': 'mostly what humid air alone would give',
  'mostly-liquid': 'mostly beyond what humid air would give',
  'follows-rain': 'wetter after rain',
  'apart-from-rain': 'not wetter after rain',
  condenses: 'surfaces often below the dew point',
  'above-dew-point': 'surfaces hardly ever below the dew point',
  'salt-band': 'a band of salts part way up',
  'salts-raised': 'salts raised in half of the walls or more',
  'salts-low': 'salts low in every wall',
};

const lookWords: Readonly<Record<Look, string>> = {
  heights: 'moisture at three heights or more',
  depths: 'moisture at two depths in three walls or more',
  humid: 'cores weighed humid',
  rain: 'rain between visits',
  surface: 'surface temperature beside the dew point',
  salts: 'salts by height',
};

/** What else to look at, in the building. */
const elsewhere: Readonly<Record<WaterSource, string>> = {
  'rising-damp': 'ground levels, drains, and whether neighbouring walls on the same ground show it',
  'penetrating-rain': 'the weather side, joints, render and gutters',
  condensation: 'heating, ventilation and cold bridges',
  hygroscopic: 'whether the moisture comes and goes with the humidity of the air',
  leak: 'pipes, gutters and roof, and whether it is local along the wall',
};

/** Where the water may come from: possibilities with their reasons, never one diagnosis. */
export function waterSourceSection({ waterSource, protocol }: Opinion): Section | undefined {
  if (waterSource === undefined) return undefined;
  const { facts, possible } = waterSource;
  const words = (signs: readonly SignCode[]) => listInWords(signs.map((sign) => signWords[sign])) || 'nothing measured';
  return {
    id: 'water-source',
    heading: 'Where the water may come from',
    blocks: [
      paragraph(
        `The treatment is meant against ${(sources[protocol.against ?? 'rising-damp'] ?? '').toLowerCase()}${protocol.against === undefined ? ' (the plan names no source)' : ''}. These are possibilities, not a diagnosis: several may act together, and no sign settles anything alone.`,
      ),
      { kind: 'list', items: factLines(facts).map((line) => [line]) },
      {
        kind: 'table',
        caption: 'Possible sources of the walls’ water before the treatment',
        columns: [
          { header: 'Source' },
          { header: 'What speaks for it' },
          { header: 'What speaks against it' },
          { header: 'What would tell it from the others' },
        ],
        rows: possible.map((each) => [
          [sources[each.source]],
          [words(each.for)],
          [words(each.against)],
          [[...each.notLookedFor.map((look) => lookWords[look]), elsewhere[each.source]].join('; ')],
        ]),
      },
    ],
  };
}

function factLines({ heights, depths, hygroscopicShare, rain, surface, salts }: WaterFacts): readonly string[] {
  return [
    ...(heights === undefined
      ? []
      : [
          `By height: ${listInWords(
            heights.heights.map(({ height_mm, mean }) => `${formatNumber(mean, 1)} at ${formatStated(height_mm)} mm`),
            12,
          )} (means over walls, in the unit of the outcome).`,
        ]),
    ...(depths === undefined
      ? []
      : [
          `By depth: ${formatStated(depths.shallow_mm)} mm less ${formatStated(depths.deep_mm)} mm is ${formatNumber(depths.difference, 2)} (${formatNumber(depths.lower, 2)} to ${formatNumber(depths.upper, 2)}) over ${countInWords(depths.walls, 'wall')}.`,
        ]),
    ...(hygroscopicShare === undefined
      ? []
      : [`Humid air alone would give ${shareInWords(hygroscopicShare, 1)} of the moisture.`]),
    ...(rain === undefined
      ? []
      : [
          `Rain and the changes of untreated walls from visit to visit: rank correlation ${formatNumber(rain.estimate, 2)} (${formatNumber(rain.interval.lower, 2)} to ${formatNumber(rain.interval.upper, 2)}), p ${formatPValue(rain.pValue)}, ${countInWords(rain.n, 'change')}.`,
        ]),
    ...(surface === undefined
      ? []
      : [
          `Surfaces were below the dew point for ${shareInWords(surface.condensingShare, 1)} of the time, a mean over ${countInWords(surface.walls, 'wall')}.`,
        ]),
    ...(salts === undefined
      ? []
      : [
          `Salts: medium or high in ${salts.raised} and low in ${salts.low} of ${countInWords(salts.walls, 'wall')}${salts.isBand ? ', with a band part way up' : ''}.`,
        ]),
  ];
}
