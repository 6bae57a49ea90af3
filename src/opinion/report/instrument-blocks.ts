import { decimalsFor, formatNumber, formatSigned } from '../../charts/format-number.js';
import { type CalibrationChartData, calibrationChart, describeCalibrationChart } from '../../charts/index.js';
import type { GravimetricBudget, MeterCalibration } from '../../moisture/index.js';
import { predictedAt } from '../../statistics/index.js';
import type {
  CalibratedMaterial,
  Computed,
  DriftFacts,
  InstrumentFacts,
  MaterialCalibration,
} from '../instruments/instrument-facts.js';
import { isMeter } from '../instruments/is-meter.js';
import type { Opinion } from '../opinion.js';
import { levelInWords } from '../words/movement.js';
import { countInWords } from '../words/quantity.js';
import { belowBlocks } from './below-blocks.js';
import { type Block, type Inline, paragraph, quoted, type Table } from './document.js';
import { narrowWidth } from './narrow-width.js';
import { intervalText } from './report-numbers.js';

/** Calibration, drift, agreement, values below detection and the budget of one instrument, under its own heading where there are any. */
export function instrumentBlocks(opinion: Opinion, facts: InstrumentFacts): readonly Block[] {
  const blocks = [
    ...indexBlocks(facts),
    ...facts.calibrations.flatMap((each) => calibrationBlocks(opinion, facts, each)),
    ...driftBlocks(facts, facts.drift),
    ...trackingBlocks(facts),
    ...readersBlocks(facts),
    ...belowBlocks(facts, opinion.protocol.confidence),
    ...(facts.budget === undefined ? [] : budgetBlocks(facts.budget)),
  ];
  if (blocks.length === 0) return [];
  const heading =
    facts.kind === 'gravimetric'
      ? 'The cores: how well one is known'
      : `The ${facts.kind} readings: what they can stand for`;
  return [{ kind: 'subheading', text: heading }, ...blocks];
}

function indexBlocks({ instrument, kind, calibrations }: InstrumentFacts): readonly Block[] {
  if (!isMeter(kind) || calibrations.length > 0) return [];
  return [
    paragraph(
      'The trial has no cores to calibrate ',
      quoted(instrument),
      ' against. It stays an index: it can rank places and show change, and it cannot yield percent.',
    ),
  ];
}

function onMaterial(material: string): readonly Inline[] {
  return material === '' ? ['walls of unnamed material'] : [quoted(material)];
}

function calibrationBlocks(opinion: Opinion, facts: InstrumentFacts, each: MaterialCalibration): readonly Block[] {
  if (each.outcome.kind === 'not-computed')
    return [
      paragraph(
        'Not calibrated on ',
        ...onMaterial(each.material),
        `: ${each.outcome.reason}. `,
        quoted(facts.instrument),
        ' stays an index there: it can rank places and show change, and it cannot yield percent.',
      ),
    ];
  const { calibration, agreement } = each.outcome.value;
  const { line, onUnseenWalls, range } = calibration;
  const decimals = decimalsFor(onUnseenWalls.rootMeanSquare);
  const slope = decimalsFor((line.slopeInterval.upper - line.slopeInterval.lower) / 2);
  return [
    paragraph(
      'Calibrated on ',
      ...onMaterial(each.material),
      ` by ${countInWords(calibration.pairs.length, 'pair')} of core and reading on ${countInWords(calibration.walls, 'wall')}: one ${each.unit} is ${formatNumber(line.slope, slope)} of the index (${levelInWords(line.slopeInterval.level)} interval ${formatNumber(line.slopeInterval.lower, slope)} to ${formatNumber(line.slopeInterval.upper, slope)}, walls as the units). ${ratioInWords(calibration)} It holds from ${formatNumber(range.from, 1)} to ${formatNumber(range.to, 1)} ${each.unit}, and is a guess outside. On walls that it had not seen, moisture by the meter missed that of single cores by ${formatNumber(onUnseenWalls.rootMeanSquare, decimals)} ${each.unit} (root mean square).`,
    ),
    agreementParagraph(agreement, each.unit),
    calibrationFigure(facts, each, calibration, opinion.protocol.confidence),
  ];
}

function ratioInWords({ ratio }: MeterCalibration): string {
  const figure = formatNumber(ratio.errorRatio, 1);
  switch (ratio.from) {
    case 'stated':
      return `Errors in both: the meter’s variance is taken as ${figure} times the cores’, as stated.`;
    case 'repeats':
      return `Errors in both (Deming’s line): repeated visits to the same places put the meter’s variance at ${figure} times the cores’.`;
    case 'assumed':
      return 'For want of repeated visits the cores are taken as far better than the meter; if they are not, the true line is steeper.';
  }
}

function agreementParagraph(agreement: CalibratedMaterial['agreement'], unit: string): Block {
  if (agreement.kind === 'not-computed')
    return paragraph(`Limits of agreement could not be computed: ${agreement.reason}.`);
  const { bias, lower, upper, share, n } = agreement.value;
  const decimals = decimalsFor((upper.estimate - lower.estimate) / 4);
  return paragraph(
    `Limits of agreement: ${levelInWords(share)} of single differences, meter less core at the same place, lie between ${formatSigned(lower.estimate, decimals)} (${intervalText(lower.interval, decimals)}) and ${formatSigned(upper.estimate, decimals)} (${intervalText(upper.interval, decimals)}) ${unit}; mean ${formatSigned(bias.estimate, decimals)}, ${countInWords(n, 'wall')}.`,
  );
}

const bandSteps = 24;

function calibrationFigure(
  facts: InstrumentFacts,
  { material, unit }: MaterialCalibration,
  { line, pairs, range, walls }: MeterCalibration,
  level: number,
): Block {
  const band = Array.from({ length: bandSteps + 1 }, (_, step) => {
    const moisture = range.from + ((range.to - range.from) * step) / bandSteps;
    const own = predictedAt(line, moisture, { level });
    const single = predictedAt(line, moisture, { level, newReading: line.scatter });
    return {
      moisture,
      line: own.estimate,
      lower: own.interval.lower,
      upper: own.interval.upper,
      singleLower: single.interval.lower,
      singleUpper: single.interval.upper,
    };
  });
  const data: CalibrationChartData = {
    title: `Readings of ${facts.instrument} against cores${material === '' ? '' : `, ${material}`}`,
    points: pairs.map(({ moisture, reading }) => ({ moisture, reading })),
    band,
    walls,
    unit,
    decimals: decimalsFor(line.scatter),
    level,
  };
  return {
    kind: 'figure',
    caption:
      'Each point is one core and the meter’s reading beside it. A wide band, or points that bend away from the line, mean that the meter cannot stand in for cores.',
    charts: [
      {
        wide: calibrationChart(data),
        narrow: calibrationChart(data, { width: narrowWidth }),
        description: describeCalibrationChart(data),
      },
    ],
  };
}

function driftBlocks({ instrument }: InstrumentFacts, drift: Computed<DriftFacts> | undefined): readonly Block[] {
  if (drift === undefined) return [];
  if (drift.kind === 'not-computed')
    return [paragraph('Whether ', quoted(instrument), ` drifted is not known: ${drift.reason}.`)];
  const { drift: moved, interval, days, checks, blocks, inMoisture } = drift.value;
  const decimals = decimalsFor((interval.upper - interval.lower) / 2);
  const water =
    inMoisture === undefined
      ? ''
      : ` On a wall that would look like ${formatSigned(inMoisture.drift, decimalsFor(Math.abs(inMoisture.drift)))} ${inMoisture.unit}.`;
  const verdict =
    interval.lower > 0 || interval.upper < 0
      ? 'The instrument itself moved: a change of that size on every wall alike is the meter, not the water. Arms that were read on the same days share it, and their difference loses it.'
      : 'No drift shows beyond the scatter of the checks.';
  return [
    paragraph(
      `On ${countInWords(blocks, 'check block')} that did not change, `,
      quoted(instrument),
      ` moved by ${formatSigned(moved, decimals)} of its index (${levelInWords(interval.level)} interval ${intervalText(interval, decimals)}) over ${formatNumber(days, 0)} days, by ${countInWords(checks, 'check')}.${water} ${verdict}`,
    ),
  ];
}

function trackingBlocks({ tracking, instrument }: InstrumentFacts): readonly Block[] {
  if (tracking === undefined) return [];
  if (tracking.kind === 'not-computed')
    return [
      paragraph(
        'Whether the change by ',
        quoted(instrument),
        ` follows the cores’ cannot be said: ${tracking.reason}.`,
      ),
    ];
  const { correlation, interval, sameDirection, walls } = tracking.value;
  return [
    paragraph(
      'Wall by wall, the change by ',
      quoted(instrument),
      ` and the change by cores correlate by ${formatNumber(correlation, 2)} (${levelInWords(interval.level)} interval ${formatNumber(interval.lower, 2)} to ${formatNumber(interval.upper, 2)}); both went the same way on ${formatNumber(sameDirection, 0)} of ${countInWords(walls, 'wall')}.`,
    ),
  ];
}

function readersBlocks({ readers, unit, instrument }: InstrumentFacts): readonly Block[] {
  if (readers === undefined) return [];
  const decimals = decimalsFor(readers.reproducibility);
  return [
    paragraph(
      `At ${countInWords(readers.places, 'place')} that ${countInWords(readers.readers, 'reader')} read on the same day and again, readings of `,
      quoted(instrument),
      ` have a standard deviation of ${formatNumber(readers.repeatability, decimals)} ${unit} by one reader and of ${formatNumber(readers.reproducibility, decimals)} between readers (ISO 5725-2); two readings by two readers differ by more than ${formatNumber(readers.reproducibilityLimit, decimals)} in one case of twenty.`,
    ),
  ];
}

function budgetBlocks(budget: GravimetricBudget): readonly Block[] {
  const rows = budget.rows.filter(({ name }) => name.endsWith('weighing'));
  const uncertainty = decimalsFor(budget.standardUncertainty);
  return [
    paragraph(
      `A core of median dry mass holds ${formatNumber(budget.value, uncertainty)} % by mass, with a standard uncertainty of ${formatNumber(budget.standardUncertainty, uncertainty)} percentage points from weighing alone. Water left by the oven, lost in drilling or lost on the way is not stated by the trial, so it is not in the table; the place drilled usually matters most, and the spread of walls and stations in the trial’s intervals already holds it.`,
    ),
    budgetTable(rows, uncertainty + 1),
  ];
}

function budgetTable(rows: GravimetricBudget['rows'], decimals: number): Table {
  return {
    kind: 'table',
    caption: 'Uncertainty budget of that core (JCGM 100), what the trial states',
    columns: [
      { header: 'Source' },
      { header: 'Value (g)', look: 'number' },
      { header: 'Standard uncertainty (g)', look: 'number' },
      { header: 'Sensitivity (points per g)', look: 'number' },
      { header: 'Contribution (points)', look: 'number' },
      { header: 'Share', look: 'number' },
    ],
    rows: rows.map((row) => [
      [row.name],
      [formatNumber(row.value, 2)],
      [formatNumber(row.standardUncertainty, 4)],
      [formatSigned(row.sensitivity, 2)],
      [formatNumber(row.contribution, decimals)],
      [`${formatNumber(100 * row.shareOfVariance, 0)} %`],
    ]),
  };
}
