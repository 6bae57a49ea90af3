import type { LastDigits } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import type { RowOrigin } from '../../../trial/index.js';
import { formatPValue } from '../../../words/format-number.js';
import { countInWords, numberInWords } from '../../../words/quantity.js';
import type { Facts } from '../facts.js';
import { type Finding, found, notFound, type Search } from '../threat.js';

/**
 * Numbers that nobody measured. Each is named with its probability, and nothing is said of anybody’s intent: a sheet that was filled
 * in from the one before, or a balance that sticks, does the same.
 */

export const numbersCopied: Search = {
  code: 'numbers-copied',
  domain: 'measurement',
  name: 'Numbers that look copied',
  lookedFor: 'masses or readings were copied between visits, walls or arms beyond chance',
  direction: 'either way',
  remedy: 'Write readings down where and when they are taken, and keep the sheets.',
  look: ({ numbers: { copied } }) => {
    const { masses, runs, pValue } = copied;
    if (masses === undefined && runs.comparisons === 0) return undefined;
    const triples = masses?.repeats.length ?? 0;
    const [run] = runs.found;
    const measure = { value: triples + (run?.equal.length ?? 0), unit: 'equal numbers', pValue };
    if (pValue >= limits.inventedNumbers.value)
      return notFound(
        `No more equal numbers than expected by chance (${formatPValue(pValue)}, the number of comparisons allowed for).`,
        { measure },
      );
    const [repeat] = masses?.repeats ?? [];
    const stories = [
      ...(masses === undefined || repeat === undefined
        ? []
        : [
            `${countInWords(triples, 'core has', 'cores have')} the container, wet and dry mass of another, where ${numberInWords(masses.expected)} would be expected (first: ${rowOf(repeat.one)} and ${rowOf(repeat.other)})`,
          ]),
      ...(run === undefined
        ? []
        : [
            `${run.equal.length} of ${run.places} readings of ${run.instrument} on ${run.one.wall}, ${run.one.day}, equal those on ${run.other.wall}, ${run.other.day}, where ${numberInWords(run.expected)} would be expected`,
          ]),
    ];
    return found(
      'serious',
      `${stories.join('. ')}. That has ${formatPValue(pValue)}, the number of comparisons allowed for.`,
      {
        measure,
      },
    );
  },
};

function rowOf({ file, row }: RowOrigin): string {
  return `${file}, row ${row}`;
}

export const lastDigitsUneven: Search = {
  code: 'last-digits-uneven',
  domain: 'measurement',
  name: 'Last digits that favour some numbers',
  lookedFor: 'the last digits of masses and readings come about equally often, and alike in both arms',
  direction: 'either way',
  remedy: 'Take numbers from the instrument’s own record, and read scales to the step that they have.',
  look: ({ facts, numbers: { digits } }) => {
    if (digits.tested.length === 0) return undefined;
    const rounded = roundedMasses(facts, digits);
    if (rounded !== undefined) return rounded;
    const measure = {
      value: digits.tested.reduce((sum, { numbers }) => sum + numbers, 0),
      unit: 'numbers',
      pValue: digits.pValue,
    };
    const text = digits.tested
      .map(({ of, numbers, counts }) => `${numbers} ${of}: the last digits 0 to 9 come ${counts.join(', ')} times.`)
      .join(' ');
    const tested = `Against equal shares, and arm against arm: ${formatPValue(digits.pValue)}, the number of tests allowed for.`;
    return digits.pValue >= limits.inventedNumbers.value
      ? notFound(`${text} ${tested}`, { measure })
      : found('serious', `${text} ${tested} Rounding by eye does this, and so do numbers that nobody measured.`, {
          measure,
        });
  },
};

/** A balance that shows finer steps than were written down: somebody rounded. */
function roundedMasses({ trial }: Facts, { tested }: LastDigits): Finding | undefined {
  const resolution_g = trial.protocol.instruments.find(({ kind }) => kind === 'gravimetric')?.resolution_g;
  const masses = tested.find(({ of }) => of === 'masses');
  if (resolution_g === undefined || masses === undefined || masses.step < limits.coarserSteps.value * resolution_g)
    return undefined;
  return found(
    'minor',
    `All ${masses.numbers} masses are multiples of ${masses.step} g, where the plan states that the balance shows ${resolution_g} g: they were rounded before they were written down.`,
    { measure: { value: masses.step, unit: 'g' } },
  );
}

export const spreadSmall: Search = {
  code: 'spread-too-small',
  domain: 'measurement',
  name: 'Numbers that vary too little',
  lookedFor: 'walls, stations or weighings vary less than walls and instruments allow, or far less in one arm',
  direction: 'either way',
  remedy: 'Keep the raw readings of every instrument, and have some walls read by a second person.',
  look: ({ numbers: { spread } }) => {
    const tests = [...spread.walls, ...spread.arms, ...spread.balance];
    if (tests.length === 0) return undefined;
    const [least] = tests.toSorted((one, other) => one.pValue - other.pValue);
    const measure = { value: tests.length, unit: 'tests', pValue: spread.pValue };
    const tested = `${countInWords(tests.length, 'test')} of the spread of walls, stations and weighings: ${formatPValue(spread.pValue)}, their number allowed for.`;
    if (spread.pValue >= limits.inventedNumbers.value || least === undefined) return notFound(tested, { measure });
    return found('serious', `${tested} ${storyOf(least)}`, { measure });
  },
};

function storyOf(
  test:
    | { readonly ratio: number; readonly places: number }
    | { readonly variances: Readonly<Record<'treated' | 'untreated', number>> }
    | { readonly ratio: number },
): string {
  if ('variances' in test)
    return `The variances of the arms before the treatment are ${numberInWords(test.variances.treated)} (treated) and ${numberInWords(test.variances.untreated)} (untreated).`;
  return 'places' in test
    ? `Walls differ from each other ${numberInWords(test.ratio)} times as much as their stations’ own scatter would make them.`
    : `Readings scatter ${numberInWords(test.ratio)} times as much (variances) as the balance alone would make them.`;
}
