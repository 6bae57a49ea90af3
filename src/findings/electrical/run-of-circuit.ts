import { type ElectricalReading, electricalSeries } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { type ElectricalRecord, secondsOf } from '../../trial/index.js';

/** What one circuit did. */
export interface RunOfCircuit {
  readonly on_s: number;
  readonly off_s: number;
  /** Regardless of the direction of the current. */
  readonly charge_c: number;
  /** Absent where a voltage is lacking while on. */
  readonly energy_j?: number;
  /** Share of the time on in which the current ran against the planned polarity; absent where no polarity is stated. */
  readonly reversedShare?: number;
  /** Apparent resistance V/I at the first and last reading with a current; absent below two. */
  readonly resistance_ohm?: { readonly first: number; readonly last: number };
  /** Charge over what the current of the first 30 days would have carried in the time on; absent without a current then. */
  readonly currentKept?: number;
  /** Mean current while on, in size. */
  readonly current_a?: number;
}

/** The days whose mean current stands for the start: our convention. */
const firstDays_d = 30;
const secondsADay = 86_400;
const exact = { voltage_v: 0, current_a: 0 };

/**
 * Charge, energy and time of one circuit. Rows that are on and state no current are passed over: the trapezoid spans them. A stretch
 * ends where the system is switched off, with the last current until then.
 *
 * @param rows in the order of time
 */
export function runOfCircuit(rows: readonly ElectricalRecord[], planned?: ElectricalRecord['polarity']): RunOfCircuit {
  const used = rows.filter(({ state, current_a }) => state === 'off' || current_a !== undefined);
  const on = used.filter(({ state }) => state === 'on');
  const stretches = stretchesOf(used);
  const series = stretches.map((stretch) => electricalSeries(stretch, exact));
  const on_s = stretches.reduce((sum, stretch) => sum + ends(stretch), 0);
  const span_s = used.length < 2 ? 0 : secondsOf(used.at(-1)?.time ?? '') - secondsOf(used[0]?.time ?? '');
  const charge_c = series.reduce((sum, one) => sum + one.charge_c.value, 0);
  const hasVolts = on.length > 0 && on.every(({ voltage_v }) => voltage_v !== undefined);
  const current_a = on_s > 0 ? charge_c / on_s : undefined;
  const resistance_ohm = resistanceOf(on);
  const reversedShare = reversedOf(used, on_s, planned);
  const currentKept = keptOf(on, charge_c, on_s);
  return {
    ...{ on_s, off_s: span_s - on_s, charge_c },
    ...(hasVolts ? { energy_j: series.reduce((sum, one) => sum + one.energy_j.value, 0) } : {}),
    ...present({ current_a, resistance_ohm, reversedShare, currentKept }),
  };
}

function ends(stretch: readonly ElectricalReading[]): number {
  return (stretch.at(-1)?.time_s ?? 0) - (stretch[0]?.time_s ?? 0);
}

/** Runs of rows that are on, each closed by the row that switched off; those of no length are dropped. */
function stretchesOf(used: readonly ElectricalRecord[]): readonly (readonly ElectricalReading[])[] {
  const stretches: ElectricalReading[][] = [];
  let open: ElectricalReading[] = [];
  for (const { time, state, current_a = 0, voltage_v = 0 } of used) {
    const last = open.at(-1);
    if (state === 'on')
      open.push({ time_s: secondsOf(time), voltage_v: Math.abs(voltage_v), current_a: Math.abs(current_a) });
    else if (last !== undefined) {
      open.push({ ...last, time_s: secondsOf(time) });
      stretches.push(open);
      open = [];
    }
  }
  return [...stretches, open].filter((stretch) => stretch.length > 1);
}

function resistanceOf(on: readonly ElectricalRecord[]): RunOfCircuit['resistance_ohm'] {
  const ohms = on.flatMap(({ voltage_v, current_a = 0 }) =>
    voltage_v === undefined || current_a === 0 ? [] : [Math.abs(voltage_v / current_a)],
  );
  const [first] = ohms;
  const last = ohms.at(-1);
  return ohms.length < 2 || first === undefined || last === undefined ? undefined : { first, last };
}

function keptOf(on: readonly ElectricalRecord[], charge_c: number, on_s: number): number | undefined {
  const [first] = on;
  if (first === undefined || on_s <= 0) return undefined;
  const until = secondsOf(first.time) + firstDays_d * secondsADay;
  const early = on.filter(({ time }) => secondsOf(time) <= until);
  const start = mean(early.map(({ current_a = 0 }) => Math.abs(current_a)));
  return start > 0 ? charge_c / (start * on_s) : undefined;
}

/** Each reading stands for the time until the next row. A negative current runs against the polarity of its row. */
function reversedOf(
  used: readonly ElectricalRecord[],
  on_s: number,
  planned: ElectricalRecord['polarity'],
): number | undefined {
  const stated = planned ?? used.find(({ polarity }) => polarity !== undefined)?.polarity;
  if (stated === undefined || on_s <= 0) return undefined;
  let reversed_s = 0;
  for (const [at, { time, state, polarity = stated, current_a = 0 }] of used.entries()) {
    const next = used[at + 1];
    if (state === 'off' || next === undefined) continue;
    if ((polarity !== stated) !== current_a < 0) reversed_s += secondsOf(next.time) - secondsOf(time);
  }
  return reversed_s / on_s;
}
