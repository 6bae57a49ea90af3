import type { SaltsPart } from './salts-of-trial.js';

/** Salts, for `opinion.json`: contents and changes in % by mass, a range where values lie below detection. */
export function saltsJson({ samples, outside, arms, before, changes, conditioned }: SaltsPart) {
  return {
    samples,
    outside,
    arms: arms.map(({ ions, classes, ...arm }) => ({
      ...arm,
      ions: ions.map((each) => ({ ...each })),
      classes: classes.map(({ scheme, walls, worst }) => ({ scheme, walls: { ...walls }, worst: { ...worst } })),
    })),
    before: before.map(({ ion, treated, untreated, ratio }) => ({
      ...{ ion, treated: { ...treated }, untreated: { ...untreated }, ratio: ratio ?? null },
    })),
    changes: changes.map(({ ion, treated, untreated, apart_pct, pValue }) => ({
      ...{ ion, treated: { ...treated }, untreated: { ...untreated }, apart_pct, pValue: pValue ?? null },
    })),
    conditioned: conditioned.map(({ condition, salts }) => ({
      humidity_pct: condition.setpoint_rh_pct,
      temperature_c: condition.temperature_c,
      salts: salts.map((each) => ({ ...each })),
    })),
  };
}
