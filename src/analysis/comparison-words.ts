import type { UnitKind, WallChange } from './wall-change.js';

/** What the units of a comparison are called and what of them is compared, for the words of an estimate. */
export interface ComparisonWords {
  readonly one: string;
  readonly many: string;
  readonly value: string;
  readonly values: string;
  /** What is assumed because of either; nothing where walls are compared by their changes. */
  readonly taken: readonly string[];
}

const names: Readonly<Record<UnitKind, readonly [one: string, many: string]>> = {
  wall: ['wall', 'walls'],
  site: ['site', 'sites'],
  block: ['block', 'blocks'],
  strip: ['stretch', 'stretches'],
};

export function comparisonWords(units: readonly WallChange[]): ComparisonWords {
  const [one, many] = names[units.find(({ unit }) => unit !== undefined)?.unit?.kind ?? 'wall'];
  const isOfAfter = isAfterAlone(units);
  return {
    one,
    many,
    ...(isOfAfter ? { value: 'after value', values: 'after values' } : { value: 'change', values: 'changes' }),
    taken: [
      ...(one === 'wall' ? [] : [`${many} are the units, each by the mean over its walls`]),
      ...(isOfAfter
        ? [`nothing was read before the treatment: only the lot made ${many} of both sides alike beforehand`]
        : []),
    ],
  };
}

/** Why an analysis that needs before values was not made, in words that end a sentence. */
export const nothingReadBefore = 'no wall was read before the treatment';

/** Whether after values alone are compared, since nothing was read before. */
export function isAfterAlone(units: readonly WallChange[]): boolean {
  return units.length > 0 && units.every(({ before }) => before === undefined);
}
