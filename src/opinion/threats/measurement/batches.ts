import { limits } from '../../../findings/limits.js';
import { isoDay } from '../../../plain/days.js';
import { distinctBy, valuesBy } from '../../../plain/group-by.js';
import type { Core } from '../../../trial/index.js';
import { countInWords, shareInWords } from '../../../words/quantity.js';
import type { Facts } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';
import { driedCores } from './oven.js';

/**
 * What goes wrong with one batch goes wrong with all its cores. Where both arms were cored on a day and each was dried by itself,
 * that looks like a difference between the arms.
 */
export const batchesByArm: Search = {
  code: 'batches-by-arm',
  domain: 'measurement',
  name: 'Batches by arm',
  lookedFor: 'each arm’s cores were dried in batches of their own, although both arms were cored on the same days',
  direction: 'either way',
  remedy: 'Dry the cores of one visit together, those of both arms in every batch.',
  restsOn: ['instrument'],
  look: ({ facts }) => {
    const cores = coresOfSharedDays(facts);
    const { mixed, byArm } = batchesOf(facts);
    if (cores.length === 0 || (mixed.size === 0 && byArm.size === 0)) return undefined;
    const together = cores.filter(({ batch }) => batch !== undefined && mixed.has(batch)).length;
    const share = together / cores.length;
    const text = `Of ${countInWords(cores.length, 'core')} from days on which both arms were cored, ${together} (${shareInWords(together, cores.length)}) are known to have been dried together with cores of the other arm.`;
    const measure = { value: share, unit: 'share of cores dried with the other arm’s' };
    if (byArm.size === 0 || share >= limits.driedTogether.value) return notFound(text, { measure });
    return found(
      'minor',
      `${text} ${countInWords(byArm.size, 'batch', 'batches')} held several cores of one arm alone, so that what went wrong with a batch is part of the difference between the arms.`,
      { measure },
    );
  },
};

/** Compared cores with a batch or without, of days on which walls of both sides were cored. */
function coresOfSharedDays({ trial, sides }: Facts): readonly Core[] {
  const own = trial.cores.filter(({ wall }) => sides.has(wall));
  const sidesOfDay = distinctBy(
    own,
    ({ date }) => isoDay(date),
    ({ wall }) => sides.get(wall),
  );
  return own.filter(({ date }) => sidesOfDay.get(isoDay(date))?.size === 2);
}

/** Batches with cores of both sides, and those with several cores of one alone. */
function batchesOf(facts: Facts): { readonly mixed: ReadonlySet<string>; readonly byArm: ReadonlySet<string> } {
  const sidesOfBatch = valuesBy(
    driedCores(facts),
    ({ batch }) => batch.batch,
    ({ core }) => facts.sides.get(core.wall) ?? '',
  );
  const named = (isSuch: (own: readonly string[]) => boolean) =>
    new Set([...sidesOfBatch].flatMap(([batch, own]) => (isSuch(own) ? [batch] : [])));
  return {
    mixed: named((own) => new Set(own).size === 2),
    byArm: named((own) => own.length > 1 && new Set(own).size === 1),
  };
}
