import type { Side } from '../../analysis/index.js';
import { type SaltClass, worstClass, worstIon } from '../../moisture/index.js';
import { type SaltIon, type SaltSchemeName, saltIons, type Trial } from '../../trial/index.js';
import { type ContentRange, meanRange } from './content-range.js';
import { type PlacedSample, placedSamples } from './placed-samples.js';
import { type IonBefore, type IonChange, saltChanges, saltsBefore } from './salts-of-sides.js';
import { type IonOfWall, saltsOfWalls } from './salts-of-walls.js';
import { type SaltsWhenConditioned, saltsWhenConditioned } from './salts-when-conditioned.js';

export interface IonOfArm extends ContentRange {
  readonly ion: SaltIon;
  readonly walls: number;
  /** Samples in which it lay below the detection limit. */
  readonly below: number;
}

/** The walls of an arm by the class of their worst sample and its worst ion. */
interface ClassesOfArm {
  readonly scheme: SaltSchemeName;
  readonly walls: Readonly<Record<SaltClass, number>>;
  /** Ions that gave a wall its class, in how many walls. */
  readonly worst: Readonly<Partial<Record<SaltIon, number>>>;
}

export interface SaltsOfArm {
  readonly arm: string;
  readonly side: Side;
  readonly window: 'before' | 'after';
  readonly walls: number;
  readonly samples: number;
  /** Means over walls. */
  readonly ions: readonly IonOfArm[];
  /** One entry a scheme; none where samples name none. */
  readonly classes: readonly ClassesOfArm[];
}

/** What the salts of a trial say: contents are percent by mass. */
export interface SaltsPart {
  /** Of the comparison’s walls, inside a window. */
  readonly samples: number;
  readonly outside: number;
  readonly arms: readonly SaltsOfArm[];
  readonly before: readonly IonBefore[];
  readonly changes: readonly IonChange[];
  readonly conditioned: readonly SaltsWhenConditioned[];
}

/** Undefined where the folder holds no salts. */
export function saltsOfTrial(trial: Trial, sides: ReadonlyMap<string, Side>): SaltsPart | undefined {
  if (trial.salts === undefined || trial.salts.length === 0) return undefined;
  const samples = placedSamples(trial, sides);
  const walls = saltsOfWalls(samples);
  const arms = (['treated', 'untreated'] as const).flatMap((side) =>
    trial.protocol.arms.filter(({ arm }) => samples.some((each) => each.arm === arm && each.side === side)),
  );
  return {
    samples: samples.length,
    outside: trial.salts.length - samples.length,
    arms: arms.flatMap(({ arm }) =>
      (['before', 'after'] as const).flatMap((window) => armIn(arm, window, samples, walls)),
    ),
    before: saltsBefore(walls),
    changes: saltChanges(walls),
    conditioned: saltsWhenConditioned(trial, samples),
  };
}

function armIn(
  arm: string,
  window: 'before' | 'after',
  samples: readonly PlacedSample[],
  walls: readonly IonOfWall[],
): readonly SaltsOfArm[] {
  const own = samples.filter((each) => each.arm === arm && each.window === window);
  const [first] = own;
  if (first === undefined) return [];
  return [
    {
      ...{ arm, side: first.side, window, samples: own.length },
      walls: new Set(own.map(({ sample }) => sample.wall)).size,
      ions: saltIons.flatMap((ion): IonOfArm[] => {
        const ranges = walls
          .filter((wall) => wall.arm === arm && wall.ion === ion)
          .flatMap((wall) => wall[window] ?? []);
        const below = own.filter(({ sample }) => sample.contents_pct[ion].kind === 'below-detection').length;
        return ranges.length === 0 ? [] : [{ ion, walls: ranges.length, below, ...meanRange(ranges) }];
      }),
      classes: classesOf(own),
    },
  ];
}

function classesOf(samples: readonly PlacedSample[]): readonly ClassesOfArm[] {
  const schemes = [...new Set(samples.flatMap(({ sample }) => sample.scheme ?? []))];
  return schemes.map((scheme): ClassesOfArm => {
    const own = samples.filter(({ sample }) => sample.scheme === scheme);
    const walls = { low: 0, medium: 0, high: 0, unknown: 0 };
    const worst: Partial<Record<SaltIon, number>> = {};
    for (const wall of new Set(own.map(({ sample }) => sample.wall))) {
      const rated = own.flatMap(({ sample }) =>
        sample.wall === wall ? (worstIon(scheme, sample.contents_pct) ?? []) : [],
      );
      const ofWall = worstClass(rated.map((each) => each.class));
      walls[ofWall] += 1;
      // Where all are low, none is worse than the others.
      const ions = rated.flatMap((each) => (ofWall !== 'low' && each.class === ofWall ? each.ions : []));
      for (const ion of new Set(ions)) worst[ion] = (worst[ion] ?? 0) + 1;
    }
    return { scheme, walls, worst };
  });
}
