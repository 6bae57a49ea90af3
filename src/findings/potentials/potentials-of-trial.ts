import type { Side } from '../../analysis/index.js';
import {
  checkedSetup,
  fewestReversals,
  isMoistureError,
  offsetOfReversals,
  type PairedReversal,
  type PotentialSetup,
  type PotentialsOfWall,
  potentialOfPoint,
  type ReversalOffset,
  type SignChangesOfWalls,
  signChangesOfWalls,
} from '../../moisture/index.js';
import { isoDay } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { mean } from '../../statistics/index.js';
import type { Reading, Trial } from '../../trial/index.js';
import { computed, notComputed } from '../instruments/computed.js';
import type { Computed } from '../instruments/instrument-facts.js';

export interface PotentialFacts {
  readonly instrument: string;
  readonly setup: PotentialSetup;
  readonly readings: number;
  /** Places and days read one way of the leads only; what the meter adds, where known, was subtracted. */
  readonly oneWay: number;
  /** Absent without readings with reversed leads. */
  readonly offset?: Computed<ReversalOffset>;
  /** Standard uncertainty of a wall's mean at a visit, from the scatter of its places, and of what was subtracted. */
  readonly ofVisit_mv?: number;
  readonly signs: Computed<SignChangesOfWalls>;
}

type MeasuredReading = Reading & { readonly value: { readonly kind: 'measured'; readonly value: number } };

/** What voltages show on their own: what the meter adds, and when signs changed in treated and untreated walls. */
export function potentialsOfTrial(trial: Trial, sides: ReadonlyMap<string, Side>): readonly PotentialFacts[] {
  const { instruments, confidence: level } = trial.protocol;
  return instruments
    .filter(({ kind }) => kind === 'potential')
    .flatMap((stated) => {
      const setup = setupOf(stated);
      const readings = trial.readings.filter(
        (reading): reading is MeasuredReading =>
          reading.instrument === stated.instrument && reading.value.kind === 'measured' && sides.has(reading.wall),
      );
      if (setup === undefined || readings.length === 0) return [];
      const reversals = reversalsOf(readings);
      const offset = reversals.length === 0 ? undefined : offsetIn(reversals, level);
      const known = offset?.kind === 'computed' ? offset.value : undefined;
      const { visits, oneWay } = visitsOf(readings, setup, known?.offset_mv ?? 0);
      const scatter_mv = scatterOfMeans(visits);
      const ofVisit_mv =
        scatter_mv === undefined || oneWay === 0 ? scatter_mv : Math.hypot(scatter_mv, known?.standardError_mv ?? 0);
      return [
        {
          instrument: stated.instrument,
          setup,
          readings: readings.length,
          oneWay,
          ...present({ offset, ofVisit_mv }),
          signs: signsOf(visits, sides, ofVisit_mv, level),
        },
      ];
    });
}

function setupOf(stated: Parameters<typeof checkedSetup>[0]): PotentialSetup | undefined {
  return unlessRefused(isMoistureError, () => checkedSetup(stated));
}

function placeKey({ date, wall, station }: Reading): string {
  return [isoDay(date), wall, station].join('\u0000');
}

/** A reading each way of the leads at one place on one day. */
function reversalsOf(readings: readonly MeasuredReading[]): readonly PairedReversal[] {
  const places = [...groupBy(readings, placeKey).values()];
  const pairs = places.flatMap((own) => {
    const asStated = own.find(({ lead }) => lead !== 'reversed');
    const reversed = own.find(({ lead }) => lead === 'reversed');
    if (asStated === undefined || reversed === undefined) return [];
    return [{ day: isoDay(asStated.date), asStated_mv: asStated.value.value, reversed_mv: reversed.value.value }];
  });
  return pairs.sort((one, other) => (one.day < other.day ? -1 : one.day > other.day ? 1 : 0));
}

function offsetIn(reversals: readonly PairedReversal[], level: number): Computed<ReversalOffset> {
  return computed(() => offsetOfReversals(reversals, { level }), {
    'too-few': { code: 'too-few-reversals', pairs: reversals.length, needed: fewestReversals },
  });
}

interface VisitOfWall {
  readonly wall: string;
  readonly day: string;
  /** One a place: what the meter adds has dropped out where both ways of the leads were read, and was subtracted elsewhere. */
  readonly places_mv: readonly number[];
}

function visitsOf(
  readings: readonly MeasuredReading[],
  setup: PotentialSetup,
  offset_mv: number,
): { readonly visits: readonly VisitOfWall[]; readonly oneWay: number } {
  let oneWay = 0;
  const places = [...groupBy(readings, placeKey).values()].flatMap((own) => {
    const [first] = own;
    if (first === undefined) return [];
    const leads = [...groupBy(own, ({ lead = 'as-stated' }) => lead).values()];
    const adds = leads.length === 1 ? offset_mv : 0;
    if (leads.length === 1) oneWay++;
    const voltage_mv = mean(
      leads.map((each) => mean(each.map(({ value, lead }) => potentialOfPoint(value.value - adds, setup, lead)))),
    );
    return [{ wall: first.wall, day: isoDay(first.date), voltage_mv }];
  });
  const visits = [...groupBy(places, ({ wall, day }) => `${day}\u0000${wall}`).values()].flatMap((own) => {
    const [first] = own;
    if (first === undefined) return [];
    return [{ wall: first.wall, day: first.day, places_mv: own.map(({ voltage_mv }) => voltage_mv) }];
  });
  return { visits, oneWay };
}

/** Pooled scatter of the places of a wall at a visit, over the root of how few any visit has. */
function scatterOfMeans(visits: readonly VisitOfWall[]): number | undefined {
  const several = visits.filter(({ places_mv }) => places_mv.length > 1);
  const freedom = several.reduce((sum, { places_mv }) => sum + places_mv.length - 1, 0);
  if (freedom === 0) return undefined;
  const squares = several.reduce((sum, { places_mv }) => {
    const centre = mean(places_mv);
    return places_mv.reduce((inner, voltage) => inner + (voltage - centre) ** 2, sum);
  }, 0);
  const fewest = Math.min(...visits.map(({ places_mv }) => places_mv.length));
  return squares > 0 ? Math.sqrt(squares / freedom / fewest) : undefined;
}

function signsOf(
  visits: readonly VisitOfWall[],
  sides: ReadonlyMap<string, Side>,
  standardUncertainty_mv: number | undefined,
  level: number,
): PotentialFacts['signs'] {
  if (standardUncertainty_mv === undefined) return notComputed({ code: 'no-two-places-on-a-day' });
  const walls = [...groupBy(visits, ({ wall }) => wall)].flatMap(([wall, own]): PotentialsOfWall[] => {
    const side = sides.get(wall);
    if (side === undefined || own.length < 2) return [];
    const inOrder = [...own].sort((one, other) => (one.day < other.day ? -1 : 1));
    return [
      {
        ...{ wall, side },
        visits: inOrder.map(({ day, places_mv }) => ({ day, voltage_mv: mean(places_mv), standardUncertainty_mv })),
      },
    ];
  });
  return computed(() => signChangesOfWalls(walls, { level }), { 'too-few': { code: 'no-visits-to-compare' } });
}
