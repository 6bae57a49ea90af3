import type {
  Answer,
  ArmMeans,
  LeftOutReadings,
  LeftOutWall,
  Primary,
  StationChange,
  UnitsOfComparison,
  WallChange,
} from '../analysis/index.js';
import type { AirInWindow } from '../findings/air/air-of-trial.js';
import type { AirRecord } from '../findings/air/air-record.js';
import type { ChangesOfArms } from '../findings/answer/changes-of-arms.js';
import type { ConfidenceCurve } from '../findings/answer/curve-of-primary.js';
import type { RelativeAnswer } from '../findings/answer/relative-change.js';
import type { CoresPart } from '../findings/cores/cores-part.js';
import type { DryingPart } from '../findings/drying/drying-part.js';
import type { WettingPart } from '../findings/drying/wetting-part.js';
import type { ElectricalPart } from '../findings/electrical/electrical-part.js';
import type { WallsInElevation } from '../findings/elevation/walls-in-elevation.js';
import type { HeightsOfArm } from '../findings/heights/heights-of-arms.js';
import type { InjectionOfTrial } from '../findings/injection/injection-of-trial.js';
import type { InstrumentFacts } from '../findings/instruments/instrument-facts.js';
import type { LaboratoryFacts } from '../findings/laboratory/laboratory-of-trial.js';
import type { LaterYear } from '../findings/later-years/later-years.js';
import type { Measurement } from '../findings/measurement.js';
import type { PlasterOfTrial } from '../findings/plaster/plaster-of-trial.js';
import type { PotentialFacts } from '../findings/potentials/potentials-of-trial.js';
import type { SaltsPart } from '../findings/salts/salts-of-trial.js';
import type { SensorPlace } from '../findings/sensor-log/sensor-places.js';
import type { Timeline } from '../findings/timeline.js';
import type { TwoWallSeries } from '../findings/two-walls/two-wall-series.js';
import type { WaterSourcePart } from '../findings/water-source/water-source-of-trial.js';
import type { Commission, Protocol, ReadingLedger, SensorLog, SourceFile } from '../trial/index.js';
import type { Agreement } from './agreement-of-analyses.js';
import type { Judging } from './judging/judging.js';
import type { LockPart } from './lock/lock-part.js';
import type { MarginOrigin } from './margin-of-trial.js';
import type { Threat } from './threats/threat.js';
import type { Verdict } from './verdict.js';

export type { Evidence, Seriousness, Verdict, Weakness } from './verdict.js';

/** Everything that the report shows; no statistic is computed after this. */
export interface Opinion {
  /** The plan, with the margin as a number also where it comes from a pass mark. */
  readonly protocol: Protocol;
  readonly marginOrigin: MarginOrigin;
  readonly fingerprint: string;
  readonly files: readonly SourceFile[];
  /** What of the folder was mended and what was not used; absent of a trial that was not read from one. */
  readonly ledger?: ReadingLedger;
  /** Who wrote the opinion, for whom and on what; absent without `commission.json`. */
  readonly commission?: Commission;
  readonly version: string;
  readonly seed: number;
  readonly verdict: Verdict;
  /** Everything that was looked for, by domain: the one list from which evidence and weaknesses come. */
  readonly threats: readonly Threat[];
  readonly primary: Primary;
  /** The primary answer at every level of confidence; absent where it has no such curve. */
  readonly confidenceCurve?: ConfidenceCurve;
  /** The answer in percent of the before values; absent where the outcome is no moisture by mass, or was not read before. */
  readonly relative?: RelativeAnswer;
  readonly analyses: readonly Answer[];
  /** Whether the analyses with an interval lead to one verdict. */
  readonly agreement: Agreement;
  readonly effectSizes: readonly Answer[];
  readonly walls: readonly WallChange[];
  /** Means over the walls of each arm, treated arms first. */
  readonly arms: readonly ArmMeans[];
  /** Every wall's change by arm, with the arms' means over the units of the comparison, and the means of both sides. */
  readonly changes: ChangesOfArms;
  /** What the walls count as in the comparison. */
  readonly units: Pick<UnitsOfComparison, 'kind' | 'members' | 'isStated'>;
  readonly stations: readonly StationChange[];
  /** Moisture by height for each arm; empty where no station of the comparison has a height. */
  readonly heights: readonly HeightsOfArm[];
  /** Some walls as they stand; absent where no wall's places are known both along it and in height. */
  readonly elevation?: WallsInElevation;
  readonly leftOutWalls: readonly LeftOutWall[];
  readonly leftOutReadings: readonly LeftOutReadings[];
  /** What the reader should know of how moisture was computed, for instance where the balance's resolution comes from. */
  readonly measurement: Measurement;
  /** Every instrument of the protocol, in its order. */
  readonly instruments: readonly InstrumentFacts[];
  readonly timeline: Timeline;
  /** What the cores say beyond the answer; absent where the folder states nothing for it. */
  readonly cores?: CoresPart;
  /** Absent without readings of the air in a window. */
  readonly air?: readonly AirInWindow[];
  /** Absent without `salts.csv`. */
  readonly salts?: SaltsPart;
  /** Hygrometers above 100 %, and the walls’ surfaces; absent without readings of the air. */
  readonly airRecord?: AirRecord;
  /** Where the walls’ water may come from; absent where nothing measured speaks of it. */
  readonly waterSource?: WaterSourcePart;
  /** Every instrument that measures potentials and was read; absent without one. */
  readonly potentials?: readonly PotentialFacts[];
  /** Absent without `electrical.csv`. */
  readonly electrical?: ElectricalPart;
  /** How far apart two walls stood, visit by visit, where the trial has two. */
  readonly series?: TwoWallSeries;
  /** The comparison in years beyond the after window; absent without readings there. */
  readonly laterYears?: readonly LaterYear[];
  /** Absent where the diary notes no work on plaster while the trial ran. */
  readonly plaster?: PlasterOfTrial;
  /** Absent where no treated wall has an injection on record. */
  readonly injection?: InjectionOfTrial;
  /** Curves over time, where the walls were read often enough. */
  readonly drying?: DryingPart;
  /** How water came up before the treatment, where embedded sensors stand at several heights. */
  readonly wetting?: WettingPart;
  /** What trays tell of walls that stood in them; absent without `trays.csv`. */
  readonly laboratory?: LaboratoryFacts;
  /** Absent without a sensor log. */
  readonly sensorLog?: SensorLog;
  /** Where the sensors of the log sit, by wall and from the top down; absent without a log. */
  readonly sensorPlaces?: readonly SensorPlace[];
  /** Every other defensible answer, further outcomes, the pass mark and stand-ins. */
  readonly judging?: Judging;
  /** The seal of the plan, what departs from it, and the verdict as locked; absent without `lock.json`. */
  readonly lock?: LockPart;
}
