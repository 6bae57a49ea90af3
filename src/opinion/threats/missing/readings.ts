import type { Side } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { countInWords, differenceInWords, listInWords, numberInWords, shareInWords } from '../../../words/quantity.js';
import { allocatedTo, type Facts, isRandomised } from '../facts.js';
import type { ThreatNumbers } from '../grounds.js';
import { type Finding, found, notFound, type Search } from '../threat.js';
import { unitOf } from '../threat-words.js';
import { turnInWords, type Ways } from '../turn-in-words.js';

export const noBeforeReadings: Search = {
  code: 'no-before-readings',
  domain: 'missing-data',
  name: 'No readings before the treatment',
  lookedFor: 'walls were read before the treatment',
  direction: 'either way',
  remedy: 'Read every wall, on several days, before the treatment.',
  look: ({ facts }) => {
    const isMissing = lacks(facts, 'before');
    if (!isMissing) return undefined;
    const { primary } = facts;
    if (primary.kind === 'estimated' && isRandomised(facts))
      return found(
        'serious',
        'No wall was read before the treatment. The after means are compared, which only the randomisation makes fair, and which is less precise than a comparison of changes.',
      );
    return noReadingsIn(facts, 'before');
  },
};

export const noAfterReadings: Search = {
  code: 'no-after-readings',
  domain: 'missing-data',
  name: 'No readings after the treatment',
  lookedFor: 'walls were read after the treatment',
  direction: 'either way',
  remedy: 'Read every wall again in the after window of the plan.',
  look: ({ facts }) => (lacks(facts, 'after') ? noReadingsIn(facts, 'after') : undefined),
};

function lacks({ trial, stations }: Facts, window: 'before' | 'after'): boolean {
  return trial.protocol.windows !== undefined && stations.every((station) => station[window] === undefined);
}

function noReadingsIn({ trial }: Facts, window: 'before' | 'after'): Finding {
  const { windows, outcome } = trial.protocol;
  const days = windows === undefined ? '' : `, ${windows[window].from} to ${windows[window].to}`;
  return found(
    'fatal',
    `There is no usable reading of ${outcome.instrument} in the ${window} window${days}, so no wall has a change.`,
  );
}

const unlike = (what: string): Ways => ({
  flattered: (size) => `If the missing ${what} were worse than those seen by ${size}`,
  hidden: (size) => `If the missing ${what} were better than those seen by ${size}`,
});

export const wallsLeftOut: Search = {
  code: 'walls-left-out',
  domain: 'missing-data',
  name: 'Walls that were lost',
  lookedFor: 'walls of the comparison have no change',
  direction: 'either way',
  remedy: 'Keep every wall to the end, and read at several stations so that one lost station does not lose the wall.',
  look: ({ facts, numbers }) => {
    const lost = facts.leftOutWalls.filter(({ wall }) => facts.sides.has(wall));
    if (facts.walls.length === 0) return undefined;
    if (lost.length === 0) return notFound(`All ${countInWords(facts.walls.length, 'wall')} could be used.`);
    const lostOn = (side: Side) => lost.filter(({ wall }) => facts.sides.get(wall) === side).length;
    const shareOn = (side: Side) => (allocatedTo(facts, side) === 0 ? 0 : lostOn(side) / allocatedTo(facts, side));
    const apart = shareOn('treated') - shareOn('untreated');
    return found(
      Math.abs(apart) > limits.wallsLostApart.value ? 'serious' : 'minor',
      `${countInWords(lostOn('treated'), 'treated wall')} of ${allocatedTo(facts, 'treated')} and ${countInWords(lostOn('untreated'), 'untreated wall')} of ${allocatedTo(facts, 'untreated')} could not be used (${listInWords(lost.map(({ wall }) => wall))}). Walls are seldom lost by chance alone.${boundsInWords(facts, numbers)}`,
      {
        measure: { value: apart, unit: 'difference of the shares lost' },
        ...tippingOf(facts, numbers),
      },
    );
  },
};

function boundsInWords(facts: Facts, { missing }: ThreatNumbers): string {
  if (missing === undefined) return '';
  const { lower, upper } = missing.bounds;
  return ` Had each been as good or as bad as any wall seen, the difference would lie from ${numberInWords(lower)} to ${differenceInWords(upper, unitOf(facts))}, ignoring sampling error.`;
}

function tippingOf(facts: Facts, { missing, turning }: ThreatNumbers): { readonly tipping?: string } {
  if (missing === undefined) return {};
  if (missing.movesBy === undefined)
    return { tipping: 'No treated wall is missing; the bounds say what the untreated ones could do.' };
  const ways = unlike(missing.missing.pairs > 0 ? 'pairs' : 'treated walls');
  const each = 1 / missing.movesBy;
  return { tipping: turnInWords({ turning, direction: 'either way', unit: unitOf(facts), ways, each }) };
}

export const belowDetection: Search = {
  code: 'readings-below-detection',
  domain: 'missing-data',
  name: 'Readings below the detection limit',
  lookedFor: 'outcome readings were too low for the instrument',
  direction: 'either way',
  remedy: 'Use an instrument that can measure the driest wall of the trial.',
  look: ({ facts }) => {
    const lost = facts.leftOutReadings
      .filter(({ reason }) => reason.code === 'below-detection')
      .reduce((sum, { count }) => sum + count, 0);
    const all = lost + facts.used.length;
    if (all === 0) return undefined;
    if (lost === 0) return notFound(`None of the ${all} outcome readings was below a detection limit.`);
    return found(
      lost / all >= limits.belowDetection.value ? 'serious' : 'minor',
      `${lost} of ${all} outcome readings (${shareInWords(lost, all)}) were below the detection limit and could not be averaged. Excluding the driest makes the rest look wetter.`,
      { measure: { value: lost / all, unit: 'share of readings' } },
    );
  },
};
