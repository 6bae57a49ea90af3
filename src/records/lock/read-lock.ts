import { present } from '../../plain/present.js';
import type { LockedWall, PlanLock, Problem } from '../../trial/index.js';
import { lockFile } from '../folder/table-layouts.js';
import { type JsonDocument, jsonDocument } from '../protocol/json-document.js';
import { dayOf, fieldsOf, type JsonFields, type JsonPlace, listOf, refuse, textOf } from '../protocol/json-fields.js';
import { readPlan } from '../protocol/read-protocol.js';
import { readWindows } from '../protocol/read-windows.js';
import { lockFormat, sealOfPlan } from './seal-of-plan.js';

const keys = ['format', 'lockedOn', 'version', 'plan', 'walls', 'sha256'];

/**
 * Reads `lock.json`: first whether its seal fits what it seals, and only then what that is, for of a file that was changed no more
 * can be said than that.
 *
 * @returns nothing where it is no lock; the reasons are then among the problems.
 */
export function readLock(text: string, problems: Problem[]): PlanLock | undefined {
  const before = problems.length;
  const document = jsonDocument(lockFile, text, problems);
  const root = document && fieldsOf({ document, node: document.root, path: '' }, keys);
  if (document === undefined || root === undefined) return undefined;
  const formatPlace = root.need('format', `"${lockFormat}"`);
  if (formatPlace !== undefined && formatPlace.node.value !== lockFormat) refuse(formatPlace, `"${lockFormat}"`);
  const sealPlace = root.need('sha256', 'the seal, 64 digits');
  if (problems.length > before) return undefined;
  const sha256 = String(sealPlace?.node.value);
  if (sealPlace !== undefined && !fits(text, sha256)) {
    refuse(sealPlace, 'the file as “fairwall lock” wrote it', {
      found: 'a seal that does not fit: something in the file was changed after it was sealed',
    });
    return undefined;
  }
  const lockedOn = dayOf(root.need('lockedOn', 'the day of the seal'));
  const version = textOf(root.need('version', 'the version of the program'), 'the version of the program, a text');
  const planPlace = root.need('plan', 'the plan, an object as in protocol.json');
  const plan = planPlace && readPlan(lockFile, below(document, planPlace), before, problems);
  const walls = readLockedWalls(root);
  if (problems.length > before || plan?.protocol === undefined) return undefined;
  return { lockedOn: lockedOn ?? '', version: version ?? '', protocol: plan.protocol, walls, sha256 };
}

function fits(text: string, sha256: string): boolean {
  const { sha256: _, ...content } = JSON.parse(text) as Readonly<Record<string, unknown>>;
  return sealOfPlan(content) === sha256;
}

/** The same document with the plan as its root, and with paths that say so. */
function below(document: JsonDocument, { node: root, path }: JsonPlace): JsonDocument {
  return {
    ...document,
    root,
    refuse: (node, inner, problem) => document.refuse(node, inner === '' ? path : `${path}.${inner}`, problem),
  };
}

function readLockedWalls(root: JsonFields): readonly LockedWall[] {
  const expected = 'a list of at least one wall with its arm';
  const seen = new Set<string>();
  return (listOf(root.need('walls', expected), expected) ?? []).flatMap((entry) => {
    const fields = fieldsOf(entry, ['wall', 'arm', 'block', 'site', 'windows']);
    if (fields === undefined) return [];
    const named = (key: string) => textOf(fields.get(key), 'a name in quotes');
    const wall = textOf(fields.need('wall', 'the name of the wall'), 'a name in quotes') ?? '';
    const arm = textOf(fields.need('arm', 'the name of its arm'), 'a name in quotes') ?? '';
    const [block, site, windows] = [named('block'), named('site'), readWindows(fields)];
    if (seen.has(wall)) refuse(entry, 'each wall once');
    seen.add(wall);
    return {
      ...{ wall, arm },
      ...present({ block, site, windows }),
    };
  });
}
