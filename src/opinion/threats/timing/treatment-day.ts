import type { WaitOfOneWall } from '../../../findings/drying/wait-of-trial.js';
import { limits } from '../../../findings/limits.js';
import { reasonInWords } from '../../../labels/index.js';
import { windowSorter } from '../../../trial/index.js';
import { countInWords, numberInWords, shareInWords } from '../../../words/quantity.js';
import { comparedWalls, isNull } from '../facts.js';
import { couldNotLook, found, notFound, type Search, silent } from '../threat.js';

export const treatmentDayNotStated: Search = {
  code: 'treatment-day-not-stated',
  domain: 'departures-and-timing',
  name: 'When each wall was treated',
  lookedFor: 'the folder says on which day each treated wall was treated',
  direction: 'either way',
  remedy: 'Write down the day of treatment of every wall (`treated_on`), a sham’s as well.',
  restsOn: ['treatment-day'],
  look: ({ facts }) => {
    const treated = comparedWalls(facts).filter(({ side }) => side === 'treated');
    if (treated.length === 0) return undefined;
    const known = treated.filter(({ treatedOn }) => treatedOn !== undefined).length;
    if (known === treated.length)
      return notFound(`The day of treatment is stated for all ${countInWords(treated.length, 'treated wall')}.`);
    return silent(
      '`treated_on` of every treated wall in `walls.csv`',
      `The day of treatment is stated for ${known} of ${countInWords(treated.length, 'treated wall')}. Readings before and after it cannot be distinguished, nor how long the walls had to dry.`,
    );
  },
};

/** They are excluded already; what is left may be too little, or of other days than the untreated walls'. */
export const readAfterTreatment: Search = {
  code: 'read-after-treatment',
  domain: 'departures-and-timing',
  name: 'Before readings taken after the treatment',
  lookedFor: 'readings of the before window were taken on or after the treatment of their own wall',
  direction: 'away from the claim',
  remedy: 'Close the before window before the first wall is treated, or state each wall’s own windows.',
  restsOn: ['treatment-day'],
  look: ({ facts }) => {
    const excluded = facts.leftOutReadings.find(({ reason }) => reason.code === 'treated-by-then')?.count ?? 0;
    if (facts.used.length === 0 && excluded === 0) return undefined;
    if (excluded === 0) return notFound('No reading of the before window was taken on or after its wall’s treatment.');
    const windowOf = windowSorter(facts.trial);
    const kept = facts.used.filter(
      ({ wall, day }) => facts.sides.get(wall) === 'treated' && windowOf(wall, day) === 'before',
    ).length;
    const all = kept + excluded;
    return found(
      excluded / all >= limits.beforeLost.value ? 'serious' : 'minor',
      `${countInWords(excluded, 'reading')} of the before window (${shareInWords(excluded, all)} of the treated walls’) were taken on or after the treatment of their own wall. They are excluded: a wall is not “before” once it is treated.`,
      { measure: { value: excluded, unit: 'readings' } },
    );
  },
};

export const afterTooEarly: Search = {
  code: 'after-too-early',
  domain: 'departures-and-timing',
  name: 'Read too early after the treatment',
  lookedFor: 'the walls were read before walls of their thickness could have lost the margin in such air',
  direction: 'away from the claim',
  remedy: 'Wait until walls of this thickness can have lost the margin; see the wait that the report prints.',
  restsOn: ['treatment-day'],
  look: ({ facts }) => {
    const { wait } = facts.drying;
    if (wait === undefined || wait.walls.length === 0) return undefined;
    if (wait.worst === undefined)
      return couldNotLook(
        'a margin in a unit of moisture content, and walls that are to become drier',
        `No wait is computed: ${wait.reason === undefined ? 'nothing says how much the walls are to lose' : reasonInWords(wait.reason)}.`,
      );
    const { wall, days, wait: own } = wait.worst;
    const text = `${wall} was read ${numberInWords(days, 0)} days after its treatment on average. To lose the margin such a wall needs ${numberInWords(own.least_d, 0)} days at the very least and about ${numberInWords(own.wait_d, 0)} days in all (${limits.fallingStage.value} times as long, ${limits.fallingStage.mark}). The wall counts with ${numberInWords(own.thickness_mm, 0)} mm and ${numberInWords(own.density_kg_m3, 0)} kg/m³, the air with a vapour pressure difference of ${numberInWords(own.pressure_pa, 0)} Pa.${surfaceInWords(own)}`;
    const measure = { value: days / own.wait_d, unit: 'days over the wait' };
    if (wait.tooEarly === 0) return notFound(text, { measure });
    return found(
      isNull(facts) ? 'serious' : 'minor',
      `${countInWords(wait.tooEarly, 'treated wall')} of ${wait.walls.length} ${wait.tooEarly === 1 ? 'was' : 'were'} read before the wait was over. ${text}`,
      { measure },
    );
  },
};

function surfaceInWords({ surface_pa }: Pick<WaitOfOneWall, 'surface_pa'>): string {
  if (surface_pa === undefined) return '';
  const measured = ` At the surface that was measured for it the mean was ${numberInWords(surface_pa, 0)} Pa`;
  return surface_pa > 0
    ? `${measured}: such a wall dries more slowly, and the wait is a lower bound.`
    : `${measured}: such a wall took up water from the air, and in such air no wait is long enough.`;
}

export const treatmentSpread: Search = {
  code: 'treatment-spread',
  domain: 'departures-and-timing',
  name: 'Walls treated at different times',
  lookedFor: 'the walls were treated at about the same time',
  direction: 'away from the claim',
  remedy: 'Treat all walls within a few weeks, or give each pair or block windows of its own.',
  restsOn: ['treatment-day'],
  look: ({ facts }) => {
    const { spread } = facts.drying;
    if (spread === undefined || spread.walls < 2) return undefined;
    const { first, last, days, walls } = spread;
    const text =
      days === 0
        ? `All ${countInWords(walls, 'treated wall')} were treated on ${first}.`
        : `The ${countInWords(walls, 'treated wall')} were treated from ${first} to ${last}, ${countInWords(days, 'day')} apart.`;
    const measure = { value: days, unit: 'days' };
    // With windows of their own, walls are read as long after their treatment as the others.
    const hasOwnWindows = comparedWalls(facts).every(
      ({ side, windows }) => side !== 'treated' || windows !== undefined,
    );
    if (days <= limits.spreadOfTreatment_d.value || hasOwnWindows) return notFound(text, { measure });
    return found(
      days > limits.longSpreadOfTreatment_d.value ? 'serious' : 'minor',
      `${text} In common windows the last walls had less time to dry than the first.`,
      { measure },
    );
  },
};
