import { quantityInWords } from '../../words/quantity.js';
import type { Threat } from '../judging.js';
import type { TurningPoint, TurningPoints } from '../turning-points.js';

const verdicts = {
  worthwhile: '“worthwhile”',
  'some-effect': '“some effect, worthwhile or not”',
  'smaller-than-worthwhile': '“an effect smaller than worthwhile”',
  'no-worthwhile-effect': '“no worthwhile effect”',
  harmful: '“harmful”',
  undecided: '“undecided”',
} as const;

export function verdictInWords(code: keyof typeof verdicts): string {
  return verdicts[code];
}

function reached(becomes: TurningPoint['becomes']): string {
  if (becomes === 'holds-zero') return 'for the interval to reach zero';
  if (becomes === 'leaves-zero') return 'for the interval to leave out zero';
  return `for the verdict to become ${verdicts[becomes]}`;
}

export interface Ways {
  /** Begins a sentence: what a push towards the claim would have to be, given its size in words. */
  readonly flattered: (size: string) => string;
  /** What a push away from the claim would have to be. */
  readonly hidden: (size: string) => string;
}

export const carried: Ways = {
  flattered: (size) => `It would have to carry ${size} of the difference`,
  hidden: (size) => `It would have to hide ${size} of a difference`,
};

interface Turn {
  readonly turning: TurningPoints | undefined;
  readonly direction: Threat['direction'];
  readonly unit: string;
  readonly ways: Ways;
  /** What moves the difference by one unit moves itself by this; 1 unless told. */
  readonly each?: number;
}

/** What a threat would have to be to change the verdict, by the direction into which it pushes. */
export function turnInWords({ turning, direction, unit, ways, each = 1 }: Turn): string {
  if (turning === undefined) return 'Nothing of the kind: the trial has no verdict to change.';
  const towards = way(turning.flattered, ways.flattered, unit, each);
  const away = way(turning.hidden, ways.hidden, unit, each);
  if (direction === 'towards the claim') return towards ?? 'A push towards the claim would leave the verdict as it is.';
  if (direction === 'away from the claim')
    return away ?? 'A push away from the claim would leave the verdict as it is.';
  return [towards, away].flatMap((sentence) => sentence ?? []).join(' ');
}

function way(
  [first, second]: readonly TurningPoint[],
  words: (size: string) => string,
  unit: string,
  each: number,
): string | undefined {
  if (first === undefined) return undefined;
  const size = ({ shift }: TurningPoint) => quantityInWords(shift * each, unit);
  const further = second === undefined ? '' : `; ${size(second)} ${reached(second.becomes)}`;
  return `${words(size(first))} ${reached(first.becomes)}${further}.`;
}
