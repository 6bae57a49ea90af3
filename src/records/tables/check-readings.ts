import type { Problem, Recorded, RowOrigin } from '../../trial/index.js';
import type { NamedInstrument } from '../protocol/findings.js';

interface Value {
  readonly instrument: string;
  readonly value: Recorded;
  readonly origin: RowOrigin;
}

/** Values that their instrument cannot show: none at or below zero on a logarithmic scale, and no share of the wet mass but from 0 to below 100 %. */
export function checkReadings(
  values: readonly Value[],
  instruments: readonly NamedInstrument[] | undefined,
  problems: Problem[],
): void {
  const rules = new Map(
    (instruments ?? []).flatMap((instrument) => {
      const rule = ruleOf(instrument);
      return rule === undefined ? [] : [[instrument.instrument, rule] as const];
    }),
  );
  if (rules.size === 0) return;
  for (const { instrument, value, origin } of values) {
    const rule = rules.get(instrument);
    const number = numberOf(value);
    if (rule === undefined || number === undefined || rule.accepts(number)) continue;
    const found = `${value.kind === 'below-detection' ? '<' : ''}${number}`;
    problems.push({ ...origin, column: 'value', found, expected: rule.expected });
  }
}

interface Rule {
  readonly accepts: (value: number) => boolean;
  readonly expected: string;
}

function ruleOf({ instrument, kind, scale }: NamedInstrument): Rule | undefined {
  if (scale === 'logarithmic')
    return {
      accepts: (value) => value > 0,
      expected: `a value above 0, for the scale of ${instrument} is logarithmic`,
    };
  if (kind === 'carbide')
    return {
      accepts: (value) => value >= 0 && value < 100,
      expected: 'a carbide reading in % of the wet mass, from 0 to below 100',
    };
  return undefined;
}

function numberOf(value: Recorded): number | undefined {
  switch (value.kind) {
    case 'measured':
      return value.value;
    case 'below-detection':
      return value.limit;
    case 'missing':
      return undefined;
  }
}
