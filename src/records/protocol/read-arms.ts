import { present } from '../../plain/present.js';
import { alternatives, quoted } from '../quoted.js';
import type { NamedArm } from './findings.js';
import { choiceOf, fieldsOf, type JsonFields, listOf, refuse, textOf } from './json-fields.js';

export const armRoles = ['treated', 'control', 'sham'] as const;

/**
 * The arms, whether or not their roles are right, so that the tables can be checked against their names.
 *
 * @returns nothing when a name is missing or stands there twice: the list is then not what was meant, and the tables are
 * not to blame.
 */
export function readArms(root: JsonFields): readonly NamedArm[] | undefined {
  const expected = `a list of at least one arm, each { "arm": …, "role": … } with the role ${alternatives(armRoles)}`;
  const entries = listOf(root.need('arms', expected), expected);
  if (entries === undefined) return undefined;
  const arms: NamedArm[] = [];
  for (const entry of entries) {
    const fields = fieldsOf(entry, ['arm', 'role']);
    const arm = textOf(fields?.need('arm', 'the name of the arm'), 'the name of the arm, a text in quotes');
    const role = choiceOf(fields?.need('role', alternatives(armRoles)), armRoles);
    if (arm === undefined) continue;
    if (arms.some((other) => other.arm === arm)) {
      refuse(fields?.get('arm') ?? entry, 'each arm once', { found: `the arm ${quoted(arm)} twice` });
    } else if (arm === 'unknown') {
      // In the blinding notes this word says that a person did not know.
      refuse(fields?.get('arm') ?? entry, 'another name: "unknown" has a meaning of its own in blinding.csv');
    } else if (arm in {}) {
      // Charts look arms up by name in objects that hold these names already.
      refuse(fields?.get('arm') ?? entry, 'another name: this one is a word that every object of the program has');
    } else arms.push({ arm, ...present({ role }) });
  }
  return arms.length === entries.length ? arms : undefined;
}
