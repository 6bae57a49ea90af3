/** The unit that the name of a column ends with. */
const unitsBySuffix: readonly (readonly [string, readonly string[]])[] = [
  ['_kg_m3', ['kg/m3', 'kg/m^3']],
  ['_g', ['g', 'gram', 'grams', 'gr']],
  ['_mm', ['mm', 'millimetre', 'millimetres']],
  ['_c', ['c', '°c', 'degc']],
  ['_pct', ['%', 'pct', 'percent']],
  ['_h', ['h', 'hours', 'hrs']],
];

/** The unit of a column of the contract, as it is written; none of a column whose name has none. */
export function unitOfColumn(column: string): string | undefined {
  return unitsBySuffix.find(([suffix]) => column.endsWith(suffix))?.[1][0];
}

/** Whether a unit as somebody wrote it is that of the column. */
export function isUnitOfColumn(unit: string, column: string): boolean {
  const plain = plainUnit(unit);
  return unitsBySuffix.find(([suffix]) => column.endsWith(suffix))?.[1].includes(plain) ?? false;
}

/** A unit without brackets and capitals. `V` and `mV` keep theirs apart from nothing else. */
function plainUnit(unit: string): string {
  return unit
    .normalize('NFKC')
    .replace(/[[\](){}\s]/g, '')
    .toLowerCase();
}

const unitWords: ReadonlySet<string> = new Set(
  'g gram grams gr kg mg mm millimetre millimetres cm m in % pct percent c °c degc k f °f mv v volt volts h hours hrs min s kg/m3 kg/m^3 g/cm3 ohm kohm mohm Ω'.split(
    ' ',
  ),
);
/** What people put below headings that have no unit. */
const unitFillers = /^(?:-|–|—|n\/a|none|text|name|date|time|no\.?|yes\/no|y\/n|[dmyh/.:\s-]+)$/i;

/** Whether a row is one of units: nothing but units and words for none, and at least one unit. */
export function isUnitsRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '');
  const isUnit = (cell: string) => unitWords.has(plainUnit(cell));
  return filled.some(isUnit) && filled.every((cell) => isUnit(cell) || unitFillers.test(cell.replace(/[[\]()]/g, '')));
}

/**
 * The unit of mass, length or voltage that a heading of somebody's own ends with, as in `Tin g`, `Tare (g)` or `depth_cm`.
 *
 * @example unitInHeading('Tin g') // 'g'
 */
export function unitInHeading(heading: string): string | undefined {
  const unit = /(?:^|[\s_([/,.-])(kg|mg|g|grams?|cm|mm|millimetres?|mV|V|volts?)[\])]?$/.exec(heading.trim())?.[1];
  return unit ?? /(?:^|[\s_([/,.-])(KG|MG|G|Grams?|CM|MM|MV|Volts?)[\])]?$/.exec(heading.trim())?.[1];
}

/** What a container is called in other words than the contract's. */
const containers = /\b(?:tare|tin|dish|beaker|container|crucible|bag|jar|vial|foil|tray)\b/i;

/** Whether a heading is likely to name the mass of a container. */
export function namesContainer(heading: string): boolean {
  return containers.test(heading.replaceAll('_', ' '));
}

/**
 * Whether a heading says that per cent stand below it, which are no masses.
 *
 * @example saysPercent('Moisture (%)') // true
 */
export function saysPercent(heading: string): boolean {
  return /(?:%|(?:^|[\s_([/,.-])(?:pct|per\s?cent))[\])]?$/i.test(heading.trim());
}
