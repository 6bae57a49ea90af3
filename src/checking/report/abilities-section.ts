import { fewestSeriesVisits } from '../../analysis/index.js';
import { type Line, type Section, strong, type Table } from '../../report/document.js';
import { countInWords, numberInWords } from '../../words/quantity.js';
import type { Ability, Can } from '../abilities.js';
import { fewestPairs } from '../calibration-checks.js';
import type { TrialOverview } from '../trial-overview.js';

/** What the trial can and cannot answer as planned and recorded so far. */
export function abilitiesSection({ abilities }: TrialOverview): Section {
  const table: Table = {
    kind: 'table',
    caption: 'Questions, and whether this trial can answer them',
    columns: [{ header: 'Question' }, { header: 'Answer', look: 'whole' }, { header: 'Because', look: 'prose' }],
    rows: abilities.map((ability) => [[questionOf(ability)], [strong(canWords[ability.can])], becauseOf(ability)]),
  };
  return { id: 'abilities', heading: 'What this trial can answer', blocks: [table] };
}

const canWords: Readonly<Record<Can, string>> = {
  yes: 'can',
  'not-yet': 'not yet',
  no: 'cannot',
  'these-walls-only': 'of these walls only',
};

function questionOf(ability: Ability): string {
  switch (ability.id) {
    case 'difference':
      return 'Did treated walls change more than untreated ones?';
    case 'chance':
      return 'Are there enough walls for a randomisation test to rule out chance?';
    case 'worthwhile':
      return 'Is an effect worth its price?';
    case 'calibration':
      return `How much moisture is a reading of ${ability.check.instrument}?`;
    case 'damp-front':
      return 'How high does the damp stand?';
    case 'drying':
      return 'How fast do walls dry?';
    case 'salts':
      return 'Is it salts that hold the moisture?';
    case 'blinding':
      return 'Did people guess the arms?';
  }
}

function becauseOf(ability: Ability): Line {
  switch (ability.id) {
    case 'difference':
      return [differenceWords(ability)];
    case 'chance':
      return [
        `With so many walls a randomisation test can come down to p = ${numberInWords(ability.smallestP)}; the plan asks for ${numberInWords(ability.level)}.`,
      ];
    case 'worthwhile':
      return [
        ability.can === 'yes'
          ? 'The plan states a margin.'
          : 'The plan states no margin: the smallest difference worth paying for.',
      ];
    case 'calibration':
      return [calibrationWords(ability.check)];
    case 'damp-front':
      return [
        ability.heights === 0
          ? `No reading has a height; ${ability.needed} heights on a wall are needed.`
          : `A wall is read at up to ${countInWords(ability.heights, 'height')}; ${ability.needed} are needed.`,
      ];
    case 'drying':
      return [
        `${countInWords(ability.visits, 'visit')} from the first day of treatment on; ${ability.needed} are needed.`,
      ];
    case 'salts':
      return [`${ability.weighedHumid} of ${countInWords(ability.cores, 'core')} were weighed humid (humid_g).`];
    case 'blinding':
      return [
        ability.notes === 0
          ? 'There are no blinding notes: ask readers and occupants what they believe, after the last reading.'
          : `There are ${countInWords(ability.notes, 'blinding note')}.`,
      ];
  }
}

function differenceWords({
  can,
  walls,
  complete,
  hasWindows,
  commonVisits,
}: Extract<Ability, { id: 'difference' }>): string {
  const counted = `${countInWords(walls.treated, 'treated wall')} and ${walls.untreated} untreated; read in both windows so far: ${complete.treated} and ${complete.untreated}.`;
  if (!hasWindows) return `${counted} The plan states no windows, so before and after cannot be distinguished.`;
  if (walls.untreated === 0)
    return `${counted} There is nothing to compare with: what dries all walls looks like the treatment.`;
  if (walls.treated === 0) return `${counted} No wall of the comparison is treated.`;
  if (Math.min(walls.treated, walls.untreated) > 1) return counted;
  const alone = 'With one wall in an arm there is no replication';
  if (can === 'these-walls-only')
    return `${counted} ${alone}; the walls are followed visit by visit, and the answer speaks of them alone.`;
  const { before, after } = commonVisits ?? { before: 0, after: 0 };
  return `${counted} ${alone}. ${fewestSeriesVisits} visits or more before and after, at which all walls are read, would let these walls be followed; so far there are ${before} and ${after}.`;
}

function calibrationWords(check: Extract<Ability, { id: 'calibration' }>['check']): string {
  const { cores, readings, pairs, walls, pairsByWall, toleranceDays } = check;
  const counted = `${countInWords(pairs, 'pair')} of core and reading on ${countInWords(walls, 'wall')}, from ${countInWords(cores, 'core')} and ${countInWords(readings, 'reading')}`;
  const rule = `A pair is a core and a reading of the same station, at most ${toleranceDays} days apart`;
  if (pairs >= fewestPairs && walls >= fewestPairs) return `${counted}.`;
  const needed = `${fewestPairs} pairs from ${fewestPairs} walls are needed. ${rule}.`;
  if (pairsByWall > pairs)
    return `${counted}. ${needed} Walls and days would give ${pairsByWall}: the stations of cores and readings bear different names.`;
  return `${counted}. ${needed}`;
}
