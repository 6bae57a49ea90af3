import {
  type DryMass,
  hiddenDrift,
  isMoistureError,
  type ReusedCore,
  reusedCoreMoisture,
  type SerialCorrelation,
  serialCorrelation,
} from '../../moisture/index.js';
import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { effectiveSampleSize, median } from '../../statistics/index.js';
import type { Core, Trial } from '../../trial/index.js';
import { answerCorrected } from './answer-corrected.js';
import type { ArmName, ReusedCoresFacts } from './cores-part.js';
import type { PlacedCore } from './placed-cores.js';

/**
 * New cores may bear an old one's name. A core that went back weighs about the same dry at every visit; within this share of
 * the first dry mass it is taken as one core. Our own rule, no source.
 */
const sameCore_share = 0.02;

interface Reused extends ArmName {
  readonly wall: string;
  readonly core: ReusedCore;
  /** The row of each weighing. */
  readonly rows: readonly Core[];
}

/** Cores weighed on several days under one name at one place; nothing where there are none. */
export function reusedCores(trial: Trial, cores: readonly PlacedCore[]): ReusedCoresFacts | undefined {
  const named = cores.filter(({ core }) => core.sample !== undefined);
  const groups = groupBy(named, ({ core }) => `${core.wall}\u0000${core.station}\u0000${core.sample}`);
  const reused = [...groups.values()].flatMap(reusedCore);
  if (reused.length === 0) return undefined;
  const visits = reused.map(({ core }) => core.weighings.length);
  const hidden = hiddenIn(reused.filter(({ core }) => core.dryMasses.length === 1));
  const corrected = correctedIn(
    trial,
    reused.filter(({ core }) => core.dryMasses.length > 1),
  );
  return {
    cores: reused.length,
    walls: new Set(reused.map(({ wall }) => wall)).size,
    visits: { fewest: Math.min(...visits), most: Math.max(...visits) },
    ...present({ hidden, corrected }),
    serial: serialByArm(reused),
  };
}

function reusedCore(rows: readonly PlacedCore[]): readonly Reused[] {
  const byDay = [...rows].sort((one, other) => (one.day < other.day ? -1 : 1));
  const [first] = byDay;
  if (first === undefined || new Set(byDay.map(({ day }) => day)).size < 2) return [];
  const weighings = [...groupBy(byDay, ({ day }) => day).values()].flatMap(([row]) =>
    row === undefined
      ? []
      : [{ day: row.day, mass_g: net(row, row.core.wet_g), dry_g: net(row, row.core.dry_g), row: row.core }],
  );
  const dry_g = net(first, first.core.dry_g);
  if (weighings.some((each) => Math.abs(each.dry_g - dry_g) > sameCore_share * dry_g)) return [];
  const later = weighings.filter((each, at) => at > 0 && each.dry_g !== weighings[at - 1]?.dry_g);
  const dryMasses: readonly [DryMass, ...DryMass[]] = [
    { day: first.day, dry_g },
    ...later.map((each) => ({ day: each.day, dry_g: each.dry_g })),
  ];
  const core = {
    core: first.core.sample ?? '',
    dryMasses,
    weighings: weighings.map(({ day, mass_g }) => ({ day, mass_g })),
    weighing_g: first.weighing_g,
  };
  const recorded = weighings.map(({ row }) => row);
  return [{ arm: first.wall.arm, side: first.side, wall: first.wall.wall, core, rows: recorded }];
}

function net({ core }: PlacedCore, mass_g = 0): number {
  return mass_g - core.container_g;
}

function hiddenIn(cores: readonly Reused[]): ReusedCoresFacts['hidden'] {
  if (cores.length === 0) return undefined;
  const drifts = cores.map(({ core }) => hiddenDrift(core));
  const size = (of: (drift: (typeof drifts)[number]) => number) => median(drifts.map((drift) => Math.abs(of(drift))));
  return {
    cores: cores.length,
    apparentChange_pp: size((drift) => drift.apparentChange_pp),
    explainedBy_g: size((drift) => drift.explainedBy_g),
    explainedBy_pct: size((drift) => drift.explainedBy_pct),
  };
}

function correctedIn(trial: Trial, cores: readonly Reused[]): ReusedCoresFacts['corrected'] {
  if (cores.length === 0) return undefined;
  const corrections = cores.flatMap(({ core }) =>
    reusedCoreMoisture(core).flatMap(({ moisture }) =>
      moisture.kind === 'corrected' ? [Math.abs(moisture.correction_pp)] : [],
    ),
  );
  const answer = answerCorrected(trial, dryMassesAtVisits(cores));
  return { cores: cores.length, largest_pp: Math.max(...corrections), ...present({ answer }) };
}

/** Gross, by row; rows after a core's last drying keep theirs. */
function dryMassesAtVisits(cores: readonly Reused[]): ReadonlyMap<Core, number> {
  return new Map(
    cores.flatMap(({ core, rows }) =>
      reusedCoreMoisture(core).flatMap(({ moisture }, at) => {
        const row = rows[at];
        if (row === undefined || moisture.kind !== 'corrected') return [];
        return [[row, row.container_g + moisture.dry_g] as const];
      }),
    ),
  );
}

/** Of the cores of an arm that were weighed on the days on which most of its cores were. */
function serialByArm(reused: readonly Reused[]): ReusedCoresFacts['serial'] {
  return [...groupBy(reused, ({ arm }) => arm).values()].flatMap((own) => {
    const byDays = groupBy(own, ({ core }) => core.weighings.map(({ day }) => day).join());
    const largest = [...byDays.values()].sort((one, other) => other.length - one.length)[0] ?? [];
    const [first] = largest;
    const series = largest.map(({ core }) => reusedCoreMoisture(core).map(({ apparent_pct }) => apparent_pct));
    const serial = serialOf(series);
    if (first === undefined || serial === undefined) return [];
    const { lagOne, cores, visits, expectedIfIndependent } = serial;
    const independentVisits = Math.min(visits, effectiveSampleSize(visits, lagOne));
    return [{ arm: first.arm, side: first.side, lagOne, cores, visits, independentVisits, expectedIfIndependent }];
  });
}

function serialOf(series: readonly (readonly number[])[]): SerialCorrelation | undefined {
  return unlessRefused(isMoistureError, () => serialCorrelation(series));
}
