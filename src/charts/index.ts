// Given in the examples of the doc comments, beside what the public face gives: small data for every chart.
//
//   const walls = { treated: 12, untreated: 12 };
//   const rows = [{ label: 'Pairs', estimate: -2.5, lower: -3.4, upper: -1.6, isPrimary: true }];
//   const against = { better: 'lower', margin: 2, level: 0.95, decimals: 1 };
//   const differences = { title: 'Difference of changes', rows, unit: '% by mass', walls, ...against };
//   const moisture = { quantity: 'moisture content', unit: '% by mass', decimals: 1 };
//   const group = { label: 'treated', walls: [{ wall: 'W01', before: 9.1, after: 6.4 }] };
//   const beforeAndAfter = { title: 'Before and after', groups: [group], ...moisture };
//   const point = { moisture: 5, reading: 41, line: 41, lower: 39, upper: 43, singleLower: 33, singleUpper: 49 };
//   const meter = { title: 'The meter', points: [point], band: [point], walls: 1, level: 0.95, unit: '% by mass', decimals: 1 };
//   const limits = { lowerLimit: { estimate: -1.8, lower: -2.4, upper: -1.2 }, upperLimit: { estimate: 2.2, lower: 1.6, upper: 2.8 } };
//   const agreed = { points: [{ mean: 6, difference: 0.3 }], bias: { estimate: 0.2, lower: 0, upper: 0.4 }, ...limits, share: 0.95, walls: 1 };
//   const agreement = { title: 'Meter and core', difference: 'meter less core', ...agreed, unit: '% by mass', decimals: 1, level: 0.95 };
//   const start = { day: '2024-06-10', label: 'treated' };
//   const visits = [{ day: '2024-06-10', value: 9.1 }, { day: '2024-09-10', value: 6.4 }];
//   const arms = [{ arm: 'treated', walls: [visits], means: visits.map(({ day, value }) => ({ day, mean: value })) }];
//   const drying = { title: 'Drying', start, arms, level: 0.95, ...moisture };
//   const circuit = { wall: 'W01', runs: [[{ day: '2024-06-10', value: 42 }, { day: '2024-09-10', value: 20 }]] };
//   const currents = { title: 'Current', unit: 'mA', arms: [{ arm: 'treated', circuits: [circuit] }], marks: [start] };
//   const stations = [{ height_mm: 200, value: 11 }, { height_mm: 1000, value: 5 }];
//   const atHeights = { stations, means: stations };
//   const heights = { title: 'Heights', before: atHeights, after: atHeights, walls: 1, stations: 2, style: 0, ...moisture };
//   const marks = [{ day: '2024-06-10', label: 'treated' }];
//   const level = { visits: [{ day: '2024-03-10', difference: 0.4 }], mean: 0.4, lower: -0.2, upper: 1 };
//   const later = { visits: [{ day: '2025-03-10', difference: -1.6 }], mean: -1.6, lower: -2.2, upper: -1 };
//   const pair = { treated: 'W01', untreated: 'W02', before: level, after: later, marks, level: 0.95 };
//   const twoWallsSeries = { title: 'Two walls', ...moisture, ...pair };
//   const windows = [{ label: 'before', from: '2024-03-01', to: '2024-05-31' }];
//   const wallDays = { read: [], cored: ['2024-03-12'], missed: [], treatedOn: '2024-06-10', windows };
//   const calendar = [{ label: 'treated', style: 0, walls: [{ wall: 'W01', ...wallDays }] }];
//   const plan = { title: 'What happened when', windows, arms: calendar, events: [] };
//   const limitsAt = [{ level: 0.5, lower: -2.8, upper: -2.2 }, { level: 0.95, lower: -3.4, upper: -1.6 }];
//   const fits = [{ value: -3.4, pValue: 0.05 }, { value: -2.5, pValue: 1 }, { value: -1.6, pValue: 0.05 }];
//   const curveOf = { title: 'Every difference, and how well it fits', points: fits, estimate: -2.5, intervals: limitsAt };
//   const curveShown = { ...curveOf, unit: '% by mass', better: 'lower', margin: 2, walls, decimals: 1 };
//   const changed = { style: 0, label: 'treated', walls: [{ ...group.walls[0], change: -2.7 }], mean: -2.7, isTreated: true };
//   const everyChange = { title: 'The change of every wall', groups: [changed], level: 0.95, ...moisture };
//   const spot = { position_mm: 500, height_mm: 200, before: 9, after: 6 };
//   const elevated = { wall: 'W01', arm: 'treated', style: 0, change: -3, places: [spot, { ...spot, height_mm: 600 }] };
//   const elevations = { title: 'The walls as they stand', walls: [elevated], ...moisture };
//   const cells = [{ height_mm: 200, across_mm: 40, value: 9.1, n: 3 }, { height_mm: 600, across_mm: 40, value: 5.2, n: 3 }];
//   const map = { title: 'Moisture by depth', cells, across: 'depth', shows: 'amount', meansOver: 'readings', ...moisture };
//   const arrivals = [100, 200].map((height_mm, at) => ({ height_mm, time_d: at + 1, lower_d: at + 0.8, upper_d: at + 1.2 }));
//   const front = { title: 'The front', arrivals, start_d: 0, speed: 3.1, level: 0.95 };
//   const strip = { label: 'P01, 100 mm', days: visits.map(({ day, value }) => ({ day, mean: value })) };
//   const chanceLine = { label: '3 stations', points: [{ walls: 12, chance: 0.41 }, { walls: 24, chance: 0.83 }] };
//   const chances = { title: 'Chance by walls and stations', of: 'of finding it', lines: [chanceLine], wanted: 0.8 };
//   const log = { title: 'The log', ...moisture, sensors: [strip], from: '2024-06-10', to: '2024-09-10' };

export {
  type AgreementChartData,
  type AgreementLine,
  type AgreementPoint,
  agreementChart,
  describeAgreementChart,
} from './agreement-chart.js';
export {
  type BeforeAfterChartData,
  type BeforeAfterGroup,
  type BeforeAfterWall,
  beforeAfterChart,
  describeBeforeAfterChart,
} from './before-after-chart.js';
export {
  type CalibrationBandPoint,
  type CalibrationChartData,
  type CalibrationPoint,
  calibrationChart,
  describeCalibrationChart,
} from './calibration-chart.js';
export {
  type ChancesChartData,
  type ChancesLine,
  chancesChart,
  describeChancesChart,
} from './chances-chart.js';
export {
  type ChangesChartData,
  type ChangesChartGroup,
  type ChangesChartWall,
  changesChart,
  changesDomain,
  describeChangesChart,
} from './changes-chart.js';
export type { ChartOptions, ChartSpecification } from './chart-specification.js';
export { type ChoicesChartData, choicesChart, describeChoicesChart } from './choices-chart.js';
export {
  type ConfidenceCurveChartData,
  confidenceCurveChart,
  describeConfidenceCurveChart,
} from './confidence-curve-chart.js';
export { type CountsChartData, countsChart, describeCountsChart } from './counts-chart.js';
export {
  type CurrentArm,
  type CurrentChartData,
  type CurrentCircuit,
  currentChart,
  describeCurrentChart,
} from './current-chart.js';
export { type DryingArm, type DryingChartData, describeDryingChart, dryingChart } from './drying-chart.js';
export {
  describeElevationChart,
  type ElevationChartData,
  type ElevationPlace,
  type ElevationWall,
  elevationChart,
} from './elevation-chart.js';
export {
  describeHeightProfileChart,
  type HeightPoint,
  type HeightProfileChartData,
  type HeightSeries,
  heightProfileChart,
} from './height-profile-chart.js';
export { describeIntervalChart, type IntervalChartData, type IntervalRow, intervalChart } from './interval-chart.js';
export { renderImage } from './render-image.js';
export { renderSvg, renderSvgs } from './render-svg.js';
export {
  describeSensorLogChart,
  type SensorLogChartData,
  type SensorStrip,
  sensorLogChart,
} from './sensor-log-chart.js';
export { describeSeriesChart, type SeriesChartData, type SeriesWindow, seriesChart } from './series-chart.js';
export { describeSharesChart, type SharesChartData, sharesChart } from './shares-chart.js';
export { describeTimelineChart, type TimelineChartData, timelineChart } from './timeline-chart.js';
export type { TimelineArm, TimelineWall } from './timeline-walls.js';
export {
  describeWallMapChart,
  type WallMapChartCell,
  type WallMapChartData,
  wallMapChart,
} from './wall-map-chart.js';
export { describeWettingFrontChart, type WettingFrontChartData, wettingFrontChart } from './wetting-front-chart.js';
