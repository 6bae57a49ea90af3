import { mutationsOf } from '../mutation.mjs';

const file = 'src/findings/limits.ts';

/** A limit moved by a tenth or so, or by one of what it counts (a day, one wall of ten): a case must stand closer to it, on either side. */
const limit = (name, value, moved) => [
  [`${name}: {\n    value: ${value},`, `${name}: {\n    value: ${moved},`],
];
const shortLimit = (name, value, moved) => [[`${name}: { value: ${value},`, `${name}: { value: ${moved},`]];

const threats = (name) => `opinion/threats/${name}.test.ts`;

export const limitsList = [
  ...mutationsOf(file, threats('allocation'), [
    ...limit('beforeApart_sd', '0.5', '0.55'),
    ...limit('unlikeShare', '0.5', '0.6'),
    ...limit('unlikeRatio', '1.2', '1.25'),
    ...limit('smallArm', '6', '7'),
    ...limit('armsUnequal', '2', '1.8'),
    ...limit('stated', '0.9', '0.95'),
  ]),
  ...mutationsOf(file, threats('timing'), [
    ...limit('alarm', '0.03', '0.035'),
    ...shortLimit('plainAlarm', '0.01', '0.012'),
    ...limit('spreadOfTreatment_d', '60', '61'),
    ...shortLimit('longSpreadOfTreatment_d', '180', '181'),
    ...limit('daysApart_d', '7', '8'),
    ...shortLimit('farApart_d', '21', '22'),
    ...limit('sharedMonths', '0.5', '0.55'),
    ...limit('struckShare', '0.2', '0.22'),
    ...limit('plasterApart', '0.2', '0.22'),
    ...limit('plasterDaysApart_d', '30', '31'),
    ...limit('doseOfPlanned', '0.9', '0.92'),
    ...limit('dosesUnlike', '1.5', '1.6'),
    ...limit('electrodesOn', '0.8', '0.85'),
    ...limit('currentKept', '0.5', '0.55'),
    ...limit('currentReversed', '0.05', '0.06'),
    ...limit('strayCurrent', '0.05', '0.06'),
    ...limit('beforeLost', '0.5', '0.55'),
    ...limit('steadyMargins', '1', '1.1'),
    ...limit('trayTrend', '0.1', '0.13'),
    ...limit('trayLevel', '5', '6'),
    ...limit('traySalt', '0.1', '0.12'),
    ...limit('airRatioLeast', '0.8', '0.78'),
    ...shortLimit('airRatioMost', '1.25', '1.3'),
    ...limit('airOfWalls', '0.25', '0.3'),
    ...limit('underOneRoof', '0.9', '0.95'),
    ...limit('tooDryShare', '0.25', '0.3'),
  ]),
  ...mutationsOf(file, threats('missing'), [
    ...limit('wallsLostApart', '0.1', '0.12'),
    ...limit('placesLostApart', '0.1', '0.12'),
    ...shortLimit('placesLostFarApart', '0.25', '0.3'),
    ...limit('belowDetection', '0.1', '0.12'),
    ...limit('sensorDaysLost', '0.1', '0.11'),
    ...shortLimit('manySensorDaysLost', '0.25', '0.28'),
    ...limit('sensorDaysLostApart', '0.1', '0.12'),
  ]),
  ...mutationsOf(file, threats('measurement'), [
    ...limit('inventedNumbers', '0.001', '0.0012'),
    ...limit('coarserSteps', '1.5', '1.6'),
    ...limit('sensorsDrifting', '0.2', '0.25'),
    ...limit('knowing', '0.1', '0.12'),
    ...limit('unsure', '0.1', '0.15'),
    ...shortLimit('mostlyUnsure', '0.5', '0.55'),
    ...limit('readersKept', '0.5', '0.4'),
    ...limit('ovensApart_c', '5', '6'),
    ...limit('driedTogether', '0.1', '0.12'),
    ...limit('dampMargins', '0.5', '0.55'),
    ...limit('lastChanges', '3', '3.3'),
    ...limit('nearSalt_pp', '1', '1.1'),
    ...limit('saltRatio', '2', '2.2'),
    ...limit('saltsCount', '1', '1.1'),
    ...limit('saltChange', '0.25', '0.28'),
    ...limit('impedance_mohm', '10', '11'),
    ...limit('autocorrelation', '0.3', '0.33'),
    ...limit('independentVisits', '4', '4.4'),
  ]),
  ...mutationsOf(file, threats('result'), [...limit('choicesKept', '0.75', '0.8')]),
];
