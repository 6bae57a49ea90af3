/** Where the water of a wall may come from. */
export const waterSources = ['rising-damp', 'penetrating-rain', 'condensation', 'hygroscopic', 'leak'] as const;

export type WaterSource = (typeof waterSources)[number];
