import type { Side } from '../../analysis/index.js';
import { present } from '../../plain/present.js';
import { type SaltIon, saltIons } from '../../trial/index.js';
import { type ContentRange, changeRange, meanRange, rangeOf } from './content-range.js';
import { type PlacedSample, placeOf } from './placed-samples.js';

/** What one wall held of one ion: walls are the units, its places count as one. */
export interface IonOfWall {
  readonly wall: string;
  readonly arm: string;
  readonly side: Side;
  readonly ion: SaltIon;
  /** Means over all its places of a window; absent where none was sampled then. */
  readonly before?: ContentRange;
  readonly after?: ContentRange;
  /** Mean over the places that were sampled in both windows, so that no change is one of places; absent without such a place. */
  readonly change?: ContentRange;
}

/** By wall and ion, what it held before and after. */
export function saltsOfWalls(samples: readonly PlacedSample[]): readonly IonOfWall[] {
  const walls = [...new Set(samples.map(({ sample }) => sample.wall))];
  return walls.flatMap((wall) => {
    const own = samples.filter(({ sample }) => sample.wall === wall);
    return saltIons.flatMap((ion) => ionOfWall(wall, ion, own));
  });
}

function ionOfWall(wall: string, ion: SaltIon, samples: readonly PlacedSample[]): readonly IonOfWall[] {
  const [first] = samples;
  const analysed = samples.filter(({ sample }) => sample.contents_pct[ion].kind !== 'missing');
  if (first === undefined || analysed.length === 0) return [];
  const { arm, side } = first;
  const inWindow = (window: 'before' | 'after', among = analysed) =>
    meanOf(
      among.filter((each) => each.window === window),
      ion,
    );
  const [before, after] = [inWindow('before'), inWindow('after')];
  const changes = [...new Set(analysed.map(placeOf))].flatMap((place) => {
    const there = analysed.filter((each) => placeOf(each) === place);
    const [was, is] = [inWindow('before', there), inWindow('after', there)];
    return was === undefined || is === undefined ? [] : [changeRange(was, is)];
  });
  return [
    {
      ...{ wall, arm, side, ion },
      ...present({ before, after }),
      ...(changes.length === 0 ? {} : { change: meanRange(changes) }),
    },
  ];
}

/** Each place counts once, however often it was sampled. */
function meanOf(samples: readonly PlacedSample[], ion: SaltIon): ContentRange | undefined {
  const places = [...new Set(samples.map(placeOf))].map((place) =>
    meanRange(
      samples
        .filter((each) => placeOf(each) === place)
        .flatMap(({ sample }) => rangeOf(sample.contents_pct[ion]) ?? []),
    ),
  );
  return places.length === 0 ? undefined : meanRange(places);
}
