// The public face, room by room. General statistics have a face of their own: `fairwall/statistics`.

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

// Estimates and weaknesses to a verdict and a report.

export * from './opinion/index.js';

// Plain data to charts.

export * from './charts/index.js';
