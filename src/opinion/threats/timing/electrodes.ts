import type { ElectricalWall } from '../../../findings/electrical/electrical-of-trial.js';
import { meansOfSide } from '../../../findings/electrical/means-of-arm.js';
import { limits } from '../../../findings/limits.js';
import { mean } from '../../../statistics/index.js';
import { countInWords, listInWords, numberInWords } from '../../../words/quantity.js';
import { type Facts, isNull } from '../facts.js';
import type { Grounds } from '../grounds.js';
import { couldNotLook, found, notFound, type Search } from '../threat.js';

const domain = 'departures-and-timing';
const direction = 'away from the claim';

/** Whatever weakens a treatment may be why no effect was found, and never why one was. */
function weightOf(facts: Facts): 'serious' | 'minor' {
  return isNull(facts) ? 'serious' : 'minor';
}

function treatedOf({ numbers: { electrical = [] } }: Grounds): readonly ElectricalWall[] {
  return electrical.filter(({ side }) => side === 'treated');
}

function percent(share: number): string {
  return `${numberInWords(100 * share, 0)} %`;
}

export const electrodesInterrupted: Search = {
  code: 'electrodes-interrupted',
  ...{ domain, direction },
  name: 'Electrodes that were off',
  lookedFor: 'the electrodes of the treated walls were on for the planned time',
  remedy: 'Log voltage and current all the time, have the supply report its failures, and repair it at once.',
  look: (grounds) => {
    const { facts } = grounds;
    const treated = treatedOf(grounds).filter(({ planned_s }) => planned_s > 0);
    const on = meansOfSide(treated, 'treated')?.onShare;
    if (on === undefined)
      return facts.trial.protocol.treatment?.kind === 'electrodes'
        ? couldNotLook(
            '`electrical.csv` with voltage and current of the treated walls over time',
            'The treatment is by electrodes, and no current of a treated wall over time is on record: whether it was on is not known.',
          )
        : undefined;
    const off = mean(treated.map(({ off_s, planned_s }) => Math.min(1, off_s / planned_s)));
    const text = `The electrodes of ${countInWords(treated.length, 'treated wall')} are on record as on for ${percent(on)} of the planned time on average, and as off for ${percent(off)}; of the rest there is no record.`;
    const measure = { value: on, unit: 'mean share of the planned time on' };
    if (on >= limits.electrodesOn.value) return notFound(text, { measure });
    return found(weightOf(facts), `${text} Walls were treated for less time than planned.`, { measure });
  },
};

/** A wall that dries conducts less, so that the current of an effective treatment falls as well. */
export const currentFellAway: Search = {
  code: 'current-fell-away',
  ...{ domain, direction },
  name: 'Current that fell away',
  lookedFor: 'the current of the treated walls kept its size',
  remedy: 'Watch the current, and renew contacts and anodes when it falls.',
  look: (grounds) => {
    const kept = meansOfSide(treatedOf(grounds), 'treated')?.currentKept;
    if (kept === undefined) return undefined;
    const text = `On average the treated walls kept ${percent(kept)} of the current of their first 30 days.`;
    const measure = { value: kept, unit: 'share of the first 30 days’ current' };
    if (kept >= limits.currentKept.value) return notFound(text, { measure });
    return found(
      weightOf(grounds.facts),
      `${text} Drying masonry, lost contact and corroded anodes all do this, and the record does not distinguish them.`,
      { measure },
    );
  },
};

export const currentReversed: Search = {
  code: 'current-reversed',
  ...{ domain, direction },
  name: 'Current against the stated polarity',
  lookedFor: 'the current of the treated walls flowed as stated',
  remedy: 'Mark the leads, check the polarity with a meter when the system is switched on, and log its sign.',
  look: (grounds) => {
    const treated = treatedOf(grounds);
    const reversed = meansOfSide(treated, 'treated')?.reversedShare;
    if (reversed === undefined) return undefined;
    const walls = treated.filter(({ circuits }) => circuits.some(({ reversedShare = 0 }) => reversedShare > 0));
    const of = walls.length === 0 ? '' : ` (${listInWords(walls.map(({ wall }) => wall))})`;
    const text = `The current ran against the stated polarity for ${percent(reversed)} of the time on, on average over the treated walls${of}.`;
    const measure = { value: reversed, unit: 'mean share of the time on' };
    if (reversed < limits.currentReversed.value) return notFound(text, { measure });
    return found(weightOf(grounds.facts), `${text} Water that moved with the current then moved the other way.`, {
      measure,
    });
  },
};

export const currentInUntreatedWalls: Search = {
  code: 'current-in-untreated-walls',
  ...{ domain, direction },
  name: 'Current in untreated walls',
  lookedFor: 'a current flowed in walls that were left untreated',
  remedy:
    'Keep untreated walls off the supply and away from its electrodes, and measure that no current flows in them.',
  look: ({ facts, numbers: { electrical = [] } }) => {
    const treated = meansOfSide(electrical, 'treated');
    const untreated = electrical.filter(({ side }) => side === 'untreated');
    if (treated === undefined || untreated.length === 0) return undefined;
    const shareOf = ({ current_a }: ElectricalWall) => current_a / treated.current_a;
    const carrying = untreated.filter((wall) => wall.current_a > 0 && shareOf(wall) >= limits.strayCurrent.value);
    const names = `${countInWords(carrying.length, 'untreated wall')} (${listInWords(carrying.map(({ wall }) => wall))})`;
    if (treated.current_a === 0)
      return carrying.length === 0
        ? undefined
        : found(weightOf(facts), `No current is on record in treated walls, and one in ${names}.`);
    const most = Math.max(...untreated.map(shareOf));
    const measure = { value: most, unit: 'share of the treated walls’ mean current' };
    const text = `The untreated wall with the largest current had ${percent(most)} of the treated walls’ mean current, of ${countInWords(untreated.length, 'untreated wall')} on record.`;
    if (carrying.length === 0) return notFound(text, { measure });
    return found(
      weightOf(facts),
      `${text} From ${percent(limits.strayCurrent.value)} on a wall had part of the treatment: ${names}.`,
      { measure },
    );
  },
};
