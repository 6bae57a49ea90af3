import { limits } from '../../../findings/limits.js';
import type { PlasterOfTrial } from '../../../findings/plaster/plaster-of-trial.js';
import type { InstrumentKind } from '../../../trial/index.js';
import { countInWords, numberInWords, shareInWords } from '../../../words/quantity.js';
import { kindOfOutcome } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';

/** New plaster brings water, takes up salts and covers what was read before; old plaster that is taken off lets a wall dry. */
export const plasterUnlike: Search = {
  code: 'plaster-unlike',
  domain: 'departures-and-timing',
  name: 'Plaster stripped or renewed unlike',
  lookedFor: 'plaster was stripped or renewed in one arm more than in the other, or at another time',
  direction: 'either way',
  remedy: 'Strip and renew the plaster of both arms alike and in the same weeks, or leave it on both.',
  look: ({ numbers: { plaster } }) => {
    if (plaster === undefined) return undefined;
    const text = wallsInWords(plaster);
    const apart = Math.abs(plaster.apart);
    const measure = { value: plaster.apart, unit: 'share of walls, treated less untreated' };
    if (apart > 0)
      return found(
        apart >= limits.plasterApart.value ? 'serious' : 'minor',
        `${text} A wall without its plaster dries faster, and new plaster wets a wall and then hides its salts, whatever the treatment does.`,
        { measure },
      );
    const days = Math.abs(plaster.daysApart ?? 0);
    if (days > limits.plasterDaysApart_d.value)
      return found(
        'minor',
        `${text} The work was done ${numberInWords(days, 0)} days apart on average, so that one arm had more time to dry after it.`,
        { measure: { value: plaster.daysApart ?? 0, unit: 'days, treated less untreated' } },
      );
    return notFound(text, { measure });
  },
};

function wallsInWords({ bySide: { treated, untreated } }: PlasterOfTrial): string {
  const of = (what: 'stripped' | 'renewed') =>
    `on ${treated[what]} of ${countInWords(treated.walls, 'treated wall')} and ${untreated[what]} of ${countInWords(untreated.walls, 'untreated wall')}`;
  return `Between the before and the after readings plaster was stripped ${of('stripped')}. It was renewed ${of('renewed')}.`;
}

const readThroughSurface: ReadonlySet<InstrumentKind | undefined> = new Set(['microwave', 'resistance', 'capacitance']);

export const readOnNewPlaster: Search = {
  code: 'read-on-new-plaster',
  domain: 'measurement',
  name: 'Meter held on new plaster',
  lookedFor: 'a meter held against the surface read new plaster after and something else before',
  direction: 'either way',
  remedy: 'Read through holes in the new plaster, or drill cores of the masonry behind it.',
  look: ({ facts, numbers: { plaster } }) => {
    if (plaster === undefined || plaster.after.all === 0 || !readThroughSurface.has(kindOfOutcome(facts)))
      return undefined;
    const { all, onNew } = plaster.after;
    const text = `${onNew} of the ${countInWords(all, 'after reading')} (${shareInWords(onNew, all)}) were taken on plaster renewed since the before readings.`;
    const measure = { value: onNew / all, unit: 'share of after readings' };
    if (onNew === 0) return notFound(text, { measure });
    return found(
      'minor',
      `${text} The change of such a wall is in part the change of what the meter was held against.`,
      {
        measure,
      },
    );
  },
};
