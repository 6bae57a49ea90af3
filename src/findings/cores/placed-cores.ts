import type { Side } from '../../analysis/index.js';
import { gravimetricMoisture, weighingUncertainty } from '../../moisture/index.js';
import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { type Core, type DepthInterval, daySorter, isInWindow, type Trial, type Wall } from '../../trial/index.js';

export type WindowName = 'before' | 'after';

/** A weighed core of a wall of the comparison, with its place and what it weighed out to. */
export interface PlacedCore {
  readonly core: Core;
  /** ISO day. */
  readonly day: string;
  readonly wall: Wall;
  readonly side: Side;
  readonly height_mm?: number;
  readonly depth_mm?: number;
  readonly depths_mm?: DepthInterval;
  /** Absent outside both windows of its wall, and on the wrong side of its treatment. */
  readonly window?: WindowName;
  /** Percent by mass on the dry basis, whatever the outcome's unit. */
  readonly moisture_pct: number;
  readonly standardUncertainty_pp: number;
  readonly weighing_g: number;
}

/** The cores that have both masses and stand in a wall of the comparison; none where the protocol names no balance. */
export function placedCores(trial: Trial, sides: ReadonlyMap<string, Side>): readonly PlacedCore[] {
  const { protocol } = trial;
  const balance = protocol.instruments.find(({ kind }) => kind === 'gravimetric');
  if (balance === undefined || trial.cores.length === 0) return [];
  const { standardUncertainty_g: weighing_g } = weighingUncertainty(balance, trial.source.massStep_g ?? 0);
  const walls = new Map(trial.walls.map((wall) => [wall.wall, wall]));
  const sorted = daySorter(trial);
  const stations = new Map(trial.stations.map((each) => [`${each.wall}\u0000${each.station}`, each]));
  return trial.cores.flatMap((core) => {
    const { container_g, wet_g, dry_g } = core;
    const [wall, side] = [walls.get(core.wall), sides.get(core.wall)];
    if (wall === undefined || side === undefined || wet_g === undefined || dry_g === undefined) return [];
    const moisture = gravimetricMoisture({ container_g, wet_g, dry_g }, weighing_g);
    const station = stations.get(`${core.wall}\u0000${core.station}`);
    const day = isoDay(core.date);
    const found = sorted(core.wall, day);
    const window = found === 'before' || found === 'after' ? found : undefined;
    return [
      {
        ...{ core, day, wall, side, weighing_g },
        ...(station?.height_mm === undefined ? {} : { height_mm: station.height_mm }),
        ...(station?.depth_mm === undefined ? {} : { depth_mm: station.depth_mm }),
        ...(station?.depths_mm === undefined ? {} : { depths_mm: station.depths_mm }),
        ...present({ window }),
        moisture_pct: moisture.value,
        standardUncertainty_pp: moisture.standardUncertainty,
      },
    ];
  });
}

/** The window of the plan that a day lies in. */
export function windowOf({ protocol: { windows } }: Trial, day: string): WindowName | undefined {
  if (windows === undefined) return undefined;
  if (isInWindow(day, windows.before)) return 'before';
  return isInWindow(day, windows.after) ? 'after' : undefined;
}
