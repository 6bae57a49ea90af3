/**
 * A wall in cells from the ground up that takes up water at its foot and gives it off through both faces. Capillary rise follows the
 * sharp-front theory; gravity and joints are left out, so that it over-predicts, as that theory does. What the supply no longer
 * reaches dries in two stages: at the rate that the air sets until the critical content, and from there in proportion to what is left
 * above the content at which the wall rests in its air.
 */
export interface WallBody {
  readonly thickness_mm: number;
  /** mm/min^0.5. */
  readonly sorptivity: number;
  /** Water in a wet part, volume by volume, as are the other contents. */
  readonly wet: number;
  /** Below it the surface is dry and drying slows down. */
  readonly critical: number;
  /** Height of one cell. */
  readonly cell_mm: number;
}

/** What works on a wall during one step. */
export interface WallConditions {
  /** Of both faces together, mm of water a day where the surface is wet. */
  readonly evaporation_mm_d: number;
  /** Content at which the wall rests in this air, salts included; below the critical one. */
  readonly atRest: number;
  /** Share of the water that rises from the ground unhindered: 1 without a barrier. */
  readonly supply: number;
  /** Factor on the sorptivity of the masonry: 1 unless it is made water-repellent. */
  readonly sorptivity: number;
}

/** What passed during one step, litres per metre of wall. */
export interface WaterPassed {
  readonly taken_l_m: number;
  readonly givenOff_l_m: number;
}

const minutesInDay = 1440;
/** Of a content, below which a cell stays as it is: a thousandth of a percent by mass. */
const nearlyAtRest = 1e-5;

/**
 * Height that the connected water stands at: cells from the ground up to the first below the critical content, each counted by how full
 * it is.
 *
 * @example frontHeight(new Float64Array([0.2, 0.2, 0.1, 0]), { thickness_mm: 225, sorptivity: 1, wet: 0.2, critical: 0.08, cell_mm: 50 }) // 125
 */
export function frontHeight(cells: Float64Array, { wet, critical, cell_mm }: WallBody): number {
  let filled = 0;
  for (let at = 0; at < cells.length; at++) {
    const content = cells[at] as number;
    filled += content;
    if (content < critical) break;
  }
  return (cell_mm * filled) / wet;
}

/**
 * Takes a wall one step further, in place. Water is neither made nor lost: what the cells gain is what was taken up less what was given
 * off.
 *
 * @param cells water contents from the ground up
 * @param step_d of at most a few days where the wall is to follow the weather
 */
export function stepWall(cells: Float64Array, body: WallBody, conditions: WallConditions, step_d: number): WaterPassed {
  const { thickness_mm, wet, cell_mm } = body;
  const ofCell = thickness_mm * cell_mm;
  let supply = supplied(frontHeight(cells, body), body, conditions, step_d);
  let [taken, givenOff] = [0, 0];
  // A cell that is kept wet gives off at the rate of the air, whatever it held before.
  const most = (conditions.evaporation_mm_d * step_d) / thickness_mm;
  for (let at = 0; at < cells.length; at++) {
    const before = cells[at] as number;
    const wants = (wet - before + most) * ofCell;
    if (supply >= wants) {
      supply -= wants;
      taken += wants;
      givenOff += most * ofCell;
      cells[at] = wet;
      continue;
    }
    if (supply === 0 && Math.abs(before - conditions.atRest) < nearlyAtRest) continue;
    // The last cell that is reached: in part wet and in part dry.
    const share = supply / wants;
    const lost = share * most + (1 - share) * (before - driedContent(before, body, conditions, step_d));
    cells[at] = before + supply / ofCell - lost;
    taken += supply;
    givenOff += lost * ofCell;
    supply = 0;
  }
  return { taken_l_m: taken / 1000, givenOff_l_m: givenOff / 1000 };
}

/** Water that rises in one step, mm² per mm of wall: what fills the way of the front, and what its wet faces give off. */
function supplied(
  height_mm: number,
  { thickness_mm, sorptivity, wet }: WallBody,
  { evaporation_mm_d, supply, sorptivity: factor }: WallConditions,
  step_d: number,
): number {
  const perDay = (supply * (sorptivity * factor) ** 2 * minutesInDay) / wet ** 2;
  const relaxing = (2 * evaporation_mm_d) / (thickness_mm * wet);
  const spent = relaxing * step_d;
  if (perDay === 0) return 0;
  const before = height_mm ** 2;
  // h² of the sharp front after a share of the step; without evaporation it grows with time.
  const heightAfter = (share: number) =>
    Math.sqrt(
      spent < 1e-9
        ? before + share * perDay * step_d
        : before + (perDay / relaxing - before) * -Math.expm1(-share * spent),
    );
  const [middle_mm, next_mm] = [heightAfter(0.5), heightAfter(1)];
  const risen = thickness_mm * wet * (next_mm - height_mm);
  // By Simpson’s rule over the step.
  return Math.max(0, risen + (evaporation_mm_d * step_d * (height_mm + 4 * middle_mm + next_mm)) / 6);
}

/** What a cell holds after drying for a step without supply: first at the rate of the air, then towards rest. */
export function driedContent(
  content: number,
  { thickness_mm, critical }: WallBody,
  { evaporation_mm_d, atRest }: WallConditions,
  step_d: number,
): number {
  const rate = evaporation_mm_d / thickness_mm;
  const first_d = rate === 0 ? step_d : Math.min(step_d, Math.max(0, (content - critical) / rate));
  const left = content - rate * first_d;
  const rest_d = step_d - first_d;
  if (rest_d <= 0 || rate === 0) return left;
  return atRest + (left - atRest) * Math.exp((-rate * rest_d) / (critical - atRest));
}
