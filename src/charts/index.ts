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
export type { ChartOptions, ChartSpecification } from './chart-specification.js';
export { type ChoicesChartData, choicesChart, describeChoicesChart } from './choices-chart.js';
export { type DryingArm, type DryingChartData, describeDryingChart, dryingChart } from './drying-chart.js';
export {
  describeHeightProfileChart,
  type HeightPoint,
  type HeightProfileChartData,
  type HeightSeries,
  heightProfileChart,
} from './height-profile-chart.js';
export { describeIntervalChart, type IntervalChartData, type IntervalRow, intervalChart } from './interval-chart.js';
export { renderSvg } from './render-svg.js';
export { describeSeriesChart, type SeriesChartData, type SeriesWindow, seriesChart } from './series-chart.js';
export { describeTimelineChart, type TimelineChartData, timelineChart } from './timeline-chart.js';
export {
  describeWallMapChart,
  type WallMapChartCell,
  type WallMapChartData,
  wallMapChart,
} from './wall-map-chart.js';
export { describeWettingFrontChart, type WettingFrontChartData, wettingFrontChart } from './wetting-front-chart.js';
