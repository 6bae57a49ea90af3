import type { Trial, Wall } from '../../../src/trial/index.js';
import { MARGIN } from './base.js';
import { atSites, isTreated, keepWalls, meansOfWalls, moved, withProtocol, withWalls } from './change-trial.js';
import { dropStatement } from './drop-statement.js';
import { type Fault, walls } from './fault.js';

const masses = 'cores.wet_g';
const ofOneSide = ['walls', 'stations', 'cores', 'climate', 'beliefs'];
const domain = 'allocation';

const chosen = (trial: Trial): Trial =>
  withProtocol(trial, { allocation: { ...trial.protocol.allocation, method: 'chosen' } });

/** The same walls, with the arms given anew: nothing was done to the walls that a sham or a device without effect does. */
function armsBy(trial: Trial, treated: ReadonlySet<string>): Trial {
  return withWalls(trial, (wall) => ({ ...wall, arm: treated.has(wall.wall) ? 'device' : 'sham' }));
}

/** The wetter wall of each pair is treated; it was wetter that spring and is no longer so a year on. */
function wetterOfPairs(trial: Trial): Trial {
  const before = meansOfWalls(trial, 'before');
  const level = ({ wall }: Wall) => before.get(wall) ?? 0;
  const partner = (own: Wall) => trial.walls.find(({ block, wall }) => block === own.block && wall !== own.wall) ?? own;
  const wetter = new Set(trial.walls.flatMap((wall) => (level(wall) > level(partner(wall)) ? wall.wall : [])));
  return moved(armsBy(trial, wetter), ({ isAfter, wall }) => (isAfter ? level(partner(wall)) - level(wall) : 0));
}

/** The wettest half is treated, and half of what set a wall apart is gone a year on. */
function wettestTreated(trial: Trial): Trial {
  const before = meansOfWalls(trial, 'before');
  const order = [...before].sort(([, one], [, other]) => other - one).map(([wall]) => wall);
  const wettest = new Set(order.slice(0, order.length / 2));
  const middle = [...before.values()].reduce((sum, value) => sum + value, 0) / before.size;
  return moved(armsBy(chosen(trial), wettest), ({ isAfter, wall }) =>
    isAfter ? (middle - (before.get(wall.wall) ?? middle)) / 2 : 0,
  );
}

export const faultsOfAllocation: readonly Fault[] = [
  {
    ...{ name: 'no-untreated-walls', domain, codes: ['no-untreated-walls'], in: walls(), changes: ofOneSide },
    planted: 'all walls treated',
    plant: (trial) => keepWalls(trial, (wall) => isTreated(trial, wall)),
  },
  {
    ...{ name: 'no-treated-walls', domain, codes: ['no-treated-walls'], in: walls(), changes: ofOneSide },
    planted: 'no wall treated',
    plant: (trial) => keepWalls(trial, (wall) => !isTreated(trial, wall)),
  },
  {
    ...{ name: 'one-wall-an-arm', domain, codes: ['one-wall-an-arm'], in: walls(), changes: ofOneSide },
    planted: 'one treated and one untreated wall',
    plant: (trial) => {
      const firstOf = (side: boolean) => trial.walls.find((wall) => isTreated(trial, wall) === side)?.wall;
      return keepWalls(trial, ({ wall }) => wall === firstOf(true) || wall === firstOf(false));
    },
  },
  {
    ...{ name: 'house-by-arm', domain, codes: ['one-wall-an-arm', 'walls-of-one-house'], in: walls() },
    planted: 'all treated walls in one house, which dries by 2, all untreated in another',
    changes: ['walls.site', 'climate', masses],
    plant: (trial) =>
      moved(
        atSites(trial, (wall) => (isTreated(trial, wall) ? 'house A' : 'house B')),
        (taken) => (taken.isTreated && taken.isAfter ? -MARGIN : 0),
      ),
  },
  {
    ...{ name: 'houses-by-arm', domain, codes: ['walls-of-one-house', 'too-few-walls'], in: walls() },
    planted: 'two houses treated, two not, four walls each; houses change with a standard deviation of 1.5',
    changes: ['walls.site', 'climate', masses],
    plant: (trial, { normal }) => {
      const counted = { device: 0, sham: 0 };
      const houses = trial.walls.map(({ arm }) => {
        const side = arm === 'device' ? 'device' : 'sham';
        counted[side] += 1;
        return `house ${side === 'device' ? 'A' : 'B'}${counted[side] > 4 ? 2 : 1}`;
      });
      const own = new Map([...new Set(houses)].map((house) => [house, 1.5 * normal()]));
      return moved(
        atSites(trial, (_, at) => houses[at] ?? ''),
        ({ isAfter, wall }) => (isAfter ? (own.get(wall.site ?? '') ?? 0) : 0),
      );
    },
  },
  {
    ...{ name: 'blocks-by-arm', domain, codes: ['one-wall-an-arm', 'walls-of-one-house'], in: walls() },
    planted: 'two blocks, of one arm each',
    changes: ['walls.block', 'protocol.allocation.method'],
    plant: (trial) =>
      withProtocol(
        withWalls(trial, (wall) => ({ ...wall, block: isTreated(trial, wall) ? 'north' : 'south' })),
        { allocation: { ...trial.protocol.allocation, method: 'randomised-in-blocks' } },
      ),
  },
  {
    ...{ name: 'not-randomised', domain, codes: ['not-randomised'], in: walls() },
    planted: 'treated walls chosen, on the side that dries by 2 anyway',
    changes: ['protocol.allocation.method', masses],
    plant: (trial) => moved(chosen(trial), (taken) => (taken.isTreated && taken.isAfter ? -MARGIN : 0)),
  },
  {
    ...{ name: 'allocation-not-stated', domain, codes: ['allocation-not-stated'], in: walls() },
    planted: 'nobody named who drew lots',
    changes: ['protocol.allocation.by'],
    plant: (trial) => dropStatement(trial, 'allocation by'),
  },
  {
    ...{ name: 'before-values-unlike', domain, codes: ['before-values-unlike'], in: walls() },
    planted: 'treated walls 3.5 wetter at the start, by 1.5 only a year on',
    changes: [masses],
    plant: (trial) => moved(trial, (taken) => (taken.isTreated ? (taken.isAfter ? 1.5 : 3.5) : 0)),
  },
  {
    ...{ name: 'wetter-of-pairs', domain, codes: ['before-values-unlike'], in: walls({ design: 'pairs' }) },
    planted: 'the wall of each pair treated that was wetter at the time',
    changes: ['walls.arm', masses],
    plant: wetterOfPairs,
  },
  {
    ...{ name: 'treated-walls-wettest', domain, codes: ['treated-walls-wettest'], in: walls() },
    planted: 'the wettest half chosen for treatment; half of the excess is gone a year on',
    changes: ['protocol.allocation.method', 'walls.arm', masses],
    plant: wettestTreated,
  },
  {
    ...{ name: 'walls-chosen-wettest', domain, codes: ['walls-chosen-wettest'], in: walls() },
    planted: 'walls picked for being wet, all of which fall by 1.5',
    changes: ['protocol.selection', masses],
    plant: (trial) => moved(withProtocol(trial, { selection: 'wettest' }), ({ isAfter }) => (isAfter ? -1.5 : 0)),
  },
  {
    ...{ name: 'too-few-walls', domain, codes: ['too-few-walls'], in: walls({ effect: -2 * MARGIN }) },
    planted: 'three walls an arm',
    changes: ofOneSide,
    plant: (trial) => {
      const names = (side: boolean) =>
        trial.walls.filter((wall) => isTreated(trial, wall) === side).map(({ wall }) => wall);
      const kept = new Set([...names(true).slice(0, 3), ...names(false).slice(0, 3)]);
      return keepWalls(trial, ({ wall }) => kept.has(wall));
    },
  },
  {
    ...{ name: 'arms-unequal', domain, codes: ['arms-unequal'], in: walls({ effect: -2 * MARGIN }) },
    planted: 'eight treated walls beside four',
    changes: ofOneSide,
    plant: (trial) => {
      const untreated = trial.walls.filter((wall) => !isTreated(trial, wall));
      const gone = new Set(untreated.slice(4).map(({ wall }) => wall));
      return keepWalls(trial, ({ wall }) => !gone.has(wall));
    },
  },
  {
    ...{ name: 'strips-of-one-wall', domain, codes: ['strips-of-one-wall'], in: walls() },
    planted: 'sixteen strips of one wall, the left half treated; change runs along the wall',
    changes: ['walls.arm', 'walls.site', 'walls.neighbours', 'climate', masses],
    plant: (trial, { normal, uniform }) => {
      const last = trial.walls.length - 1;
      const slope = (uniform() < 0.5 ? -1 : 1) * (2 + 0.5 * Math.abs(normal()));
      const strips = withWalls(
        atSites(trial, () => 'the long wall'),
        (wall, at) => ({
          ...{ ...wall, arm: at <= last / 2 ? 'device' : 'sham' },
          neighbours: [trial.walls[at - 1], trial.walls[at + 1]].flatMap((one) => one?.wall ?? []),
        }),
      );
      return moved(strips, ({ isAfter, at }) => (isAfter ? slope * ((2 * at) / last - 1) : 0));
    },
  },
  {
    ...{
      name: 'arms-pooled',
      domain,
      codes: ['arms-pooled'],
      in: walls({ arms: 'two-treatments', effect: -2 * MARGIN }),
    },
    planted: 'two treatments, one of which does nothing, and no word on which is compared',
    changes: ['protocol.compare'],
    plant: (trial) => {
      const { compare: _, ...protocol } = trial.protocol;
      return { ...trial, protocol };
    },
  },
  {
    ...{ name: 'materials-by-arm', domain, codes: ['walls-unlike'], in: walls() },
    planted: 'treated walls of sandstone, which dry by 2, untreated of brick',
    changes: ['walls.material', masses],
    plant: (trial) =>
      moved(
        withWalls(trial, (wall) => (isTreated(trial, wall) ? { ...wall, material: 'sandstone in lime mortar' } : wall)),
        (taken) => (taken.isTreated && taken.isAfter ? -MARGIN : 0),
      ),
  },
  {
    ...{ name: 'thickness-by-arm', domain, codes: ['walls-unlike'], in: walls() },
    planted: 'treated walls of 225 mm, which dry by 2, untreated of 330 mm',
    changes: ['walls.thickness_mm', masses],
    plant: (trial) =>
      moved(
        withWalls(trial, (wall) => (isTreated(trial, wall) ? { ...wall, thickness_mm: 225 } : wall)),
        (taken) => (taken.isTreated && taken.isAfter ? -MARGIN : 0),
      ),
  },
  {
    ...{ name: 'walls-not-described', domain, codes: ['walls-not-described'], in: walls() },
    planted: 'neither material nor thickness stated',
    changes: ['walls.material', 'walls.thickness_mm'],
    plant: (trial) => dropStatement(dropStatement(trial, 'material'), 'thickness'),
  },
];
