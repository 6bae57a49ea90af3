import { plainDesign, type SimulatedDesign } from '../simulated-wall/simulated-design.js';

/** A design of which it was counted how often each verdict comes out. */
export interface RateDesign {
  readonly id: string;
  readonly label: string;
  /** What is wrong with it, or harder than usual; `nothing` where intervals should keep their promise. */
  readonly trouble: RateTrouble;
  readonly design: SimulatedDesign;
}

export type RateTrouble =
  | 'nothing'
  | 'two-walls'
  | 'skew'
  | 'unlike-spread'
  | 'autocorrelation'
  | 'drop-out'
  | 'leaks'
  | 'readers-say-they-knew'
  | 'readers-hide-that-they-knew';

/** True effects, in margins. */
export const trueEffects = [0, 0.5, 1, 1.5, 2] as const;

const of = (
  id: string,
  label: string,
  changes: Partial<SimulatedDesign>,
  trouble: RateTrouble = 'nothing',
): RateDesign => ({ id, label, trouble, design: { ...plainDesign, ...changes } });

const arms = (each: number) => ({ treated: each, untreated: each });
const pairs = (count: number) => ({ layout: 'pairs', ...arms(count) }) as const;
const blocks = (count: number) => ({ layout: 'blocks-of-four', ...arms(2 * count) }) as const;
const houses = (count: number) => ({ layout: 'houses', ...arms((3 * count) / 2) }) as const;
const unlike = { treatmentSpread: 0.5 } as const;
/** Spread as in the plain design, most of it from a few walls. */
const skewed = { ownChange: 0.4, ownChangeShape: 'skewed' } as const;

/** The designs, from few walls to many, and then those with a trouble. */
export const rateDesigns: readonly RateDesign[] = [
  of('complete-4', '4 randomised walls', arms(2)),
  of('complete-6', '6 randomised walls', arms(3)),
  of('complete-8', '8 randomised walls', arms(4)),
  of('complete-12', '12 randomised walls', arms(6)),
  of('complete-16', '16 randomised walls', arms(8)),
  of('complete-24', '24 randomised walls', arms(12)),
  of('complete-48', '48 randomised walls', arms(24)),
  of('pairs-4', '4 pairs', pairs(4)),
  of('pairs-6', '6 pairs', pairs(6)),
  of('pairs-12', '12 pairs', pairs(12)),
  of('blocks-2', '2 blocks of four walls', blocks(2)),
  of('blocks-4', '4 blocks of four walls', blocks(4)),
  of('houses-8', '8 houses of three walls', houses(8)),
  of('uneven-12-4', '12 treated walls against 4', { treated: 12, untreated: 4 }),
  of('no-season-16', '16 randomised walls, no season', { ...arms(8), season: 'none' }),
  of('two-walls', '2 walls, 12 visits a window', { ...arms(1), visits: 12 }, 'two-walls'),
  of('skew-24', '24 randomised walls, skewed changes', { ...arms(12), ...skewed }, 'skew'),
  of('skew-12-4', '12 treated walls against 4, skewed changes', { treated: 12, untreated: 4, ...skewed }, 'skew'),
  of('unlike-16', '16 randomised walls that respond unlike', { ...arms(8), ...unlike }, 'unlike-spread'),
  of('unlike-pairs-8', '8 pairs that respond unlike', { ...pairs(8), ...unlike }, 'unlike-spread'),
  of('unlike-blocks-4', '4 blocks of four walls that respond unlike', { ...blocks(4), ...unlike }, 'unlike-spread'),
  of(
    'wander-16',
    '16 randomised walls, weeks much alike (0.95)',
    { ...arms(8), autocorrelation: 0.95 },
    'autocorrelation',
  ),
  of('lost-16', '16 randomised walls, a fifth lost', { ...arms(8), dropOut: 0.2 }, 'drop-out'),
  of('leaks-16', '16 randomised walls, 2 leaks', { ...arms(8), leaks: 2 }, 'leaks'),
  of(
    'stated-16',
    '16 randomised walls, readers who say that they knew shave 1 %',
    { ...arms(8), readersKnow: 'and-say-so', shaved_pp: 1 },
    'readers-say-they-knew',
  ),
  of(
    'hidden-16',
    '16 randomised walls, readers who hide that they knew shave 1 %',
    { ...arms(8), readersKnow: 'and-hide-it', shaved_pp: 1 },
    'readers-hide-that-they-knew',
  ),
];
