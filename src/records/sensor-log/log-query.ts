import { missingWords } from '../cells/missing-words.js';
import { endOfLog, type LogSource, literal } from './log-source.js';

/** What is to be said of a row before its numbers count. */
export const rowState = { reading: 0, missing: 1, belowDetection: 2, wrong: 3 } as const;

/** Stamps outside are slips of the keyboard, as in every table of a trial. */
const earliest = "TIMESTAMP '1900-01-01'";
const latest = "TIMESTAMP '2200-01-01'";

/**
 * The log's rows as numbers, in columns: a code (see `placeOf` and `stateOf`), milliseconds since 1970 on the wall clock, the value and,
 * where stamps have a zone or rows are sorted, the minutes by which that clock is ahead of Coordinated Universal Time and the
 * row's number. Stamp and value of a row that is no reading mean nothing. The engine reads a stamp as the wall clock shows
 * it and passes over any zone in silence, which is why the zone is cut off and read here. The last row is the mark of the
 * log's end, whose place is one behind that of the last sensor.
 */
export function numbersQuery(source: LogSource, order: 'in-order' | 'sorted'): string {
  const columns = `(4 * place + (${stateIn(source)}))::DOUBLE AS code, epoch_ms(local)::DOUBLE AS local_ms, measured`;
  if (order === 'sorted') {
    return `SELECT ${columns}, ahead::DOUBLE AS ahead, nth::DOUBLE AS nth
      FROM (${typedQuery(source, source.withEnd, ', row_number() OVER () AS nth')}) ORDER BY place, local_ms - 60000 * ahead, nth`;
  }
  const ahead = source.clock === 'with-zone' ? ', ahead::DOUBLE AS ahead' : '';
  return `SELECT ${columns}${ahead} FROM (${typedQuery(source, source.withEnd)})`;
}

/** Makes the engine know the sensors by their places in the list, and the mark of the log's end after the last. */
export function sensorsType(sensors: readonly string[]): string {
  return `CREATE OR REPLACE TYPE sensors AS ENUM (${[...sensors, endOfLog].map(literal).join(', ')})`;
}

/** The sensor of a row's code, by its place in the list of sensors; -1 where it is not there. */
export function placeOf(code: number): number {
  return code >> 2;
}

/** The state of a row by its code, one of `rowState`. */
export function stateOf(code: number): number {
  return code & 3;
}

/** The rows that cannot be read, as texts, with their number below the header; the first ones only. */
export function faultsQuery(source: LogSource, most: number): string {
  return `SELECT nth, time, sensor, value, place, local IS NULL AS wrongTime, (${stateIn(source)}) = ${rowState.wrong} AND local IS NOT NULL
      AND place >= 0 AS wrongValue
    FROM (${typedQuery(source, source.query, ', row_number() OVER () AS nth, time, sensor, value')})
    WHERE place < 0 OR (${stateIn(source)}) = ${rowState.wrong} ORDER BY nth LIMIT ${most}`;
}

/** How many rows cannot be read. */
export function faultCountQuery(source: LogSource): string {
  return `SELECT count(*) FROM (${typedQuery(source, source.query)}) WHERE place < 0 OR (${stateIn(source)}) = ${rowState.wrong}`;
}

/** A number of a size that a sensor can give; what is not a number is larger than any for the engine. */
const isMeasured = 'abs(number) BETWEEN 1e-12 AND 1e12 OR number = 0';

/** What stands in a row that is no measured value is looked at in the last branches alone: in each row it took a sixth of the reading. */
function stateIn({ decimal }: LogSource): string {
  const limit = numberOf('substr(trim(text), 2)', decimal);
  // A long list after IN becomes a join, which hands the rows over in any order.
  return `CASE WHEN local IS NULL OR place < 0 THEN ${rowState.wrong} WHEN measured IS NOT NULL THEN ${rowState.reading}
  WHEN text IS NULL OR list_contains([${['', ...missingWords].map(literal).join(', ')}], lower(trim(text))) THEN ${rowState.missing}
  WHEN starts_with(trim(text), '<') AND ${limit} BETWEEN 1e-12 AND 1e12 THEN ${rowState.belowDetection}
  ELSE ${rowState.wrong} END`;
}

/**
 * The number that a text is in the notation of this log, as in every table of a trial; else NULL. The engine's own reading is wider: it
 * takes `1_000` for a thousand, and a point for decimal where commas are.
 */
function numberOf(text: string, decimal: LogSource['decimal']): string {
  const foreign = decimal === 'comma' ? `contains(${text}, '.') OR contains(${text}, '_')` : `contains(${text}, '_')`;
  const plain = decimal === 'comma' ? `replace(${text}, ',', '.')` : text;
  return `CASE WHEN ${foreign} THEN NULL ELSE coalesce(TRY_CAST(${plain} AS DOUBLE),
    CASE WHEN starts_with(${text}, '\u2212') THEN -TRY_CAST(regexp_extract(${plain}, '^.([0-9.].*)', 1) AS DOUBLE) END) END`;
}

function typedQuery({ clock, decimal }: LogSource, query: string, also = ''): string {
  const [wall, ahead] = clock === 'with-zone' ? [withoutZone, minutesAhead] : ['time', '0'];
  return `SELECT coalesce(${['sensor', 'trim(sensor)', 'nfc_normalize(trim(sensor))'].map(codeOf).join(', ')}, -1) AS place,
      CASE WHEN ${hasShape(wall)} AND ${ahead} IS NOT NULL AND stamp >= ${earliest} AND stamp < ${latest} THEN stamp END AS local,
      ${ahead} AS ahead, CASE WHEN ${isMeasured} THEN number END AS measured, value AS text ${also}
    FROM (SELECT time, sensor, value, TRY_CAST(${wall} AS TIMESTAMP) AS stamp, ${numberOf('value', decimal)} AS number FROM (${query}))`;
}

/** Accents may be written in one sign or two: stations have them in one. */
function codeOf(sensor: string): string {
  return `enum_code(TRY_CAST(${sensor} AS sensors))::INTEGER`;
}

/** `2024-03-01`, `2024-03-01T08:30`, `2024-03-01T08:30:00` or with parts of a second; a blank may stand for the T. */
function hasShape(stamp: string): string {
  return `substr(${stamp}, 5, 1) = '-' AND (strlen(${stamp}) = 19 OR strlen(${stamp}) = 16 OR strlen(${stamp}) = 10
    OR (strlen(${stamp}) > 20 AND substr(${stamp}, 20, 1) = '.' AND regexp_full_match(substr(${stamp}, 21), '[0-9]+')))`;
}

// With a zone: Z, +01:00 or +0100 at the end; a stamp without one has no minutes ahead, and is refused.
const zoneLength = `CASE WHEN right(time, 1) = 'Z' THEN 1 WHEN substr(time, -6, 1) IN ('+', '-') THEN 6
  WHEN length(time) > 15 AND substr(time, -5, 1) IN ('+', '-') THEN 5 ELSE 0 END`;
const withoutZone = `left(time, length(time) - (${zoneLength}))`;
const minutesAhead = `CASE (${zoneLength}) WHEN 1 THEN 0
  WHEN 6 THEN ${minutes('substr(time, -5, 2)')}
  WHEN 5 THEN ${minutes('substr(time, -4, 2)')} END`;

function minutes(hours: string): string {
  // No clock on earth is further ahead or behind.
  return `CASE WHEN regexp_full_match(${hours} || right(time, 2), '(0[0-9]|1[0-4])[0-5][0-9]') THEN
    (CASE WHEN substr(time, -(${"CASE WHEN substr(time, -3, 1) = ':' THEN 6 ELSE 5 END"}), 1) = '-' THEN -1 ELSE 1 END)
    * (60 * TRY_CAST(${hours} AS INTEGER) + TRY_CAST(right(time, 2) AS INTEGER)) END`;
}
