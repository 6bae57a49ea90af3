import type { Protocol, Windows } from './protocol.js';

/** A plan as it was sealed: the content of `lock.json`, whose seal was found to fit it. */
export interface PlanLock {
  /** ISO date by the clock of the machine that sealed it. */
  readonly lockedOn: string;
  /** Of the program that sealed it. */
  readonly version: string;
  readonly protocol: Protocol;
  readonly walls: readonly LockedWall[];
  /** SHA-256 of everything above in its canonical form, 64 lower-case hexadecimal digits. */
  readonly sha256: string;
}

/** What a plan decides about a wall. */
export interface LockedWall {
  readonly wall: string;
  readonly arm: string;
  readonly block?: string;
  readonly site?: string;
  readonly windows?: Windows;
}
