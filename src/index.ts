// The public face, room by room. General statistics have a face of their own: `fairwall/statistics`.

// Given in the examples of the doc comments: a core, its errors, and two of the bundled trials.
//
//   const core = { container_g: 0, wet_g: 52.36, dry_g: 47.83 };
//   const sampling = { expected_pp: 0, halfWidth_pp: 0.3 };
//   const errors = { weighing_g: 0.005, drying_pct: 0.1, sampling, transport: { halfWidth_pp: 0 } };
//   const trial = await readTrial('datasets/paired-garden-walls');
//   const readings = moistureReadings(trial);
//   const outcomeReadings = readings.filter(({ instrument }) => instrument === trial.protocol.outcome.instrument);
//   const changes = stationChanges(trial, readings);
//   const design = comparisonDesign(wallChanges(trial, changes.stations).walls).design;
//   const primary = primaryDifference(design, { level: 0.95, unit: '% by mass' });
//   const opinion = formOpinion(await readTrial('datasets/treated-walls-only'));
//   const fs = process.getBuiltinModule('node:fs/promises');
//   const pairs = calibrationPairs(trial, readings, { instrument: 'microwave' }).pairs;
//   const calibration = calibrateMeter(pairs);
//   const twoWalls = await readTrial('datasets/windward-and-sheltered');
//   const readingsOfTwo = moistureReadings(twoWalls);
//   const changesOfTwo = wallChanges(twoWalls, stationChanges(twoWalls, readingsOfTwo).stations).walls;
//   const scatter = { walls: 1, stations: 0, visits: 0, readings: 0, measurement: 0, autocorrelation: 0, correlation: 0 };
//   const once = { stations: 1, visitsBefore: 1, visitsAfter: 1 };
//   const inPairs = { design: { kind: 'pairs', pairs: 10 }, spreads: scatter, sampling: once, dropOut: 0, level: 0.95 };
//   const series = seriesOfWalls(twoWalls, readingsOfTwo, changesOfTwo[0], changesOfTwo[1]);

// A trial: what was planned and recorded, and what may be wrong with it.

export * from './trial/index.js';

// Trial folders in.

export * from './records/index.js';

// Instrument readings to moisture.

export * from './moisture/index.js';

// Moisture over time to rates of drying, and to what can have happened.

export * from './drying/index.js';

// Moisture by wall to effects.

export * from './analysis/index.js';

// What a trial says beyond the answer.

export * from './findings/index.js';

// Threats to validity, evidence and verdict.

export * from './opinion/index.js';

// Planning: how many walls, drawn how, read when; trials of simulated walls.

export * from './planning/index.js';

// An opinion to a report.

export * from './report/index.js';

// Trials and opinions as flat records.

export * from './tables/index.js';

// Plain data to charts.

export * from './charts/index.js';
