export { type CoreMasses, type GravimetricMoisture, gravimetricMoisture } from './gravimetric-moisture.js';
export type { MoistureReading } from './moisture-reading.js';
export { moistureReadings } from './moisture-readings.js';
export { type WeighingUncertainty, weighingUncertainty } from './weighing-uncertainty.js';
