import type { Side } from '../../analysis/index.js';
import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { daySorter, type TrayRecord, type Trial } from '../../trial/index.js';

/** In what the walls of both sides stood, walls as the units; a part is absent where a side has none on record. */
export interface TrayConditions {
  readonly level_mm?: Readonly<Record<Side, number>>;
  /** Share of the records with salt water. */
  readonly salt?: Readonly<Record<Side, number>>;
}

/** Level and water of the trays in both windows; undefined where no wall of the comparison stood in a tray. */
export function trayConditions(trial: Trial, sides: ReadonlyMap<string, Side>): TrayConditions | undefined {
  const sorted = daySorter(trial);
  const rows = (trial.trays ?? []).filter(({ wall, date }) => {
    const window = sides.has(wall) ? sorted(wall, isoDay(date)) : undefined;
    return window === 'before' || window === 'after';
  });
  if (rows.length === 0) return undefined;
  const level_mm = bySide(rows, sides, (row) => row.level_mm);
  const salt = bySide(rows, sides, ({ water }) => (water === undefined ? undefined : Number(water === 'salt')));
  return { ...present({ level_mm, salt }) };
}

/** Means over walls of the walls' own means. */
function bySide(
  rows: readonly TrayRecord[],
  sides: ReadonlyMap<string, Side>,
  numberOf: (row: TrayRecord) => number | undefined,
): Readonly<Record<Side, number>> | undefined {
  const meanOf = (side: Side) => {
    const walls = [...sides].flatMap(([wall, own]) => {
      const values = own === side ? rows.flatMap((row) => (row.wall === wall ? (numberOf(row) ?? []) : [])) : [];
      return values.length === 0 ? [] : [mean(values)];
    });
    return walls.length === 0 ? undefined : mean(walls);
  };
  const [treated, untreated] = [meanOf('treated'), meanOf('untreated')];
  return treated === undefined || untreated === undefined ? undefined : { treated, untreated };
}
