import { present } from '../plain/present.js';

/** What a JSON text holds. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A value that does not come out again, with the keys that lead to it; absent where it is only in one of the two. */
export interface Deviation {
  readonly path: string;
  readonly stated?: string | number | boolean | null;
  readonly again?: string | number | boolean | null;
}

export interface Comparison {
  /** Numbers in the opinion as stated, and how many of them come out again to the last digit. */
  readonly numbers: { readonly stated: number; readonly again: number };
  readonly texts: { readonly stated: number; readonly again: number };
  readonly deviations: readonly Deviation[];
}

/**
 * An opinion as stated against the same computed again, value by value.
 *
 * @example compareOpinions({ p: 0.25 }, { p: 0.35 }).deviations // [{ path: 'p', stated: 0.25, again: 0.35 }]
 */
export function compareOpinions(stated: Json, again: Json): Comparison {
  const [one, other] = [leavesOf(stated), leavesOf(again)];
  const deviations = [...new Set([...one.keys(), ...other.keys()])].flatMap((path): Deviation[] => {
    const [before, now] = [one.get(path), other.get(path)];
    if (one.has(path) && other.has(path) && Object.is(before, now)) return [];
    return [{ path, ...present({ stated: before, again: now }) }];
  });
  const count = (isCounted: (value: Leaf) => boolean) => {
    const of = [...one].filter(([, value]) => isCounted(value));
    return { stated: of.length, again: of.filter(([path, value]) => Object.is(other.get(path), value)).length };
  };
  return {
    numbers: count((value) => typeof value === 'number'),
    texts: count((value) => typeof value === 'string'),
    deviations,
  };
}

type Leaf = string | number | boolean | null;

function leavesOf(value: Json, path = '', leaves = new Map<string, Leaf>()): Map<string, Leaf> {
  if (typeof value !== 'object' || value === null) leaves.set(path, value);
  else for (const [key, each] of Object.entries(value)) leavesOf(each, path === '' ? key : `${path}.${key}`, leaves);
  return leaves;
}

/** Of a number in double precision. */
const mostDigits = 17;

/**
 * How many significant digits two numbers have in common from the first on.
 *
 * @example digitsInCommon(4.1436, 4.1439) // 4
 */
export function digitsInCommon(one: number, other: number): number {
  if (Math.sign(one) !== Math.sign(other)) return 0;
  const [a, b] = [one, other].map((value) => Math.abs(value).toExponential());
  if (a === undefined || b === undefined || a.split('e')[1] !== b.split('e')[1]) return 0;
  const digits = (text: string) => (text.split('e')[0] ?? '').replace('.', '').padEnd(mostDigits, '0');
  const [first, second] = [digits(a), digits(b)];
  const differs = [...first].findIndex((digit, index) => digit !== second[index]);
  return differs === -1 ? first.length : differs;
}
