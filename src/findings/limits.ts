import { fallingStageFactor } from '../drying/index.js';
import { condensingFrom, rainAlarm } from './water-source/signs.js';

/** Where a limit comes from. */
export type LimitMark = 'our convention' | 'common practice, no source' | 'sourced';

interface Limit {
  readonly value: number;
  readonly mark: LimitMark;
  /** What happens on its far side. */
  readonly says: string;
}

/**
 * Every limit by which a threat counts as found, or as serious, in one table. A test stands on either side of each.
 */
export const limits = {
  alarm: {
    value: 0.03,
    mark: 'our convention',
    says: 'a test that should find nothing counts as found below this p-value',
  },
  plainAlarm: { value: 0.01, mark: 'our convention', says: 'and as serious below this one' },
  inventedNumbers: {
    value: 0.001,
    mark: 'our convention',
    says: 'numbers that look copied or invented count as found below this p-value, the number of comparisons allowed for',
  },
  coarserSteps: {
    value: 1.5,
    mark: 'our convention',
    says: 'steps that the balance shows in one step of the masses written down, from which these count as rounded',
  },

  beforeApart_sd: {
    value: 0.5,
    mark: 'our convention',
    says: 'standard deviations between before values of walls that were chosen, from which they count as unlike',
  },
  unlikeShare: {
    value: 0.5,
    mark: 'our convention',
    says: 'share of walls without a counterpart of like material in the other arm, from which chosen arms count as unlike',
  },
  unlikeRatio: {
    value: 1.2,
    mark: 'our convention',
    says: 'ratio of the arms’ mean thickness or density, from which chosen arms count as unlike',
  },

  smallArm: {
    value: 6,
    mark: 'our convention',
    says: 'walls, or what counts as one, of the smaller arm, below which the larger one may be no multiple of it (counted in simulated trials)',
  },
  armsUnequal: {
    value: 2,
    mark: 'our convention',
    says: 'times the walls of such a small arm that the other one has, from which the arms count as unequal',
  },

  spreadOfTreatment_d: {
    value: 60,
    mark: 'our convention',
    says: 'days from the first to the last treatment, beyond which they count as spread',
  },
  longSpreadOfTreatment_d: { value: 180, mark: 'our convention', says: 'and beyond which the spread is serious' },
  daysApart_d: {
    value: 7,
    mark: 'our convention',
    says: 'days between the mean reading days of the arms in a window, beyond which the arms were not read together',
  },
  farApart_d: { value: 21, mark: 'our convention', says: 'and beyond which that is serious' },
  sharedMonths: {
    value: 0.5,
    mark: 'our convention',
    says: 'share of the calendar months of both windows that they have in common, below which the windows differ',
  },
  struckShare: {
    value: 0.2,
    mark: 'our convention',
    says: 'share of an arm’s walls struck by an event on that arm alone, from which it is serious',
  },
  plasterApart: {
    value: 0.2,
    mark: 'our convention',
    says: 'difference between the arms in the share of walls stripped or replastered, from which it is serious',
  },
  plasterDaysApart_d: {
    value: 30,
    mark: 'our convention',
    says: 'days between the arms’ mean days of such work, beyond which it counts as found',
  },
  doseOfPlanned: {
    value: 0.9,
    mark: 'our convention',
    says: 'share of the planned dose below which a wall counts as given less',
  },
  dosesUnlike: {
    value: 1.5,
    mark: 'our convention',
    says: 'ratio of the largest dose of a treated wall to the smallest, from which doses count as widely different',
  },
  electrodesOn: {
    value: 0.8,
    mark: 'our convention',
    says: 'mean share of the planned time for which treated walls’ electrodes must be on record as on, below which the treatment counts as interrupted',
  },
  currentKept: {
    value: 0.5,
    mark: 'our convention',
    says: 'share of the first 30 days’ current that treated walls kept on average, below which it counts as fallen away',
  },
  currentReversed: {
    value: 0.05,
    mark: 'our convention',
    says: 'mean share of the time on against the stated polarity, from which it counts as found',
  },
  strayCurrent: {
    value: 0.05,
    mark: 'our convention',
    says: 'share of the treated walls’ mean current in an untreated wall, from which that wall counts as treated in part',
  },
  beforeLost: {
    value: 0.5,
    mark: 'our convention',
    says: 'share of the treated walls’ before readings lost to their own treatment day, from which the loss is serious',
  },
  steadyMargins: {
    value: 1,
    mark: 'our convention',
    says: 'margins that all walls moved by in the before window, from which they count as not at rest beside untreated walls',
  },
  trayTrend: {
    value: 0.1,
    mark: 'our convention',
    says: 'share of what walls in trays take up or hold, by which it moved in 30 days before the start, from which they were not at rest',
  },
  trayLevel: {
    value: 5,
    mark: 'our convention',
    says: 'mm between the arms’ mean water levels in the trays, from which the arms stood unlike',
  },
  traySalt: {
    value: 0.1,
    mark: 'our convention',
    says: 'difference between the arms in the share of tray records with salt water, from which the arms stood unlike',
  },
  airRatioLeast: {
    value: 0.8,
    mark: 'our convention',
    says: 'change of the evaporation potential beside treated walls over that beside untreated ones, below which the air was unlike',
  },
  airRatioMost: { value: 1.25, mark: 'our convention', says: 'and above which it was unlike as well' },
  airOfWalls: {
    value: 0.25,
    mark: 'our convention',
    says: 'share of the walls of each side with air of their own place on record, from which the air beside both arms counts as recorded',
  },
  underOneRoof: {
    value: 0.9,
    mark: 'our convention',
    says: 'share of the walls that share their site with a wall of the other side, from which both arms count as under one roof',
  },
  fallingStage: {
    value: fallingStageFactor,
    mark: 'our convention',
    says: 'times the first drying stage alone, which a wall is given to lose the margin',
  },
  condensing: {
    value: condensingFrom,
    mark: 'our convention',
    says: 'share of the time before the treatment with the surface below the dew point, from which the walls count as condensing',
  },
  afterRain: {
    value: rainAlarm,
    mark: 'our convention',
    says: 'p-value of the rank correlation of untreated walls’ changes with rain, below which their water counts as following rain',
  },
  tooDryShare: {
    value: 0.25,
    mark: 'our convention',
    says: 'share of an arm’s walls that hold less than the margin, from which the trial cannot show it',
  },

  wallsLostApart: {
    value: 0.1,
    mark: 'our convention',
    says: 'difference between the arms in the share of walls lost, beyond which the loss is serious',
  },
  placesLostApart: {
    value: 0.1,
    mark: 'our convention',
    says: 'difference between the arms in the share of stations lost, at any height or depth, beyond which the loss counts as found',
  },
  placesLostFarApart: { value: 0.25, mark: 'our convention', says: 'and beyond which it is serious' },
  belowDetection: {
    value: 0.1,
    mark: 'our convention',
    says: 'share of outcome readings below the detection limit, from which their loss is serious',
  },
  sensorDaysLost: {
    value: 0.1,
    mark: 'common practice, no source',
    says: 'share of sensor days lost, beyond which the loss counts as found',
  },
  manySensorDaysLost: { value: 0.25, mark: 'common practice, no source', says: 'and beyond which it is serious' },
  sensorDaysLostApart: {
    value: 0.1,
    mark: 'common practice, no source',
    says: 'difference between the arms in the share of sensor days lost, beyond which the loss is serious',
  },
  sensorsDrifting: {
    value: 0.2,
    mark: 'common practice, no source',
    says: 'share of sensors that drift, beyond which the drift is serious',
  },

  stated: {
    value: 0.9,
    mark: 'our convention',
    says: 'share of the compared readings, cores or walls that must state a core item for it to count as stated',
  },
  knowing: {
    value: 0.1,
    mark: 'our convention',
    says: 'share of compared after readings by readers who knew the arm, from which the blinding counts as lost',
  },
  unsure: {
    value: 0.1,
    mark: 'our convention',
    says: 'share of compared after readings by readers who were unsure, beyond which they count as found',
  },
  mostlyUnsure: { value: 0.5, mark: 'our convention', says: 'and from which they are serious' },
  readersKept: {
    value: 0.5,
    mark: 'our convention',
    says: 'share of after readings by readers who also read before, below which the readers have changed',
  },
  ovensApart_c: {
    value: 5,
    mark: 'our convention',
    says: 'degrees between ovens, beyond which cores count as dried unlike',
  },
  driedTogether: {
    value: 0.1,
    mark: 'our convention',
    says: 'share of cores dried together with cores of the other arm, below which each arm counts as dried by itself',
  },
  dampMargins: {
    value: 0.5,
    mark: 'our convention',
    says: 'margins that the water still in them amounts to, from which cores not dried to constant mass are serious',
  },
  lastChanges: {
    value: 3,
    mark: 'our convention',
    says: 'last changes that are taken to be still in a core where the change before is not stated, or hardly larger',
  },
  nearSalt_pp: {
    value: 1,
    mark: 'our convention',
    says: 'points of humidity from where common salt dissolves (75.5 % at 20 °C), within which conditioning counts as near it',
  },
  saltRatio: {
    value: 2,
    mark: 'our convention',
    says: 'ratio of the arms’ mean contents of a salt before the treatment, from which they count as unlike',
  },
  saltsCount: {
    value: 1,
    mark: 'our convention',
    says: 'times the content that the strictest scheme no longer calls low, which the larger mean must reach for that to count',
  },
  saltChange: {
    value: 0.25,
    mark: 'our convention',
    says: 'share of a salt held before by which the arms’ changes must lie apart, beside a p-value below the alarm, to count as unlike',
  },
  impedance_mohm: {
    value: 10,
    mark: 'common practice, no source',
    says: 'megohms of input impedance, below which a potential in masonry counts as loaded by its meter',
  },

  autocorrelation: {
    value: 0.3,
    mark: 'our convention',
    says: 'autocorrelation of two walls’ visits, beyond which their interval may be too short (counted in simulated trials)',
  },
  independentVisits: {
    value: 4,
    mark: 'our convention',
    says: 'independent visits that the shorter window is worth, below which it says next to nothing',
  },
  choicesKept: {
    value: 0.75,
    mark: 'our convention',
    says: 'share of the defensible analyses that must keep the verdict',
  },
} as const satisfies Readonly<Record<string, Limit>>;
