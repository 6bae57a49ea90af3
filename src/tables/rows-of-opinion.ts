import type { Answer, Estimate, Primary } from '../analysis/index.js';
import { estimateInWords, labelOf, readingLeftOutInWords, reasonInWords, wallLeftOutInWords } from '../labels/index.js';
import type { Opinion } from '../opinion/index.js';
import { orNull, type Row } from './row.js';

/** The tables of an opinion: what was compared, what came out, what threatens it. */
export interface RowsOfOpinion {
  readonly wall_changes: readonly Row[];
  readonly station_changes: readonly Row[];
  readonly arm_means: readonly Row[];
  /** By arm and height, from the foot up; empty where an arm was read at too many heights for a mean at each. */
  readonly height_means: readonly Row[];
  /** The primary answer first, then the other analyses and the effect sizes. */
  readonly estimates: readonly Row[];
  readonly choices: readonly Row[];
  readonly threats: readonly Row[];
  readonly left_out_walls: readonly Row[];
  readonly left_out_readings: readonly Row[];
}

/**
 * An opinion as flat records, a table for each kind, from which the primary answer can be computed again: `wall_changes` holds the
 * walls that were compared, with their arm, side, block and unit. Columns of one table are the same in every row; `null` stands for
 * what was not estimated.
 *
 * @example rowsOfOpinion(opinion).estimates[0].id // 'wall-change'
 */
export function rowsOfOpinion(opinion: Opinion): RowsOfOpinion {
  const { unit } = opinion.protocol.outcome;
  return {
    wall_changes: opinion.walls.map((one) => ({
      ...{ wall: one.wall, arm: one.arm, side: one.side, block: one.block === '' ? null : one.block },
      counts_as: orNull(unitOf(opinion, one.wall)),
      ...{ before: orNull(one.before), after: one.after, change: one.change, unit },
      ...{ stations: one.stations, places: one.places },
    })),
    station_changes: opinion.stations.map((one) => ({
      ...{ wall: one.wall, station: one.station, height_mm: orNull(one.height_mm), depth_mm: orNull(one.depth_mm) },
      ...{ before: orNull(one.before), after: orNull(one.after), change: changeOf(one), unit },
    })),
    arm_means: opinion.arms.map(({ arm, side, walls, before, after, change }) => ({
      ...{ arm, side, walls, before: orNull(before), after, change, unit },
    })),
    height_means: opinion.heights.flatMap(({ arm, walls, means }) =>
      means.map(({ height_mm, stations, before, after }) => ({
        ...{ arm, walls, height_mm, stations, before, after, change: after - before, unit },
      })),
    ),
    estimates: [
      primaryRow(opinion.primary, unit),
      ...[...opinion.analyses, ...opinion.effectSizes].map((answer) => answerRow(answer)),
    ],
    choices: (opinion.judging?.choices ?? []).map(answerRow),
    threats: opinion.threats.map((one) => ({
      ...{ code: one.code, domain: one.domain, name: one.name, finding: one.finding },
      ...{ seriousness: orNull(one.seriousness), text: one.text, needs: orNull(one.needs) },
      ...{ value: orNull(one.measure?.value), value_unit: orNull(one.measure?.unit) },
      ...{ lower: orNull(one.measure?.interval?.lower), upper: orNull(one.measure?.interval?.upper) },
      p_value: orNull(one.measure?.pValue),
      ...{ direction: one.direction, tipping_point: orNull(one.tippingPoint), remedy: one.remedy },
    })),
    left_out_walls: opinion.leftOutWalls.map(({ wall, reason }) => ({ wall, reason: wallLeftOutInWords(reason) })),
    left_out_readings: opinion.leftOutReadings.flatMap(({ reason, origins }) =>
      origins.map(({ file, row }) => ({ reason: readingLeftOutInWords(reason), file, row })),
    ),
  };
}

function unitOf({ units }: Opinion, wall: string): string | undefined {
  return [...units.members].find(([, walls]) => walls.includes(wall))?.[0];
}

function changeOf({ before, after }: Opinion['stations'][number]): number | null {
  return before === undefined || after === undefined ? null : after - before;
}

function answerRow(answer: Answer): Row {
  if (answer.kind === 'estimated') return estimateRow(answer.estimate);
  const { id, reason } = answer.notEstimated;
  return { ...nothing(id, labelOf(answer.notEstimated), null), why_not: reasonInWords(reason) };
}

function primaryRow(primary: Primary, unit: string): Row {
  if (primary.kind === 'estimated') return estimateRow(primary.estimate);
  return {
    ...nothing('wall-change', labelOf({ id: 'wall-change' }), unit),
    estimate: orNull(primary.difference),
    ...{ walls_treated: primary.walls.treated, walls_untreated: primary.walls.untreated },
    why_not: reasonInWords(primary.reason),
  };
}

function estimateRow(estimate: Estimate): Row {
  const { id, unit, interval, walls } = estimate;
  const { label, quantity, method, assumptions, source } = estimateInWords(estimate);
  return {
    ...{ id, label, quantity, unit, estimate: estimate.estimate },
    ...{ level: orNull(interval?.level), lower: orNull(interval?.lower), upper: orNull(interval?.upper) },
    standard_error: orNull(estimate.standardError),
    degrees_of_freedom: orNull(estimate.degreesOfFreedom),
    p_value: orNull(estimate.pValue),
    ...{ walls_treated: walls.treated, walls_untreated: walls.untreated },
    ...{ method, assumptions: assumptions.join('; '), source: orNull(source) },
    why_not: null,
  };
}

/** The columns of an estimate, with nothing in them. */
function nothing(id: string, label: string, unit: string | null): Row {
  return {
    ...{ id, label, quantity: null, unit, estimate: null, level: null, lower: null, upper: null },
    ...{ standard_error: null, degrees_of_freedom: null, p_value: null, walls_treated: null, walls_untreated: null },
    ...{ method: null, assumptions: null, source: null, why_not: null },
  };
}
