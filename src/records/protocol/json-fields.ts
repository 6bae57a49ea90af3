import type { Node } from 'jsonc-parser';
import { present } from '../../plain/present.js';
import { choiceOfWord } from '../cells/choice-cell.js';
import { dayFault } from '../cells/iso-date.js';
import { nearestName } from '../nearest-name.js';
import { alternatives, quoted } from '../quoted.js';
import type { JsonDocument } from './json-document.js';

/** A value in the document, with the path of keys that leads to it. */
export interface JsonPlace {
  readonly document: JsonDocument;
  readonly node: Node;
  readonly path: string;
}

/** The fields of a JSON object, by key. */
export interface JsonFields {
  readonly place: JsonPlace;
  /** The value of a key, or nothing where the key is absent. */
  get(key: string): JsonPlace | undefined;
  /** The value of a key; its absence is noted as a problem. */
  need(key: string, expected: string): JsonPlace | undefined;
}

/** The fields of an object; an unknown key and a key that stands twice are noted. */
export function fieldsOf(place: JsonPlace, keys: readonly string[]): JsonFields | undefined {
  if (place.node.type !== 'object') return refuse(place, `an object with the keys ${keys.join(', ')}`);
  const fields = new Map<string, JsonPlace>();
  const absent = absentKeys(place.node, keys);
  // Keys that stand there with a slip: said once, they are not missed again.
  const misspelt = new Set<string>();
  for (const property of place.node.children ?? []) {
    const [keyNode, node] = property.children ?? [];
    if (keyNode === undefined || node === undefined) continue;
    const key = String(keyNode.value);
    const path = place.path === '' ? key : `${place.path}.${key}`;
    if (!keys.includes(key)) {
      const suggestion = nearestName(key, absent);
      if (suggestion !== undefined) misspelt.add(suggestion);
      const found = `the unknown key ${quoted(key)}`;
      refuse({ ...place, node: keyNode, path }, `one of the keys ${keys.join(', ')}`, { found, suggestion });
    } else if (fields.has(key)) {
      refuse({ ...place, node: keyNode, path }, 'it once', { found: `the key ${quoted(key)} twice` });
    } else fields.set(key, { document: place.document, node, path });
  }
  return {
    place,
    get: (key) => fields.get(key),
    need(key, expected) {
      const field = fields.get(key);
      if (field !== undefined || misspelt.has(key)) return field;
      const path = place.path === '' ? key : `${place.path}.${key}`;
      return refuse({ ...place, path }, expected, { found: `no key ${quoted(key)}` });
    },
  };
}

function absentKeys(object: Node, keys: readonly string[]): readonly string[] {
  const present = new Set((object.children ?? []).map((property): unknown => property.children?.[0]?.value));
  return keys.filter((key) => !present.has(key));
}

export function textOf(place: JsonPlace | undefined, expected: string): string | undefined {
  if (place === undefined) return undefined;
  const text = plainText(place);
  return text === '' ? refuse(place, expected) : text;
}

/** On one line, with letters composed as in every table; nothing where it is no text. A control character is noted. */
function plainText(place: JsonPlace): string | undefined {
  if (typeof place.node.value !== 'string') return '';
  const text = place.node.value.replace(/\s+/g, ' ').trim().normalize('NFC');
  return /\p{Cc}/u.test(text) ? refuse(place, 'a text without control characters') : text;
}

/** A text that may be empty, as nothing has to be disclosed. */
export function optionalTextOf(place: JsonPlace | undefined, expected: string): string {
  if (place === undefined) return '';
  return typeof place.node.value === 'string' ? (plainText(place) ?? '') : (refuse(place, expected) ?? '');
}

/** A number; what it accepts must not let an infinite one pass. */
export function numberOf(
  place: JsonPlace | undefined,
  expected: string,
  accepts: (value: number) => boolean,
): number | undefined {
  if (place === undefined) return undefined;
  const value = place.document.numberAt(place.node);
  return typeof value === 'number' && accepts(value) ? value : refuse(place, expected);
}

export function flagOf(place: JsonPlace | undefined): boolean | undefined {
  if (place === undefined) return undefined;
  const value = place.document.flagAt(place.node);
  return typeof value === 'boolean' ? value : refuse(place, 'true or false, without quotes');
}

export function choiceOf<Choice extends string>(
  place: JsonPlace | undefined,
  choices: readonly Choice[],
): Choice | undefined {
  if (place === undefined) return undefined;
  return choiceOfWord(place.node.value, choices) ?? refuseWord(place, alternatives(choices), choices);
}

export function dayOf(place: JsonPlace | undefined): string | undefined {
  const day = textOf(place, 'a date in quotes as "YYYY-MM-DD"');
  const fault = day === undefined ? undefined : dayFault(day);
  if (place === undefined || fault === undefined) return day;
  return refuse(place, fault.expected, { suggestion: fault.suggestion });
}

export function listOf(place: JsonPlace | undefined, expected: string): readonly JsonPlace[] | undefined {
  if (place === undefined) return undefined;
  const entries = place.document.entriesAt(place.node);
  if (entries.length === 0) return refuse(place, expected);
  return entries.map((node, index) => ({ document: place.document, node, path: `${place.path}[${index}]` }));
}

/** The entries of an object whose keys are names of the user's own, each once. */
export function namedEntriesOf(
  place: JsonPlace | undefined,
  expected: string,
): readonly (readonly [string, JsonPlace])[] {
  if (place === undefined) return [];
  if (place.node.type !== 'object') {
    refuse(place, expected);
    return [];
  }
  const entries = new Map<string, JsonPlace>();
  for (const property of place.node.children ?? []) {
    const [keyNode, node] = property.children ?? [];
    if (keyNode === undefined || node === undefined) continue;
    const key = String(keyNode.value);
    const at = { document: place.document, node, path: `${place.path}.${key}` };
    if (entries.has(key)) refuse({ ...at, node: keyNode }, 'it once', { found: `the key ${quoted(key)} twice` });
    else entries.set(key, at);
  }
  return [...entries];
}

/** Refuses a word, with the nearest of those that would have done. */
export function refuseWord(place: JsonPlace, expected: string, words: readonly string[]): undefined {
  const word: unknown = place.node.value;
  return refuse(place, expected, { suggestion: typeof word === 'string' ? nearestName(word, words) : undefined });
}

/** Notes a problem at a place and stands for the value that is not there. */
export function refuse(
  place: JsonPlace,
  expected: string,
  details: { readonly found?: string; readonly suggestion?: string | undefined } = {},
): undefined {
  const { found = described(place), suggestion } = details;
  place.document.refuse(place.node, place.path, {
    found,
    expected,
    ...present({ suggestion }),
  });
  return undefined;
}

function described({ document, node }: JsonPlace): string {
  if (node.type === 'object') return 'an object { }';
  if (node.type === 'array') return (node.children ?? []).length === 0 ? 'an empty list [ ]' : 'a list [ ]';
  return typeof node.value === 'string' ? quoted(node.value) : document.sourceOf(node);
}
