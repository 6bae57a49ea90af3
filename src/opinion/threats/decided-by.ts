import {
  assumedWall,
  evaporationInSun_mm_d,
  moistureTransfer_kg_m2_s_pa,
  mostEvaporationUnrecorded_mm_d,
  winterPressure_pa,
} from '../../drying/index.js';
import { type LimitMark, limits } from '../../findings/limits.js';
import { dryingRules, hydratedSalts } from '../../moisture/index.js';
import { leastCoverage } from '../../trial/index.js';

/** A number by which a threat is found or weighed, and how far it can be trusted. */
export interface DecidingFigure {
  readonly says: string;
  readonly value: number;
  readonly unit: string;
  readonly mark: LimitMark | 'from memory' | 'from memory, weak' | 'seen';
}

type LimitName = keyof typeof limits;

const figures = {
  transferOutdoors: {
    says: 'coefficient of moisture transfer between a wet face outdoors and the air',
    value: moistureTransfer_kg_m2_s_pa.outdoors,
    ...{ unit: 'kg/(m² s Pa)', mark: 'from memory' },
  },
  transferIndoors: {
    says: 'coefficient of moisture transfer between a wet face indoors and the air',
    value: moistureTransfer_kg_m2_s_pa.indoors,
    ...{ unit: 'kg/(m² s Pa)', mark: 'from memory' },
  },
  mostEvaporation: {
    says: 'what one wet face can give off at most where no air is on record',
    value: mostEvaporationUnrecorded_mm_d,
    ...{ unit: 'mm a day', mark: 'from memory, weak' },
  },
  sunshine: {
    says: 'what sunshine adds for a wall outdoors, both faces together',
    value: evaporationInSun_mm_d,
    ...{ unit: 'mm a day', mark: 'our convention' },
  },
  density: {
    says: 'dry density of a wall that states none',
    value: assumedWall.density_kg_m3,
    ...{ unit: 'kg/m³', mark: 'our convention' },
  },
  thickness: {
    says: 'thickness of a wall that states none',
    value: assumedWall.thickness_mm,
    ...{ unit: 'mm', mark: 'our convention' },
  },
  faces: { says: 'faces of a wall open to the air', value: assumedWall.faces, ...{ unit: '', mark: 'our convention' } },
  winterPressure: {
    says: 'vapour pressure difference that the wait is computed with where no larger one is on record',
    value: winterPressure_pa,
    ...{ unit: 'Pa', mark: 'our convention' },
  },
  constantMass: {
    says: `change of mass in a day that still counts as constant (${dryingRules['iso-12570'].source.document})`,
    value: dryingRules['iso-12570'].tolerance_pct,
    ...{ unit: '%', mark: dryingRules['iso-12570'].source.mark },
  },
  gypsum: {
    says: 'oven temperature above which gypsum may give off its own water; it depends on how dry the oven is',
    value: hydratedSalts.gypsum.stableUpTo_c,
    ...{ unit: '°C', mark: hydratedSalts.gypsum.source.mark },
  },
  coverage: {
    says: 'share of a day’s readings, below which a sensor’s day is left out',
    value: leastCoverage,
    ...{ unit: '', mark: 'common practice, no source' },
  },
} as const satisfies Readonly<Record<string, DecidingFigure>>;

type FigureName = keyof typeof figures;

const alarms: readonly LimitName[] = ['alarm', 'plainAlarm'];

/** By the code of the search, what decides in it: entries of the table of limits, and further figures. */
const decides: Readonly<Record<string, readonly (LimitName | FigureName)[]>> = {
  'walls-unlike': ['unlikeShare', 'unlikeRatio'],
  'walls-not-described': ['stated'],
  'arms-unequal': ['smallArm', 'armsUnequal'],
  'arms-pooled': alarms,
  'before-values-unlike': ['beforeApart_sd', ...alarms],
  'treated-walls-wettest': ['beforeApart_sd'],
  'conditioned-near-salt': ['nearSalt_pp'],
  'impedance-low': ['impedance_mohm'],
  'last-digits-uneven': ['inventedNumbers', 'coarserSteps'],
  'numbers-copied': ['inventedNumbers'],
  'spread-too-small': ['inventedNumbers'],
  'oven-not-stated': ['stated'],
  'oven-too-hot-for-gypsum': ['gypsum'],
  'dried-unlike': ['ovensApart_c'],
  'not-dried-to-constant-mass': ['dampMargins', 'lastChanges', 'constantMass'],
  'readers-knew': ['knowing', 'stated'],
  'blinding-not-recorded': ['stated'],
  'knew-unsure': ['unsure', 'mostlyUnsure'],
  'readers-changed': ['readersKept'],
  'arms-guessed': alarms,
  'knowing-read-differently': alarms,
  'weighed-and-held': alarms,
  'walls-left-out': ['wallsLostApart'],
  'readings-below-detection': ['belowDetection'],
  'sensor-days-missing': ['sensorDaysLost', 'manySensorDaysLost', 'sensorDaysLostApart', 'coverage'],
  'sensors-drift': ['sensorsDrifting'],
  'stations-lost': ['placesLostApart', 'placesLostFarApart', ...alarms],
  'turns-with-choices': ['choicesKept'],
  'batches-by-arm': ['driedTogether'],
  'salts-unlike': ['saltRatio', 'saltsCount'],
  'salts-changed-unlike': ['saltChange', 'alarm'],
  'dose-below-planned': ['doseOfPlanned'],
  'doses-unlike': ['dosesUnlike'],
  'plaster-unlike': ['plasterApart', 'plasterDaysApart_d'],
  'trays-not-at-rest': ['trayTrend'],
  'trays-unlike': ['trayLevel', 'traySalt'],
  'water-from-elsewhere': ['condensing', 'afterRain'],
  'days-unlike': ['daysApart_d', 'farApart_d'],
  'event-in-one-arm': ['struckShare'],
  'visits-much-alike': ['autocorrelation', 'independentVisits'],
  'not-steady-before': ['steadyMargins', 'alarm'],
  'checks-drift': ['alarm'],
  'walls-too-dry': ['tooDryShare'],
  'after-too-early': ['fallingStage', 'transferIndoors', 'winterPressure', 'density', 'thickness', 'faces'],
  'electrodes-interrupted': ['electrodesOn'],
  'current-fell-away': ['currentKept'],
  'current-reversed': ['currentReversed'],
  'current-in-untreated-walls': ['strayCurrent'],
  'read-after-treatment': ['beforeLost'],
  'treatment-spread': ['spreadOfTreatment_d', 'longSpreadOfTreatment_d'],
  'windows-in-different-months': ['sharedMonths'],
  'air-unlike': ['airRatioLeast', 'airRatioMost'],
  'air-not-recorded': ['airOfWalls', 'underOneRoof'],
  'larger-than-ceiling': [
    ...(['transferOutdoors', 'transferIndoors', 'mostEvaporation', 'sunshine'] as const),
    ...(['density', 'thickness', 'faces'] as const),
  ],
  ...Object.fromEntries(
    ['placebo-dates', 'out-of-reach', 'sham-against-control', 'untreated-outside', 'carry-over'].map((code) => [
      code,
      alarms,
    ]),
  ),
};

/** The codes of all searches in which a number of ours or of the trade decides. */
export const decidedCodes: readonly string[] = Object.keys(decides);

/**
 * The limits and figures by which a threat is found or weighed, each with its mark; none where the numbers of the trial decide alone.
 *
 * @param code of the search
 * @example decidedBy('walls-too-dry')[0].mark // 'our convention'
 */
export function decidedBy(code: string): readonly DecidingFigure[] {
  return (decides[code] ?? []).map(figureOf);
}

function figureOf(name: LimitName | FigureName): DecidingFigure {
  if (isLimit(name)) return { ...limits[name], unit: '' };
  return figures[name];
}

function isLimit(name: string): name is LimitName {
  return Object.hasOwn(limits, name);
}
