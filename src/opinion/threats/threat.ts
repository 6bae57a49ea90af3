import type { Interval } from '../../statistics/index.js';
import type { CountsWith } from '../evidence.js';
import type { Evidence, Seriousness } from '../verdict.js';
import type { CoreItem } from './core-list.js';
import type { DecidingFigure } from './decided-by.js';
import type { Grounds } from './grounds.js';

/**
 * The domains of bias that published guidance on judging controlled trials uses (the randomisation process, deviations from the
 * intended interventions, missing outcome data, measurement of the outcome, selection of the reported result), in their order.
 */
export const threatDomains = [
  'allocation',
  'departures-and-timing',
  'missing-data',
  'measurement',
  'choice-of-result',
] as const;

export type ThreatDomain = (typeof threatDomains)[number];

/** Where a threat moves the result. */
export type Direction = 'towards the claim' | 'away from the claim' | 'either way';

/** The number of a threat, with its interval where it has one. */
export interface Measure {
  readonly value: number;
  readonly unit: string;
  readonly interval?: Interval;
  readonly pValue?: number;
}

interface Looked {
  /** The facts in one or two sentences, with their numbers. */
  readonly text: string;
  readonly measure?: Measure;
  /** Where it differs from what the search says of itself. */
  readonly direction?: Direction;
  readonly remedy?: string;
  /** What it would have to be to change the verdict, where that is not a bias of the difference. */
  readonly tipping?: string;
}

/** What a search comes back with. */
export type Finding =
  | (Looked & { readonly kind: 'found'; readonly seriousness: Seriousness; readonly evidenceAtBest?: Evidence })
  | (Looked & { readonly kind: 'not-found' })
  /** `needs` is what the folder would have to say. Only silence on a core item carries a seriousness. */
  | (Looked & {
      readonly kind: 'could-not-be-looked-for';
      readonly needs: string;
      readonly seriousness?: Seriousness;
      readonly evidenceAtBest?: Evidence;
      /** Where the silence is one of other items too. */
      readonly restsOn?: readonly CoreItem[];
    });

/** One thing that is looked for in every trial to which it applies. */
export interface Search {
  readonly code: string;
  readonly domain: ThreatDomain;
  readonly name: string;
  /** Ends the sentence “It was looked for whether …”. */
  readonly lookedFor: string;
  readonly direction: Direction;
  /** What would have avoided it. */
  readonly remedy: string;
  /** Statements of the core list without which it cannot be seen: threats that rest on the same one count once. */
  readonly restsOn?: readonly CoreItem[];
  /** Those that are one thing seen from several sides count once. */
  readonly countsWith?: CountsWith;
  /** Nothing where it does not apply to such a trial. */
  readonly look: (grounds: Grounds) => Finding | undefined;
}

/** An entry of the list of threats to validity. */
export interface Threat {
  readonly code: string;
  readonly domain: ThreatDomain;
  readonly name: string;
  readonly lookedFor: string;
  readonly finding: Finding['kind'];
  /** What was counted or measured, or why it could not be. */
  readonly text: string;
  /** What the folder would have to say; only where it could not be looked for. */
  readonly needs?: string;
  readonly measure?: Measure;
  readonly direction: Direction;
  /** What it would have to be to change the verdict, in words. */
  readonly tipping: string;
  /** Whether that is a bias of the difference, as for most, or something of its own. */
  readonly tippingIs: 'bias' | 'its-own';
  /** The smallest bias in that direction that changes the verdict, in the outcome’s unit; absent where none does. */
  readonly tippingPoint?: number;
  /** Absent where it weighs nothing. */
  readonly seriousness?: Seriousness;
  readonly evidenceAtBest?: Evidence;
  readonly restsOn: readonly CoreItem[];
  readonly countsWith?: CountsWith;
  readonly remedy: string;
  /** The limits and figures that decided, each with its mark; empty where it could not be looked for. */
  readonly decidedBy: readonly DecidingFigure[];
}

export function found(
  seriousness: Seriousness,
  text: string,
  more: Partial<Omit<Extract<Finding, { kind: 'found' }>, 'kind' | 'seriousness' | 'text'>> = {},
): Finding {
  return { kind: 'found', seriousness, text, ...more };
}

export function notFound(text: string, more: Partial<Omit<Looked, 'text'>> = {}): Finding {
  return { kind: 'not-found', text, ...more };
}

/** Listed, and weighs nothing. */
export function couldNotLook(needs: string, text: string): Finding {
  return { kind: 'could-not-be-looked-for', needs, text };
}

/** Silence on a core item: it weighs as much as finding its fault. */
export function silent(
  needs: string,
  text: string,
  more: { readonly evidenceAtBest?: Evidence } = {},
): Extract<Finding, { kind: 'could-not-be-looked-for' }> {
  return { kind: 'could-not-be-looked-for', needs, text, seriousness: 'serious', ...more };
}

/** Whether it counts towards the evidence: found, or silent on a core item. */
export function isWeighed(threat: Threat): threat is Threat & { readonly seriousness: Seriousness } {
  return threat.seriousness !== undefined;
}
