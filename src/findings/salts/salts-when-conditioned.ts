import { type DeliquescentSalt, type HumidCondition, saltsNearCondition } from '../../moisture/index.js';
import { saltIons, type Trial } from '../../trial/index.js';
import type { PlacedSample } from './placed-samples.js';

/** Of a room, where a batch does not say. */
const usual_c = 20;

/** The humidities over saturated solutions are good to some two points. */
const uncertain_pp = 2;

interface SaltAtCondition {
  readonly salt: DeliquescentSalt;
  /** Relative humidity above which it dissolves in what it draws from the air. */
  readonly dissolvesAt_pct: number;
  /** `near`: within two points, so that nobody can say. */
  readonly state: 'dissolves' | 'near' | 'stays-dry';
}

/** What the salts that the walls’ ions may form do in the air in which cores were weighed humid. */
export interface SaltsWhenConditioned {
  readonly condition: HumidCondition;
  readonly salts: readonly SaltAtCondition[];
}

/**
 * For each air in which cores were weighed humid: pure salts of the ions that were found above their detection limit, the first to dissolve
 * first. Which of them a wall holds, ions alone do not say, and mixed salts dissolve at less.
 */
export function saltsWhenConditioned(
  { batches = [], cores }: Pick<Trial, 'batches' | 'cores'>,
  samples: readonly PlacedSample[],
): readonly SaltsWhenConditioned[] {
  const ions = saltIons.filter((ion) => samples.some(({ sample }) => isFound(sample.contents_pct[ion])));
  const humid = new Set(cores.flatMap(({ batch, humid_g }) => (humid_g === undefined ? [] : (batch ?? []))));
  const conditions = new Map<string, HumidCondition>();
  for (const { batch, humidity_pct, humidTemperature_c: temperature_c = usual_c } of batches) {
    if (humidity_pct === undefined || !humid.has(batch)) continue;
    conditions.set(`${humidity_pct} ${temperature_c}`, { setpoint_rh_pct: humidity_pct, temperature_c });
  }
  return [...conditions.values()].flatMap((condition) => {
    const salts = saltsAt(condition, ions);
    return salts.length === 0 ? [] : [{ condition, salts }];
  });
}

function isFound(content: PlacedSample['sample']['contents_pct']['chloride']): boolean {
  return content.kind === 'measured' && content.value > 0;
}

/** Wide enough for every salt that is known at the temperature. */
const any_pp = 100;

/** Of salts of these ions; one that holds two of them counts once. */
function saltsAt(condition: HumidCondition, ions: readonly string[]): readonly SaltAtCondition[] {
  return saltsNearCondition(condition, any_pp)
    .near.filter(({ salt }) => ions.some((ion) => salt.includes(ion)))
    .map(({ salt, humidity_pct }): SaltAtCondition => {
      const above = condition.setpoint_rh_pct - humidity_pct;
      const state = Math.abs(above) <= uncertain_pp ? 'near' : above > 0 ? 'dissolves' : 'stays-dry';
      return { salt, dissolvesAt_pct: humidity_pct, state };
    })
    .toSorted((one, other) => one.dissolvesAt_pct - other.dissolvesAt_pct);
}
