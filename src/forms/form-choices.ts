import { choiceOfWord } from '../records/cells/choice-cell.js';
import { alternatives } from '../records/quoted.js';
import type { InstrumentKind } from '../trial/index.js';

/** What decides how a new trial's forms look. */
export interface FormChoices {
  readonly title: string;
  /** Whether cores are drilled and weighed. */
  readonly cores: boolean;
  /** The kind of meter, where one is used. */
  readonly meter?: MeterKind;
  /** In all arms together. */
  readonly walls: number;
  /** Of the places on each wall, from the lowest. */
  readonly heights_mm: readonly number[];
  /** Their names, as many as `walls`; W01 and so on unless told. */
  readonly names?: readonly string[];
}

/** Meters that are held to a wall; other kinds are written into the plan by hand. */
export const meterKinds = [
  'microwave',
  'resistance',
  'capacitance',
  'humidity-probe',
] as const satisfies readonly InstrumentKind[];

type MeterKind = (typeof meterKinds)[number];

/** Our convention: ten walls an arm, three heights. */
export const defaultChoices: FormChoices = {
  title: '',
  cores: true,
  walls: 20,
  heights_mm: [200, 600, 1000],
};

/** Our convention: beyond, the forms are better made by a program. */
const mostWalls = 500;
const mostHeights = 20;

/** What a text was understood as, or what was expected of it. */
export type Understood<Value> =
  | { readonly kind: 'understood'; readonly value: Value }
  | { readonly kind: 'not-understood'; readonly expected: string };

/**
 * The number of walls that a text says.
 *
 * @example wallsIn('twelve') // { kind: 'not-understood', expected: 'a whole number of walls from 2 to 500' }
 */
export function wallsIn(text: string): Understood<number> {
  const value = Number(text);
  if (/^\d+$/.test(text.trim()) && value >= 2 && value <= mostWalls) return { kind: 'understood', value };
  return { kind: 'not-understood', expected: `a whole number of walls from 2 to ${mostWalls}` };
}

/**
 * Heights in millimetres from a list such as `200, 600, 1000`, lowest first, each once.
 *
 * @example heightsIn('600 200') // { kind: 'understood', value: [200, 600] }
 */
export function heightsIn(text: string): Understood<readonly number[]> {
  const words = text.split(/[\s,;]+/).filter((word) => word !== '');
  const value = [...new Set(words.map(Number))].toSorted((one, other) => one - other);
  const isRight = value.length > 0 && value.length <= mostHeights && words.every((word) => /^\d{1,5}$/.test(word));
  if (isRight) return { kind: 'understood', value };
  const expected = `up to ${mostHeights} heights in whole millimetres, such as 200, 600, 1000`;
  return { kind: 'not-understood', expected };
}

/** A word of a list, in capitals or not. */
export function wordIn<Word extends string>(text: string, words: readonly Word[]): Understood<Word> {
  const value = choiceOfWord(text, words);
  return value === undefined
    ? { kind: 'not-understood', expected: alternatives(words) }
    : { kind: 'understood', value };
}

/** @example wallNames(2) // ['W01', 'W02'] */
export function wallNames(walls: number): readonly string[] {
  const digits = Math.max(2, String(walls).length);
  return Array.from({ length: walls }, (_, index) => `W${String(index + 1).padStart(digits, '0')}`);
}

/** The names of the walls of a trial. */
export function namesOf({ walls, names }: FormChoices): readonly string[] {
  return names ?? wallNames(walls);
}

/** A place on a wall, as the sheet `stations` and the recording sheets name it. */
export interface FormPlace {
  readonly station: string;
  readonly wall: string;
  readonly height_mm: number;
}

/** The places in the order of walking: wall by wall, from the lowest. */
export function placesOf(choices: FormChoices): readonly FormPlace[] {
  return namesOf(choices).flatMap((wall) =>
    choices.heights_mm.map((height_mm) => ({ station: `${wall}-${height_mm}`, wall, height_mm })),
  );
}
