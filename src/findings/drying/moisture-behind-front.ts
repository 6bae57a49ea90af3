import type { MoistureBehindFront } from '../../drying/index.js';
import { gravimetricMoisture, toVolumeBasis } from '../../moisture/index.js';
import { daysBetween, isoDay } from '../../plain/days.js';
import { type Trial, weighingOf } from '../../trial/index.js';
import { meanOfWalls } from '../cores/mean-of-walls.js';
import type { SensorAtHeight } from './sensor-at-height.js';

/** Volume by volume, of brick that has sucked itself full (common practice, no source). */
export const assumedMoistureBehindFront = 0.2;

/** With fewer the interval of their mean says next to nothing (our convention). */
const fewestCores = 3;

/** What sorptivity is computed with, and where it comes from. */
export type MoistureOfWall =
  | { readonly from: 'assumed'; readonly value: number }
  | (MoistureBehindFront & { readonly from: 'cores'; readonly cores: number });

/**
 * Water behind the front of a wall from its own cores: those drilled before its treatment, no higher than a sensor which the water had reached
 * by that day, by the wall's dry density. Water that was there before the rise counts with it. The assumed value where there are fewer
 * than three such cores or no density.
 */
export function moistureBehindFrontOf(
  trial: Trial,
  wall: string,
  { firstDay, sensors }: { readonly firstDay: string; readonly sensors: readonly SensorAtHeight[] },
): MoistureOfWall {
  const assumed: MoistureOfWall = { from: 'assumed', value: assumedMoistureBehindFront };
  const { dryDensity_kg_m3, treatedOn } = trial.walls.find((each) => each.wall === wall) ?? {};
  if (dryDensity_kg_m3 === undefined) return assumed;
  const balance = trial.protocol.instruments.find(({ kind }) => kind === 'gravimetric');
  const weighing_g = weighingOf(balance ?? {}, trial.source.massStep_g ?? 0);
  const heights = new Map(
    trial.stations.flatMap((each) => (each.wall === wall ? [[each.station, each.height_mm] as const] : [])),
  );
  const isBehind = (day: string, height_mm: number) =>
    sensors.some(
      (one) => one.kind === 'arrived' && one.height_mm >= height_mm && one.time_d <= daysBetween(firstDay, day),
    );
  const values = trial.cores.flatMap(({ wall: of, date, station, container_g, wet_g, dry_g }) => {
    const day = isoDay(date);
    const height_mm = heights.get(station);
    if (of !== wall || wet_g === undefined || dry_g === undefined || height_mm === undefined) return [];
    if ((treatedOn !== undefined && day >= treatedOn) || !isBehind(day, height_mm)) return [];
    const { value } = gravimetricMoisture({ container_g, wet_g, dry_g }, weighing_g);
    const content = { basis: 'dry', unit: '% by mass', value } as const;
    return [toVolumeBasis(content, { dryDensity_kg_m3 }).value / 100];
  });
  if (values.length < fewestCores) return assumed;
  const { mean, interval } = meanOfWalls(values, trial.protocol.confidence) ?? {};
  if (mean === undefined || interval === undefined || !(interval.lower > 0 && mean < 1)) return assumed;
  return { from: 'cores', value: mean, interval, cores: values.length };
}
