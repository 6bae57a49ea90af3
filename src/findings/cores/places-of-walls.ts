import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import type { DepthInterval, Wall } from '../../trial/index.js';
import type { PlacedCore } from './placed-cores.js';

/** A place of a wall, and the means of its cores in both windows. */
export interface PlaceOfWall {
  readonly height_mm: number;
  readonly depth_mm?: number;
  readonly depths_mm?: DepthInterval;
  readonly before_pct: number;
  readonly after_pct: number;
  /** From the balance, of the means. */
  readonly before_pp: number;
  readonly after_pp: number;
}

export interface PlacesOfWall {
  readonly wall: Wall;
  /** Only those with cores in both windows, so that nothing is a change of places. */
  readonly places: readonly PlaceOfWall[];
}

/** By wall, every height (and depth) that was cored before and after. */
export function placesOfWalls(cores: readonly PlacedCore[]): readonly PlacesOfWall[] {
  return [...groupBy(cores, ({ wall }) => wall.wall).values()].flatMap((own) => {
    const [first] = own;
    const places = [...groupBy(own, placeKey).values()].flatMap(placeOf);
    return first === undefined || places.length === 0 ? [] : [{ wall: first.wall, places }];
  });
}

function placeKey({ height_mm, depth_mm, depths_mm }: PlacedCore): string {
  return `${height_mm ?? ''} ${depth_mm ?? ''} ${depths_mm?.from ?? ''} ${depths_mm?.to ?? ''}`;
}

function placeOf(cores: readonly PlacedCore[]): readonly PlaceOfWall[] {
  const [first] = cores;
  const before = cores.filter(({ window }) => window === 'before');
  const after = cores.filter(({ window }) => window === 'after');
  if (first?.height_mm === undefined || before.length === 0 || after.length === 0) return [];
  return [
    {
      height_mm: first.height_mm,
      ...present({ depth_mm: first.depth_mm, depths_mm: first.depths_mm }),
      before_pct: mean(before.map(({ moisture_pct }) => moisture_pct)),
      after_pct: mean(after.map(({ moisture_pct }) => moisture_pct)),
      before_pp: uncertaintyOfMean(before),
      after_pp: uncertaintyOfMean(after),
    },
  ];
}

function uncertaintyOfMean(cores: readonly PlacedCore[]): number {
  return Math.hypot(...cores.map(({ standardUncertainty_pp }) => standardUncertainty_pp)) / cores.length;
}
