import type { Commission } from './commission.js';
import type { ElectricalRecord } from './electrical.js';
import type { PlanLock } from './plan-lock.js';
import type { Protocol, Windows } from './protocol.js';
import type { ReadingLedger } from './reading-ledger.js';
import type { Recorded, RowOrigin } from './recorded.js';
import type { SaltSample } from './salts.js';
import type { SensorLog } from './sensor-log.js';

export type { Recorded, RowOrigin } from './recorded.js';

/** A trial as planned and recorded, checked as a whole: every name in it refers to something that exists. */
export interface Trial {
  readonly protocol: Protocol;
  readonly walls: readonly Wall[];
  /** Empty when the folder has no `stations.csv`: any station name in the readings is then a station. */
  readonly stations: readonly Station[];
  readonly readings: readonly Reading[];
  readonly cores: readonly Core[];
  /** Absent when the folder has no `batches.csv`. */
  readonly batches?: readonly DryingBatchRecord[];
  readonly climate: readonly ClimateReading[];
  /** Absent when the folder has no `salts.csv`. */
  readonly salts?: readonly SaltSample[];
  readonly beliefs: readonly Belief[];
  readonly events: readonly DiaryEvent[];
  /** Absent when the folder has no `injection.csv`. */
  readonly injections?: readonly Injection[];
  /** Absent when the folder has no `checks.csv`. */
  readonly checks?: readonly BlockCheck[];
  /** Absent when the folder has no `trays.csv`. What the plan reads from trays is among the readings. */
  readonly trays?: readonly TrayRecord[];
  /** Absent when the folder has no `electrical.csv`. */
  readonly electrical?: readonly ElectricalRecord[];
  /** Absent without a sensor log. Its daily means are among the readings. */
  readonly sensorLog?: SensorLog;
  /** Who wrote the opinion, for whom and on what. Absent without `commission.json`. */
  readonly commission?: Commission;
  /** The plan as it was sealed; absent when the folder has no `lock.json`. */
  readonly lock?: PlanLock;
  readonly source: TrialSource;
}

export interface Wall {
  readonly wall: string;
  readonly arm: string;
  readonly block?: string;
  readonly site?: string;
  readonly material?: string;
  readonly thickness_mm?: number;
  /** Of one face, for the water of a whole wall. */
  readonly area_m2?: number;
  /** Of the dry masonry as a whole, joints included: turns percent by mass into kilograms of water. */
  readonly dryDensity_kg_m3?: number;
  /** Moisture content at saturation, % by mass on the dry basis: turns moisture into a degree of saturation. */
  readonly saturated_pct?: number;
  /** Weather, sun, ground: whatever sets walls apart that are built alike; free words. */
  readonly exposure?: string;
  /** ISO date of the treatment. */
  readonly treatedOn?: string;
  /** Its own before and after window, where walls were treated one after the other; absent: the plan's. */
  readonly windows?: Windows;
  /** Walls that share masonry, ground or air with it, so that what is done to one may reach the other. */
  readonly neighbours?: readonly string[];
  readonly origin: RowOrigin;
}

export interface Station {
  readonly station: string;
  readonly wall: string;
  readonly height_mm?: number;
  /** From the front face; the middle of the interval where only that is stated. */
  readonly depth_mm?: number;
  /** What a core takes in: from where to where, from the front face. */
  readonly depths_mm?: DepthInterval;
  /** Along the wall, from the origin that the survey chose. */
  readonly position_mm?: number;
  /** What the sensor log calls the sensor at this place. */
  readonly sensor?: string;
  readonly origin: RowOrigin;
}

/** In mm from the front face, through the wall to the far one. */
export interface DepthInterval {
  readonly from: number;
  readonly to: number;
}

/** What the reader knew of the wall's arm when reading. */
export type KnewArm = 'yes' | 'no' | 'unsure';

export interface Reading {
  /** ISO date (or date and time) as recorded; the first ten characters are the day. */
  readonly date: string;
  readonly wall: string;
  /** Empty when the reading is of the wall as a whole. */
  readonly station: string;
  readonly instrument: string;
  readonly value: Recorded;
  /** Of a potential: whether the leads were swapped against the protocol's polarity. Absent: as stated. */
  readonly lead?: 'as-stated' | 'reversed';
  readonly reader?: string;
  readonly knewArm?: KnewArm;
  readonly origin: RowOrigin;
}

/** One weighing of one drilled core: masses in grams, container included in `wet_g`, `dry_g` and `humid_g`. */
export interface Core {
  readonly date: string;
  readonly wall: string;
  readonly station: string;
  readonly sample?: string;
  /** Zero when the column is empty: the masses are then net. */
  readonly container_g: number;
  /** Absent when not recorded: the core then yields no moisture and is listed among what is left out. */
  readonly wet_g?: number;
  readonly dry_g?: number;
  readonly humid_g?: number;
  /** Name of a batch of `batches.csv`. */
  readonly batch?: string;
  readonly reader?: string;
  readonly knewArm?: KnewArm;
  readonly origin: RowOrigin;
}

/** Cores that were dried together, and at which humidity they were weighed humid. */
export interface DryingBatchRecord {
  readonly batch: string;
  readonly oven_c?: number;
  /** In the words of the laboratory. */
  readonly stopRule?: string;
  /** Of the mass, between the last two weighings. */
  readonly lastChange_pct?: number;
  /** Of the mass, between the two weighings before the last, over as long an interval as the last change. */
  readonly changeBefore_pct?: number;
  readonly humidity_pct?: number;
  readonly humidTemperature_c?: number;
  readonly note?: string;
  readonly origin: RowOrigin;
}

export interface ClimateReading {
  readonly time: string;
  readonly place: string;
  readonly temperature_c?: number;
  readonly relative_humidity_pct?: number;
  /** How warm the wall’s surface was there. */
  readonly surface_c?: number;
  /** Rain that fell since the row before of the same place. */
  readonly rain_mm?: number;
  /** Hours for which the heating ran since the row before of the same place. */
  readonly heating_h?: number;
  readonly origin: RowOrigin;
}

/** A reading of an instrument on a block that does not change, to see whether the instrument does. */
export interface BlockCheck {
  readonly date: string;
  readonly instrument: string;
  readonly block: string;
  readonly value: Recorded;
  readonly reader?: string;
  readonly origin: RowOrigin;
}

export type TrayWater = 'tap' | 'salt';

/** A wall or specimen that stands in a tray of water, on a day. */
export interface TrayRecord {
  readonly date: string;
  readonly wall: string;
  /** Water that brought the tray back to its level, since the row before of the same wall. */
  readonly refill_ml?: number;
  /** Of the whole specimen. */
  readonly mass_kg?: number;
  /** Of the water in the tray, after the refill; 0 from when the tray was emptied. */
  readonly level_mm?: number;
  readonly water?: TrayWater;
  readonly reader?: string;
  readonly knewArm?: KnewArm;
  readonly origin: RowOrigin;
}

export type Role = 'reader' | 'occupant' | 'analyst';

/** A blinding note: what a person believed about a wall's arm, and when. */
export interface Belief {
  readonly date: string;
  readonly person: string;
  readonly role: Role;
  readonly wall: string;
  /** An arm of the protocol, or `unknown`. */
  readonly believedArm: string;
  readonly why?: string;
  /** ISO day of the readings that the note speaks of. */
  readonly readingDate?: string;
  readonly origin: RowOrigin;
}

/** What was injected into a wall in one go; a second pass is a record of its own, and what a wall was given adds up. */
export interface Injection {
  /** ISO day. */
  readonly date: string;
  readonly wall: string;
  /** What the maker printed on the drum. */
  readonly lot?: string;
  /** Litres for each metre of the wall’s length. */
  readonly litres_per_m: number;
  /** Litres for each metre that the plan or the maker asks for, in all. */
  readonly plannedLitres_per_m?: number;
  /** From hole to hole. */
  readonly spacing_mm?: number;
  readonly depth_mm?: number;
  /** Of the masonry at the holes when it was injected, percent by mass. */
  readonly moisture_pct?: number;
  readonly origin: RowOrigin;
}

export type EventKind =
  | 'installed'
  | 'heating'
  | 'ventilation'
  | 'plaster-stripped'
  | 'replastered'
  | 'leak'
  | 'flood'
  | 'sensor-moved'
  | 'instrument-changed'
  | 'unblinded'
  | 'other';

export interface DiaryEvent {
  readonly date: string;
  /** Absent: the event struck every wall. */
  readonly wall?: string;
  readonly kind: EventKind;
  readonly note: string;
  readonly origin: RowOrigin;
}

/** How the folder was read, for the report. */
export interface TrialSource {
  /** SHA-256 over the contract's files: see `records/fingerprint.ts`. */
  readonly fingerprint: string;
  readonly files: readonly SourceFile[];
  /**
   * Smallest step seen in the masses of `cores.csv`, in grams (0.01 when the most decimals written are two).
   * Absent without cores. Stands in for the balance's resolution where the protocol states none.
   */
  readonly massStep_g?: number;
  /** What was understood and what was not used. Absent from a trial that no folder was read for. */
  readonly ledger?: ReadingLedger;
}

export interface SourceFile {
  /** For instance `readings.csv`, or `trial.xlsx / readings`. */
  readonly file: string;
  readonly rows: number;
  /** What was detected; absent for JSON and spreadsheets. */
  readonly separator?: 'comma' | 'semicolon';
  readonly decimal?: 'point' | 'comma';
}
