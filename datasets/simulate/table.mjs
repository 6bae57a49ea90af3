/** How one file is written down: as English or as continental spreadsheets write it. */
const pointAndComma = { separator: ',', decimal: '.' };
export const commaAndSemicolon = { separator: ';', decimal: ',' };

/** A number with a fixed count of decimals, still with a decimal point. */
export function decimals(value, count) {
  return value.toFixed(count);
}

const number = /^<?-?\d+\.\d+$/;

function cell(text, style) {
  const written = number.test(text) ? text.replace('.', style.decimal) : text;
  return written.includes(style.separator) || written.includes('"') ? `"${written.replaceAll('"', '""')}"` : written;
}

/** CSV text with a header row; the columns are those of the first record. */
export function csv(records, style = pointAndComma) {
  const columns = Object.keys(records[0]);
  const rows = records.map((record) => columns.map((column) => cell(String(record[column]), style)));
  return [columns, ...rows].map((row) => `${row.join(style.separator)}\n`).join('');
}
