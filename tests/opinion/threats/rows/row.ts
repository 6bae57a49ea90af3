import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import {
  type CoreItem,
  type Direction,
  type Evidence,
  type Grounds,
  type limits,
  type Threat,
  type Trial,
  verdictOfTrial,
} from '../../../../src/index.js';
import { findThreats } from '../../../../src/opinion/threats/find-threats.js';
import { keptInRun } from '../../../helpers/kept-in-run.js';

/**
 * What a search comes back with: its seriousness where the fault is found; `silent` where a core item is not stated; `open` where
 * it cannot be looked for and weighs nothing; `no entry` where it does not apply.
 */
export type Outcome = 'fatal' | 'serious' | 'minor' | 'not found' | 'silent' | 'open' | 'no entry';

export type LimitName = keyof typeof limits;

interface Further {
  /** Of the measure. */
  readonly value?: number;
  readonly pValue?: number;
  readonly direction?: Direction;
  readonly atBest?: Evidence;
  /** Where the silence is one of other items than the search’s own. */
  readonly restsOn?: readonly CoreItem[];
  /** The limit that this trial has just passed. */
  readonly beyond?: LimitName;
  /** The limit that it has just not passed. */
  readonly within?: LimitName;
}

/** A search, a trial, and what the search must come back with. */
export interface Row extends Further {
  readonly code: string;
  readonly outcome: Outcome;
  readonly says: string;
  readonly of: Trial;
  /** For what would take a long trial to make: the grounds, changed by hand. */
  readonly change?: (grounds: Grounds) => Grounds;
}

/** Rows of one search. */
export function rowsOf(
  code: string,
  ...rows: readonly (readonly [outcome: Outcome, says: string, of: Trial, further?: Further & Pick<Row, 'change'>])[]
): Row[] {
  return rows.map(([outcome, says, of, further = {}]) => ({ code, outcome, says, of, ...further }));
}

const known = new Map<Trial, Grounds & { readonly threats: readonly Threat[] }>();

function judged(trial: Trial) {
  const { facts, numbers, threats } = known.get(trial) ?? verdictOfTrial(trial, 1);
  known.set(trial, { facts, numbers, threats });
  return { facts, numbers, threats };
}

/** Asked for by the tests of a domain and by those of every search, which may run in another worker. */
export function threatsOf(row: Row): readonly Threat[] {
  const { of, change } = row;
  return keptInRun(`threats-${nameOfRow(row)}`, () => {
    const { threats, ...grounds } = judged(of);
    return change === undefined ? threats : findThreats(change(grounds));
  });
}

/** No two rows have the same, which `every-search.test.ts` holds them to. */
export function nameOfRow({ code, outcome, says }: Row): string {
  return createHash('sha256')
    .update(JSON.stringify([code, outcome, says]))
    .digest('hex');
}

export function outcomeOf(threat: Threat | undefined): Outcome {
  if (threat === undefined) return 'no entry';
  const { finding, seriousness } = threat;
  if (finding === 'not-found') return 'not found';
  if (finding === 'found') return seriousness ?? 'not found';
  return seriousness === 'serious' ? 'silent' : 'open';
}

/** Holds every row against the list of threats of its trial. */
export function testRows(rows: readonly Row[]): void {
  describe.each([...new Set(rows.map(({ code }) => code))])('%s', (code) => {
    it.each(rows.filter((row) => row.code === code))('$outcome: $says', (row) => {
      const threat = threatsOf(row).find((one) => one.code === code);
      expect(outcomeOf(threat)).toBe(row.outcome);
      if (row.value !== undefined) expect(threat?.measure?.value).toBeCloseTo(row.value, 9);
      if (row.pValue !== undefined) expect(threat?.measure?.pValue).toBeCloseTo(row.pValue, 9);
      if (row.direction !== undefined) expect(threat?.direction).toBe(row.direction);
      if (row.restsOn !== undefined) expect(threat?.restsOn).toEqual(row.restsOn);
      if (threat !== undefined) expect(threat.evidenceAtBest).toBe(row.atBest);
    });
  });
}
