import type { Outcome, PassMark, Windows } from '../../trial/index.js';
import { isOfRealSize } from '../cells/number-cell.js';
import type { NamedInstrument } from './findings.js';
import { dayOf, fieldsOf, flagOf, type JsonFields, type JsonPlace, numberOf, refuse, textOf } from './json-fields.js';

/** What the rest of the plan says that a pass mark must fit. */
interface Plan {
  readonly instruments: readonly NamedInstrument[] | undefined;
  readonly outcome: Partial<Outcome> | undefined;
  readonly windows: Windows | undefined;
}

const kindExpected = 'either reduction_pct (a percentage), or target with by (a date)';

/** A pass mark agreed beforehand, which has to say where it comes from. */
export function readPassMark(root: JsonFields, plan: Plan): PassMark | undefined {
  const place = root.get('passMark');
  const fields = place && fieldsOf(place, ['reduction_pct', 'target', 'by', 'source', 'asMargin']);
  if (place === undefined || fields === undefined) return undefined;
  const isTarget = fields.get('target') !== undefined || fields.get('by') !== undefined;
  if (isTarget && fields.get('reduction_pct') !== undefined)
    refuse(place, kindExpected, { found: 'a reduction and a target' });
  const mark = isTarget ? readTarget(fields, plan) : readReduction(fields, plan);
  const sourceExpected = 'where the mark comes from, a text';
  const source = textOf(fields.need('source', sourceExpected), sourceExpected);
  const asMargin = flagOf(fields.get('asMargin')) ?? false;
  if (asMargin) checkAsMargin(root, fields.get('asMargin') ?? place, isTarget, plan);
  return mark === undefined || source === undefined ? undefined : { ...mark, source, asMargin };
}

function readReduction(
  fields: JsonFields,
  { outcome }: Plan,
): { kind: 'reduction'; reduction_pct: number } | undefined {
  const place = fields.need('reduction_pct', kindExpected);
  const isPercentage = (value: number) => value > 0 && value < 100;
  const reduction_pct = numberOf(place, 'a percentage above 0 and below 100', isPercentage);
  if (place !== undefined && outcome?.better === 'higher')
    refuse(place, 'a reduction only where lower is better', {
      found: 'a reduction of an outcome of which more is better',
    });
  return reduction_pct === undefined ? undefined : { kind: 'reduction', reduction_pct };
}

function readTarget(fields: JsonFields, { windows }: Plan): { kind: 'target'; target: number; by: string } | undefined {
  const what = 'the value to reach, a number in the unit of the outcome';
  const target = numberOf(fields.need('target', what), what, isOfRealSize);
  const place = fields.need('by', 'the day by which it is to be reached, "YYYY-MM-DD"');
  const by = dayOf(place);
  if (place !== undefined && by !== undefined && windows !== undefined && windows.after.to > by)
    refuse(place, `a day from ${windows.after.to} on, when the after window ends`);
  return target === undefined || by === undefined ? undefined : { kind: 'target', target, by };
}

function checkAsMargin(root: JsonFields, place: JsonPlace, isTarget: boolean, { instruments, outcome }: Plan): void {
  if (root.get('margin') !== undefined)
    refuse(place, 'either a margin or a pass mark as the margin', { found: 'a margin beside it' });
  const kind = instruments?.find(({ instrument }) => instrument === outcome?.instrument)?.kind;
  if (isTarget || kind === undefined || kind === 'gravimetric' || kind === 'direct') return;
  const expected =
    'a reduction as the margin only where the outcome is gravimetric or direct, for an index has no zero';
  refuse(place, expected, { found: `an outcome of the kind ${kind}` });
}
