import {
  type AgreementChartData,
  type AgreementLine,
  agreementChart,
  type CalibrationChartData,
  calibrationChart,
  describeAgreementChart,
  describeCalibrationChart,
} from '../../charts/index.js';
import type {
  CalibratedMaterial,
  InstrumentFacts,
  MaterialCalibration,
} from '../../findings/instruments/instrument-facts.js';
import { reasonInWords } from '../../labels/index.js';
import { type MeterCalibration, repeatsWithinDays } from '../../moisture/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { decimalsFor, formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Inline, paragraph, quoted } from '../document.js';
import { intervalText } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

function onMaterial(material: string): readonly Inline[] {
  return material === '' ? ['walls of unnamed material'] : [quoted(material)];
}

/** What a meter's index means in moisture on one material, how far that can be trusted, and what other shapes would say. */
export function calibrationBlocks(
  opinion: Opinion,
  facts: InstrumentFacts,
  each: MaterialCalibration,
): readonly Block[] {
  if (each.outcome.kind === 'not-computed')
    return [
      paragraph(
        'Not calibrated on ',
        ...onMaterial(each.material),
        `: ${reasonInWords(each.outcome.reason)}. `,
        quoted(facts.instrument),
        ' stays an index there: it can rank places and show change, and it cannot yield percent.',
      ),
    ];
  const { calibration, agreement, byUncertainties } = each.outcome.value;
  const { line, onUnseenWalls, range } = calibration;
  const stated = opinion.protocol.calibration;
  const apart =
    stated === undefined
      ? ', at most three days apart (our convention),'
      : ` at most ${countInWords(stated.days, 'day')} and ${stated.distance_mm} mm apart`;
  const decimals = decimalsFor(onUnseenWalls.rootMeanSquare);
  const slope = decimalsFor((line.slopeInterval.upper - line.slopeInterval.lower) / 2);
  return [
    paragraph(
      'Calibrated on ',
      ...onMaterial(each.material),
      ` by ${countInWords(calibration.pairs.length, 'pair')} of core and reading${apart} on ${countInWords(calibration.walls, 'wall')}: one ${each.unit} is ${formatNumber(line.slope, slope)} of ${indexOf(calibration)} (${levelInWords(line.slopeInterval.level)} interval ${formatNumber(line.slopeInterval.lower, slope)} to ${formatNumber(line.slopeInterval.upper, slope)}, walls as the units). ${ratioInWords(calibration)} It holds from ${formatNumber(range.from, 1)} to ${formatNumber(range.to, 1)} ${each.unit}, and is a guess outside${outsideInWords(each.outcome.value)}. On walls that it had not seen, moisture by the meter missed that of single cores by ${formatNumber(onUnseenWalls.rootMeanSquare, decimals)} ${each.unit} (root mean square).`,
    ),
    monotoneParagraph(each.outcome.value, each.unit),
    ...(byUncertainties === undefined ? [] : [uncertaintiesParagraph(byUncertainties)]),
    calibrationFigure(facts, each, each.outcome.value, opinion.protocol.confidence),
    agreementParagraph(each.outcome.value, each.unit),
    ...agreementFigure(facts, each, calibration, agreement),
  ];
}

function indexOf({ scale }: MeterCalibration): string {
  return scale === 'linear' ? 'the index' : 'the base-10 logarithm of the index';
}

function outsideInWords({ readings, outside }: CalibratedMaterial): string {
  return outside === 0
    ? ', where no reading lies'
    : `, where ${formatNumber(outside, 0)} of ${countInWords(readings, 'reading')} lie${outside === 1 ? 's' : ''}`;
}

function ratioInWords({ ratio }: MeterCalibration): string {
  const figure = formatNumber(ratio.errorRatio, 1);
  switch (ratio.from) {
    case 'stated':
      return `Errors in both: the meter’s variance is taken as ${figure} times the cores’, as stated.`;
    case 'repeats':
      return `Errors in both (Deming’s line): repeated visits to the same places, within ${repeatsWithinDays} days (our convention), put the meter’s variance at ${figure} times the cores’.`;
    case 'assumed':
      return 'Without ten repeated visits the cores are taken as far better than the meter (a hundred times in variance: our convention). If they are not, the true line is steeper.';
  }
}

/** Share of the line's miss below which a bent curve is better for a reason: our convention. */
const clearlyBetter = 0.9;

function monotoneParagraph({ calibration, monotone }: CalibratedMaterial, unit: string): Block {
  if (monotone.kind === 'not-computed')
    return paragraph(
      `Whether a curve would do better than the line cannot be said: ${reasonInWords(monotone.reason)}.`,
    );
  const line = calibration.onUnseenWalls.rootMeanSquare;
  const curve = monotone.value.onUnseenWalls.rootMeanSquare;
  const decimals = decimalsFor(line) + 1;
  const verdict =
    curve < clearlyBetter * line
      ? 'clearly less (by more than a tenth: our convention): the relation bends, and a straight line is the wrong shape for this meter here'
      : curve < line
        ? 'hardly less, so that the straight line is a fair shape'
        : 'no less, so that the straight line is not what is wrong';
  return paragraph(
    `A curve that is only held to never turn back misses unseen walls by ${formatNumber(curve, decimals)} ${unit}, and the straight line by ${formatNumber(line, decimals)}. That is ${verdict}.`,
  );
}

function uncertaintiesParagraph(york: NonNullable<CalibratedMaterial['byUncertainties']>): Block {
  if (york.kind === 'not-computed')
    return paragraph(
      `A line by the uncertainty of each core and reading (York’s) could not be fitted: ${reasonInWords(york.reason)}.`,
    );
  const { line, beyondStated } = york.value;
  const { lower, upper } = line.slopeInterval;
  const decimals = decimalsFor((upper - lower) / 2);
  return paragraph(
    `With each core and reading weighed by its own uncertainty, the balance’s and that of repeated readings, the slope is ${formatNumber(line.slope, decimals)} (${formatNumber(lower, decimals)} to ${formatNumber(upper, decimals)}; York’s line). The pairs lie ${formatNumber(beyondStated, 1)} times as far from it as those uncertainties allow: ${beyondStated > tellsAll ? 'more than one and a half times (our convention), so neighbouring places differ by more than balance and repeats explain, and the line above is the one used' : 'they tell nearly all'}.`,
  );
}

/** Root of the reduced chi-square up to which the stated uncertainties explain the scatter: our convention. */
const tellsAll = 1.5;

function agreementParagraph({ agreement, concordance }: CalibratedMaterial, unit: string): Block {
  if (agreement.kind === 'not-computed')
    return paragraph(`Limits of agreement could not be computed: ${reasonInWords(agreement.reason)}.`);
  const { bias, lower, upper, share, n } = agreement.value;
  const decimals = decimalsFor((upper.estimate - lower.estimate) / 4);
  return paragraph(
    `Limits of agreement: ${levelInWords(share)} of single differences, meter less core at the same place, lie between ${formatSigned(lower.estimate, decimals)} (${intervalText(lower.interval, decimals)}) and ${formatSigned(upper.estimate, decimals)} (${intervalText(upper.interval, decimals)}) ${unit}; mean ${formatSigned(bias.estimate, decimals)}, ${countInWords(n, 'wall')}.${concordanceInWords(concordance)}`,
  );
}

function calibrationFigure(
  facts: InstrumentFacts,
  { material, unit }: MaterialCalibration,
  { calibration, band, plotted }: CalibratedMaterial,
  level: number,
): Block {
  const { line, walls, scale } = calibration;
  const data: CalibrationChartData = {
    title: `Readings of ${facts.instrument} against cores${material === '' ? '' : `, ${material}`}`,
    points: plotted,
    ...(scale === 'linear' ? {} : { index: 'log₁₀ of the index' }),
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

function concordanceInWords(concordance: CalibratedMaterial['concordance']): string {
  if (concordance.kind === 'not-computed') return '';
  const { estimate, interval, n } = concordance.value;
  return ` The means of the ${formatNumber(n, 0)} walls by both have a concordance correlation of ${formatNumber(estimate, 2)} (${levelInWords(interval.level)} interval ${formatNumber(interval.lower, 2)} to ${formatNumber(interval.upper, 2)}); 1 would be equality.`;
}

function agreementFigure(
  { instrument }: InstrumentFacts,
  { material, unit }: MaterialCalibration,
  { pairs, onUnseenWalls, walls }: MeterCalibration,
  agreement: CalibratedMaterial['agreement'],
): readonly Block[] {
  if (agreement.kind === 'not-computed') return [];
  const { bias, lower, upper, share } = agreement.value;
  const line = ({ estimate, interval }: typeof bias): AgreementLine => ({ estimate, ...interval });
  const data: AgreementChartData = {
    title: `Moisture by ${instrument} less moisture by core${material === '' ? '' : `, ${material}`}`,
    difference: 'meter less core',
    points: pairs.map(({ moisture }, index) => {
      const predicted = onUnseenWalls.predicted[index] as number;
      return { mean: (predicted + moisture) / 2, difference: predicted - moisture };
    }),
    bias: line(bias),
    lowerLimit: line(lower),
    upperLimit: line(upper),
    share,
    walls,
    unit,
    decimals: decimalsFor((upper.estimate - lower.estimate) / 4),
    level: bias.interval.level,
  };
  return [
    {
      kind: 'figure',
      caption:
        'Each point is one pair, the meter’s moisture from the line without its wall. Points that lean or fan out mean that the limits do not hold alike for dry and wet.',
      charts: [
        {
          wide: agreementChart(data),
          narrow: agreementChart(data, { width: narrowWidth }),
          description: describeAgreementChart(data),
        },
      ],
    },
  ];
}
