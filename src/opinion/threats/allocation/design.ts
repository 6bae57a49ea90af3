import { fewestSeriesVisits } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { distinctBy } from '../../../plain/group-by.js';
import { countInWords } from '../../../words/quantity.js';
import { allocatedTo, type Facts, wallsOn } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';

const names = {
  wall: ['wall', 'walls'],
  site: ['site', 'sites'],
  block: ['block', 'blocks'],
  strip: ['stretch of wall', 'stretches of wall'],
} as const;

export const noUntreatedWalls: Search = {
  code: 'no-untreated-walls',
  domain: 'allocation',
  name: 'No untreated walls',
  lookedFor: 'walls were left untreated and read in the same way',
  direction: 'towards the claim',
  remedy: 'Leave some of the walls untreated, chosen at random, and read them in the same way and on the same days.',
  look: ({ facts }) => {
    const untreated = allocatedTo(facts, 'untreated');
    if (untreated > 0) return notFound(`${countInWords(untreated, 'wall')} in the comparison stayed untreated.`);
    const treated = allocatedTo(facts, 'treated');
    const all = treated === 1 ? 'The one wall in the comparison was' : `All ${treated} walls in the comparison were`;
    return found(
      'fatal',
      `${all} treated and none was left untreated. Drying by season, heating or time cannot be distinguished from drying by treatment.`,
    );
  },
};

export const noTreatedWalls: Search = {
  code: 'no-treated-walls',
  domain: 'allocation',
  name: 'No treated walls',
  lookedFor: 'any wall in the comparison was treated',
  direction: 'either way',
  remedy: 'Treat some of the walls, chosen at random.',
  look: ({ facts }) =>
    allocatedTo(facts, 'treated') > 0
      ? undefined
      : found(
          'fatal',
          `No wall in the comparison was treated (${allocatedTo(facts, 'untreated')} untreated), so there is no effect to look for.`,
        ),
};

const more = 'Have several walls in each arm: at least four, better twelve.';
const together = `Short of that, read both walls on the same days, at least ${fewestSeriesVisits} times before and ${fewestSeriesVisits} after: that shows what these two did.`;

export const oneWallAnArm: Search = {
  code: 'one-wall-an-arm',
  domain: 'allocation',
  name: 'One wall in an arm',
  lookedFor: 'each arm has more than one wall',
  direction: 'either way',
  remedy: more,
  look: ({ facts }) => {
    const [treated, untreated] = [countOn('treated'), countOn('untreated')];
    if (treated === 0 || untreated === 0 || Math.min(treated, untreated) > 1) return undefined;
    const { primary, series } = facts;
    const [one, several] = names[facts.units.kind];
    // One wall on one side can still be compared inside a block that holds several of the other side.
    const seriousness = primary.kind === 'estimated' ? 'serious' : 'fatal';
    return found(
      seriousness,
      `The trial has ${countInWords(treated, `treated ${one}`, `treated ${several}`)} and ${countInWords(untreated, `untreated ${one}`, `untreated ${several}`)}. Whatever sets a single ${one} apart looks like an effect, however often it was read. The result speaks of these only.`,
      {
        remedy: seriousness === 'fatal' && series !== undefined ? `${more} ${together}` : more,
        // A series judges what these walls did, and nothing judges what others would have done.
        ...(primary.kind === 'estimated' && primary.method === 'paired-series'
          ? { evidenceAtBest: 'shaky' as const }
          : {}),
      },
    );

    /** Walls, or sites and stretches that count as one. */
    function countOn(side: 'treated' | 'untreated'): number {
      return facts.units.allotted.filter((unit) => unit.side === side).length;
    }
  },
};

export const armsConfoundedWithBlocks: Search = {
  code: 'arms-confounded-with-blocks',
  domain: 'allocation',
  name: 'Arms and blocks that cannot be separated',
  lookedFor: 'some block holds walls of both sides',
  direction: 'either way',
  remedy: 'Have at least one treated and one untreated wall in each block.',
  look: ({ facts }) => {
    const sidesByBlock = distinctBy(
      facts.units.units,
      ({ block }) => block,
      ({ side }) => side,
    );
    if (wallsOn(facts, 'treated').length === 0 || wallsOn(facts, 'untreated').length === 0 || sidesByBlock.size < 2)
      return undefined;
    if ([...sidesByBlock.values()].some((sides) => sides.size > 1))
      return notFound('Blocks hold walls of both sides, so that the arms can be compared inside them.');
    return found(
      'fatal',
      `Each of the ${sidesByBlock.size} blocks holds walls of one side only, so a difference between arms cannot be distinguished from a difference between blocks.`,
    );
  },
};

function countOf({ kind, units }: Facts['units']): string {
  return `${units.length} ${names[kind][1]}`;
}

export const tooFewWalls: Search = {
  code: 'too-few-walls',
  domain: 'allocation',
  name: 'Too few walls for a test that assumes nothing of their distribution',
  lookedFor: 'a randomisation test of so many walls can reach the stated confidence',
  direction: 'either way',
  remedy: 'Have more walls: at 95 % confidence at least four against four, or six pairs.',
  look: ({ facts: { trial, smallestPossibleP, units, primary } }) => {
    // Without an interval, or with one wall an arm, there is a graver threat to name.
    if (primary.kind === 'not-estimated' || primary.method === 'paired-series' || smallestPossibleP === undefined)
      return undefined;
    const alpha = 1 - trial.protocol.confidence;
    const smallest = smallestPossibleP < 0.001 ? 'less than 0.001' : smallestPossibleP.toPrecision(2);
    // The small allowance keeps 1 − 0.95 from being a hair below 1/20.
    if (smallestPossibleP <= alpha * (1 + 1e-9))
      return notFound(`The smallest p-value that these ${countOf(units)} allow is ${smallest}.`, {
        measure: { value: smallestPossibleP, unit: 'p-value' },
      });
    return found(
      'serious',
      `With these ${countOf(units)} the smallest p-value of a randomisation test is ${smallestPossibleP.toFixed(2)}, above the ${alpha.toFixed(2)} that the stated confidence asks for. The interval relies on normality.`,
      { measure: { value: smallestPossibleP, unit: 'p-value' } },
    );
  },
};

/** Welch's interval with few walls in one arm and many in the other: where changes are skewed, the errors of the small mean decide. */
export const armsUnequal: Search = {
  code: 'arms-unequal',
  domain: 'allocation',
  name: 'A small arm beside a much larger one',
  lookedFor: 'a small arm stands beside one of twice its walls or more',
  direction: 'either way',
  remedy: 'Give both arms as many walls, or the smaller one at least six.',
  look: ({ facts: { primary, units } }) => {
    if (primary.kind === 'not-estimated' || primary.method !== 'welch') return undefined;
    const { treated, untreated } = primary.estimate.walls;
    const [few, many] = [Math.min(treated, untreated), Math.max(treated, untreated)];
    if (few < 2) return undefined;
    const [one, several] = names[units.kind];
    const counts = `The comparison has ${countInWords(treated, `treated ${one}`, `treated ${several}`)} and ${countInWords(untreated, `untreated ${one}`, `untreated ${several}`)}.`;
    const measure = { value: few, unit: several };
    if (few >= limits.smallArm.value || many < limits.armsUnequal.value * few) return notFound(counts, { measure });
    return found(
      'minor',
      `${counts} Where changes are skewed, such an interval is somewhat too short: with four walls against twelve its coverage was 93 to 95 % in simulated trials.`,
      { measure },
    );
  },
};
