import type { ArmRole, Comparison } from '../../trial/index.js';
import { alternatives, quoted } from '../quoted.js';
import type { NamedArm } from './findings.js';
import { fieldsOf, type JsonFields, type JsonPlace, listOf, refuse, refuseWord, textOf } from './json-fields.js';

/** Which arms stand against which: known arms, each on one side only, treated roles on the one and the others on the other. */
export function readComparison(root: JsonFields, arms: readonly NamedArm[] | undefined): Comparison | undefined {
  const place = root.get('compare');
  const fields = place && fieldsOf(place, ['treated', 'untreated']);
  if (fields === undefined) return undefined;
  const seen = new Set<string>();
  const side = (key: keyof Comparison, accepts: (role: ArmRole) => boolean, roles: string): string[] | undefined => {
    const expected = 'a list of at least one arm';
    const entries = listOf(fields.need(key, expected), expected);
    const named = entries?.map((entry) => checkedArm(entry, arms, seen, accepts, roles));
    // A side with a wrong arm is no side: the tables are then held against the roles alone.
    return named?.every((arm) => arm !== undefined) ? named : undefined;
  };
  const treated = side('treated', (role) => role === 'treated', 'an arm with the role treated');
  const untreated = side('untreated', (role) => role !== 'treated', 'an arm with the role control or sham');
  return treated && untreated ? { treated, untreated } : undefined;
}

function checkedArm(
  entry: JsonPlace,
  arms: readonly NamedArm[] | undefined,
  seen: Set<string>,
  accepts: (role: ArmRole) => boolean,
  roles: string,
): string | undefined {
  const arm = textOf(entry, 'the name of an arm');
  if (arm === undefined || arms === undefined) return arm;
  const names = arms.map((one) => one.arm);
  if (!names.includes(arm)) return refuseWord(entry, `one of the arms: ${alternatives(names)}`, names);
  if (seen.has(arm)) return refuse(entry, 'each arm once, on one side', { found: `the arm ${quoted(arm)} twice` });
  seen.add(arm);
  const role = arms.find((one) => one.arm === arm)?.role;
  if (role === undefined || accepts(role)) return arm;
  return refuse(entry, roles, { found: `the arm ${quoted(arm)}, whose role is ${role}` });
}
