import type { Air } from '../../moisture/index.js';
import { integerBelow, normalDraws, type RandomStream, randomStream, uniform } from '../../statistics/index.js';
import { assumed } from './assumed-wall.js';
import { type CoursesOfWall, coursesOfWall, type WallWeather, wanderOfWall } from './course-of-wall.js';
import { airInWeek, evaporationIn } from './simulated-air.js';
import { treatedWeek, visitWeeks, weeks } from './simulated-days.js';
import { checkDesign, type SimulatedDesign } from './simulated-design.js';
import { type SimulatedWall, simulatedWalls } from './simulated-walls.js';

/** The weeks of the visits in each window. */
export interface Visits {
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/** A wall with its courses. */
export interface FollowedWall extends CoursesOfWall {
  readonly wall: SimulatedWall;
  readonly leak?: WallWeather['leak'];
  /** Not read after the treatment. */
  readonly isLost: boolean;
}

/** What one look at a station showed, before an instrument makes a number of it. */
export interface Seen {
  readonly wall: SimulatedWall;
  readonly visit: number;
  readonly week: number;
  readonly isAfter: boolean;
  readonly reader: string;
  readonly knewArm: 'yes' | 'no';
  /** Which of the design’s heights. */
  readonly station: number;
  /** % by mass at the spot, with what a knowing reader shaves. */
  readonly moisture: number;
}

/** A trial followed to its end: what happened to its walls, and what was seen of it. */
export interface FollowedTrial {
  readonly visits: Visits;
  readonly air: readonly Air[];
  readonly walls: readonly FollowedWall[];
  readonly seen: readonly Seen[];
}

/** No wall in a building is dried below this by the air. */
const driest_pct = 0.3;

/**
 * Follows the walls of a trial and looks at them. The same seed and design give the same.
 *
 * @throws RangeError for a design that cannot be simulated
 */
export function followTrial(
  design: SimulatedDesign,
  seed: number,
  { withTruth }: { readonly withTruth: boolean },
): FollowedTrial {
  checkDesign(design);
  const stream = randomStream(seed);
  const walls = simulatedWalls(design, stream);
  const visits = visitWeeks(design.visits);
  const air = Array.from(normalDraws(stream, weeks + 1), (draw, week) => airInWeek(week, design.season, draw));
  const evaporation_mm_d = Float64Array.from(air, evaporationIn);
  const struck = new Set(Array.from({ length: design.leaks }, () => integerBelow(stream, walls.length)));
  const lost = lostWalls(design, walls, stream);
  const followed = walls.map((wall, at): FollowedWall => {
    const wander = wanderOfWall(design, stream);
    const from = treatedWeek + 1 + integerBelow(stream, weeksUntilLeak);
    const leak = struck.has(at) ? { leak: { from, to: from + weeksOfLeak } } : {};
    const treatment = wall.isTreated ? design.treatment : ({ kind: 'nothing' } as const);
    const weather = { evaporation_mm_d, wander, ...leak };
    const following = { visits: [...visits.before, ...visits.after], treatment, withTruth };
    return { wall, ...coursesOfWall(design, wall, weather, following), ...leak, isLost: lost.has(wall) };
  });
  return { visits, air, walls: followed, seen: seenOf(design, followed, visits, stream) };
}

const weeksUntilLeak = 30;
const weeksOfLeak = 8;

/** At random, whatever their arm; at least two of each arm stay. */
function lostWalls(
  { dropOut }: SimulatedDesign,
  walls: readonly SimulatedWall[],
  stream: RandomStream,
): ReadonlySet<SimulatedWall> {
  const left = new Map([true, false].map((side) => [side, walls.filter(({ isTreated }) => isTreated === side).length]));
  const lost = new Set<SimulatedWall>();
  for (const wall of walls) {
    const some = left.get(wall.isTreated) ?? 0;
    if (uniform(stream) >= dropOut || some <= 2) continue;
    lost.add(wall);
    left.set(wall.isTreated, some - 1);
  }
  return lost;
}

function seenOf(
  design: SimulatedDesign,
  followed: readonly FollowedWall[],
  { before, after }: Visits,
  stream: RandomStream,
): readonly Seen[] {
  const { readersKnow, shaved_pp, heights_mm } = design;
  const seen: Seen[] = [];
  for (const [visit, week] of [...before, ...after].entries()) {
    const isAfter = visit >= before.length;
    for (const [at, { wall, recorded, isLost }] of followed.entries()) {
      if (isAfter && isLost) continue;
      const shaved = isAfter && readersKnow !== 'nothing' && wall.isTreated ? shaved_pp : 0;
      const reader = (at + visit) % 2 === 0 ? 'R1' : 'R2';
      const knewArm = isAfter && readersKnow === 'and-say-so' ? 'yes' : 'no';
      const contents = recorded.get(week) ?? [];
      const spots = normalDraws(stream, heights_mm.length);
      for (const [station, content] of contents.entries()) {
        const moisture = Math.max(driest_pct, content - shaved + assumed.spotSpread_pp * (spots[station] as number));
        seen.push({ wall, visit, week, isAfter, reader, knewArm, station, moisture });
      }
    }
  }
  return seen;
}
