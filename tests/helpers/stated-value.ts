/**
 * Holds a value against the comment that states it, as in `mean([1, 2, 6]) // 3`: says how they differ, nothing where they agree.
 *
 * A comment begins with a value as one would write it in code: a number, text, `true`, a list, a record. What follows it after a blank or
 * a mark (a unit, a remark) is not read. A number agrees to the digits written; a whole number, and a fraction such as 4/3, is meant
 * exactly; `0.857…` says that more digits follow, and `…` at the end of a list or record that more entries do.
 */
export function disagreement(stated: string, actual: unknown): string | undefined {
  const reader = { text: stated, at: 0 };
  const agrees = readValue(reader);
  if (agrees === undefined || /^\w/.test(rest(reader))) return `"${stated}" states no value`;
  return agrees(actual) ? undefined : `says ${stated}, and comes out as ${shown(actual)}`;
}

type Agrees = (actual: unknown) => boolean;
interface Reader {
  readonly text: string;
  at: number;
}

const words: Readonly<Record<string, unknown>> = { true: true, false: false, undefined: undefined };
const slack = 1e-13;

function readValue(reader: Reader): Agrees | undefined {
  const word = take(reader, /^(?:true|false|undefined)\b/);
  if (word !== undefined) return (actual) => Object.is(actual, words[word]);
  const text = take(reader, /^'[^']*'/);
  if (text !== undefined) return (actual) => actual === text.slice(1, -1);
  if (take(reader, /^\[/) !== undefined) return readList(reader);
  if (take(reader, /^\{/) !== undefined) return readRecord(reader);
  const big = take(reader, /^-?\d+n\b/);
  if (big !== undefined) return (actual) => actual === BigInt(big.slice(0, -1));
  const fraction = take(reader, /^-?\d+ ?\/ ?\d+/);
  if (fraction !== undefined) {
    const [over = Number.NaN, under = Number.NaN] = fraction.split('/').map(Number);
    return near(over / under, 0);
  }
  return readNumber(reader);
}

function readNumber(reader: Reader): Agrees | undefined {
  const number = take(reader, /^-?\d+(?:\.\d+)?(?:e-?\d+)?/);
  if (number === undefined) return undefined;
  const [digits = '', exponent = '0'] = number.split('e');
  const decimals = digits.split('.')[1]?.length ?? 0;
  const lastPlace = decimals === 0 && exponent === '0' ? 0 : 10 ** (Number(exponent) - decimals);
  return near(Number(number), take(reader, /^(?:…|\.\.\.)/) === undefined ? lastPlace / 2 : lastPlace);
}

function near(value: number, reach: number): Agrees {
  return (actual) => typeof actual === 'number' && Math.abs(actual - value) <= reach + slack * Math.abs(value);
}

function readList(reader: Reader): Agrees | undefined {
  const items: Agrees[] = [];
  const isOpen = readEntries(reader, /^\]/, () => add(items, readValue(reader)));
  if (isOpen === undefined) return undefined;
  return (actual) => {
    if (!(Array.isArray(actual) || actual instanceof Float64Array)) return false;
    const isLong = isOpen ? actual.length > items.length : actual.length === items.length;
    return isLong && items.every((agrees, index) => agrees(actual[index]));
  };
}

function readRecord(reader: Reader): Agrees | undefined {
  const entries = new Map<string, Agrees>();
  const isOpen = readEntries(reader, /^\}/, () => {
    const key = take(reader, /^(?:\w+|'[^']*'):/)?.replace(/^'|'?:$/g, '');
    const agrees = readValue(reader);
    if (key === undefined || agrees === undefined) return false;
    entries.set(key, agrees);
    return true;
  });
  if (isOpen === undefined) return undefined;
  return (actual) => {
    if (typeof actual !== 'object' || actual === null) return false;
    const isWhole = isOpen || Object.keys(actual).length === entries.size;
    return isWhole && [...entries].every(([key, agrees]) => agrees((actual as Record<string, unknown>)[key]));
  };
}

/** Entries between commas up to the end; answers whether `…` stands before it, and nothing where the text is no list of them. */
function readEntries(reader: Reader, end: RegExp, readEntry: () => boolean): boolean | undefined {
  while (take(reader, end) === undefined) {
    if (take(reader, /^(?:…|\.\.\.)/) !== undefined) return take(reader, end) === undefined ? undefined : true;
    if (!readEntry()) return undefined;
    if (take(reader, /^,/) === undefined && !end.test(rest(reader).trimStart())) return undefined;
  }
  return false;
}

function add(items: Agrees[], one: Agrees | undefined): boolean {
  if (one !== undefined) items.push(one);
  return one !== undefined;
}

/** What the pattern finds at the place reached, blanks before it passed over. */
function take(reader: Reader, pattern: RegExp): string | undefined {
  const ahead = rest(reader);
  const blanks = ahead.length - ahead.trimStart().length;
  const found = pattern.exec(ahead.trimStart())?.[0];
  if (found !== undefined) reader.at += blanks + found.length;
  return found;
}

function rest({ text, at }: Reader): string {
  return text.slice(at);
}

function shown(value: unknown): string {
  if (typeof value === 'bigint') return `${value}n`;
  return JSON.stringify(value)?.slice(0, 400) ?? String(value);
}
