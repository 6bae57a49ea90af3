import type { Compared, UnitKind } from '../analysis/index.js';

/** What the units of a comparison are called, and what of them is compared. */
export interface UnitWords {
  readonly one: string;
  readonly many: string;
  readonly value: string;
  readonly values: string;
  /** What is assumed because of either; nothing where walls are compared by their changes. */
  readonly assumed: readonly string[];
}

const names: Readonly<Record<UnitKind, readonly [one: string, many: string]>> = {
  wall: ['wall', 'walls'],
  site: ['site', 'sites'],
  block: ['block', 'blocks'],
  strip: ['stretch', 'stretches'],
};

export function unitWords({ units, value }: Compared): UnitWords {
  const [one, many] = names[units];
  const isOfAfter = value === 'after';
  return {
    one,
    many,
    ...(isOfAfter ? { value: 'after value', values: 'after values' } : { value: 'change', values: 'changes' }),
    assumed: [
      ...(units === 'wall' ? [] : [`${many} are the units, each by the mean over its walls`]),
      ...(isOfAfter
        ? [`nothing was read before the treatment: only randomisation made ${many} of both sides alike beforehand`]
        : []),
    ],
  };
}
