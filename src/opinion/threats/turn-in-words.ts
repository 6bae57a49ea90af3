import { differenceInWords } from '../../words/quantity.js';
import type { TurningPoint, TurningPoints } from '../judging/turning-points.js';
import type { Direction } from './threat.js';

const verdicts = {
  worthwhile: '“worthwhile”',
  'some-effect': '“some effect”',
  'smaller-than-worthwhile': '“an effect smaller than worthwhile”',
  'no-worthwhile-effect': '“no worthwhile effect”',
  harmful: '“harmful”',
  undecided: '“undecided”',
  'not-answerable': '“not answerable”',
} as const;

export function verdictInWords(code: keyof typeof verdicts): string {
  return verdicts[code];
}

function reached(becomes: TurningPoint['becomes']): string {
  if (becomes === 'holds-zero') return 'the interval would include zero';
  if (becomes === 'leaves-zero') return 'the interval would exclude zero';
  return `the verdict would be ${verdicts[becomes]}`;
}

export interface Ways {
  /** Begins a sentence: a bias towards the claim, given its size in words. */
  readonly flattered: (size: string) => string;
  /** A bias away from the claim. */
  readonly hidden: (size: string) => string;
}

const bias: Ways = {
  flattered: (size) => `With a bias of ${size} towards the claim`,
  hidden: (size) => `With a bias of ${size} away from the claim`,
};

interface Turn {
  readonly turning: TurningPoints | undefined;
  readonly direction: Direction;
  readonly unit: string;
  readonly ways?: Ways;
  /** What moves the difference by one unit moves itself by this; 1 unless told. */
  readonly each?: number;
}

/** What a threat would have to be to change the verdict, by its direction of bias. */
export function turnInWords({ turning, direction, unit, ways = bias, each = 1 }: Turn): string {
  if (turning === undefined) return 'There is no verdict to change.';
  const towards = way(turning.flattered, ways.flattered, unit, each);
  const away = way(turning.hidden, ways.hidden, unit, each);
  if (direction === 'towards the claim') return towards ?? 'No bias towards the claim would change the verdict.';
  if (direction === 'away from the claim') return away ?? 'No bias away from the claim would change the verdict.';
  const both = [towards, away].flatMap((sentence) => sentence ?? []).join(' ');
  return both === '' ? 'No bias would change the verdict.' : both;
}

/** The smallest bias in a direction that changes the verdict. */
export function tippingPoint(turning: TurningPoints | undefined, direction: Direction): number | undefined {
  if (turning === undefined) return undefined;
  const towards = turning.flattered[0]?.shift;
  const away = turning.hidden[0]?.shift;
  if (direction === 'towards the claim') return towards;
  if (direction === 'away from the claim') return away;
  return towards === undefined || away === undefined ? (towards ?? away) : Math.min(towards, away);
}

function way(
  [first, second]: readonly TurningPoint[],
  words: (size: string) => string,
  unit: string,
  each: number,
): string | undefined {
  if (first === undefined) return undefined;
  const size = ({ shift }: TurningPoint) => differenceInWords(shift * each, unit);
  const further = second === undefined ? '' : ` At ${size(second)} ${reached(second.becomes)}.`;
  return `${words(size(first))}, ${reached(first.becomes)}.${further}`;
}
