/** A wall's mean at one place on one day. */
export interface PlaceReading {
  readonly place: string;
  readonly day: string;
  readonly window: 'before' | 'after';
  readonly value: number;
}
