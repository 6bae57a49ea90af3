import {
  evaporation_mm_per_day,
  type FromTo,
  type LedgerDriver,
  openShare,
  zeta_mV,
} from '../../findings/potentials/voltage-ledger.js';

/**
 * What moves the water of a ledger entry, at the beginning of a row.
 *
 * @example ledgerDriverInWords({ kind: 'evaporation' }) // 'Evaporation from the wall'
 */
export function ledgerDriverInWords(driver: LedgerDriver): string {
  if (driver.kind === 'evaporation') return 'Evaporation from the wall';
  switch (driver.of) {
    case 'weak-example':
      return `A field of ${driver.field_v_per_m} V/m, an example`;
    case 'claim':
      return `The field that the plan says the treatment makes, ${driver.field_v_per_m} V/m`;
    case 'strong-example':
      return `A field of ${driver.field_v_per_m} V/m, an example of a strong one`;
  }
}

/**
 * How the water of an entry was computed; what fields move is computed alike, and told at the first.
 *
 * @example ledgerMethodInWords({ kind: 'field', field_v_per_m: 100, of: 'strong-example' }) // 'computed in the same way'
 */
export function ledgerMethodInWords(driver: LedgerDriver): string {
  if (driver.kind === 'evaporation')
    return `computed: steady sharp front, textbook values; evaporation ${rangeInWords(evaporation_mm_per_day)} mm a day (from memory, weak)`;
  if (driver.of !== 'weak-example') return 'computed in the same way';
  return `computed: zeta ${rangeInWords(zeta_mV)} mV in size (none where there is much lime: Eslami and others 2024, abstract; the upper end from memory, weak), open share ${openShare} (an assumption, no source)`;
}

function rangeInWords({ low, high }: FromTo): string {
  return `${low} to ${high}`;
}
