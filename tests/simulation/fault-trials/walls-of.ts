import type { Wall } from '../../../src/trial/index.js';
import { type Base, SPREAD, treatmentDays } from './base.js';
import { type Draws, inRandomOrder } from './own-random.js';

/** A wall with what nobody sees of it. */
export interface TrueWall {
  readonly record: Wall;
  readonly level: number;
  readonly change: number;
}

/** Wet enough for the driest station of the driest wall to lose twice the margin, but for one trial in hundreds. */
const LEVEL = 13;
/** Of the variance between walls, what the two of a pair or the four of a block share. */
const SHARED = 0.6;

const sizes = { pairs: 2, 'blocks-of-four': 4 } as const;

export function wallsOf(base: Base, draws: Draws): readonly TrueWall[] {
  const { design, perArm, effect } = base;
  const arms = inBlocks(base, draws);
  const shared = new Map<string, number>();
  const ownPart = design === 'complete' ? 1 : Math.sqrt(1 - SHARED);
  return arms.map(({ arm, block }, at) => {
    if (block !== undefined && !shared.has(block)) shared.set(block, Math.sqrt(SHARED) * draws.normal());
    const spread = (block === undefined ? 0 : (shared.get(block) ?? 0)) + ownPart * draws.normal();
    const record: Wall = {
      wall: `W${numbered(at + 1)}`,
      arm,
      ...(block === undefined ? {} : { block }),
      site: block === undefined ? `house ${numbered(at + 1)}` : `house of ${block}`,
      material: 'brick in lime mortar',
      thickness_mm: 330,
      dryDensity_kg_m3: 1700,
      treatedOn: treatmentDays[at < perArm ? 0 : 1],
      origin: { file: 'walls.csv', row: at + 2 },
    };
    const change = SPREAD.wallChange * draws.normal() + (arm === 'device' ? effect : 0);
    return { record, level: LEVEL + SPREAD.wall * spread, change };
  });
}

interface Place {
  readonly arm: string;
  readonly block?: string;
}

/** Arms at random: among all walls, or inside each pair or block. */
function inBlocks({ design, perArm, arms }: Base, draws: Draws): readonly Place[] {
  if (design !== 'complete') {
    const size = sizes[design];
    const half = Array.from({ length: size }, (_, place) => (place < size / 2 ? 'device' : 'sham'));
    return Array.from({ length: (2 * perArm) / size }, (_, at) => `B${numbered(at + 1)}`).flatMap((block) =>
      inRandomOrder(half, draws).map((arm) => ({ arm, block })),
    );
  }
  const of = (arm: string, count: number) => Array.from({ length: count }, () => arm);
  const untreated =
    arms === 'sham-and-control'
      ? [...of('sham', perArm / 2), ...of('bare', perArm / 2)]
      : [
          ...of('sham', perArm),
          ...(arms === 'two-treatments' ? of('box', perArm) : arms === 'walls-outside' ? of('inner', perArm) : []),
        ];
  return inRandomOrder([...of('device', perArm), ...untreated], draws).map((arm) => ({ arm }));
}

function numbered(number: number): string {
  return String(number).padStart(2, '0');
}
