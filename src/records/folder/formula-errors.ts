/** A cell of a sheet whose formula came to no value. */
export interface FormulaError {
  readonly row: number;
  /** Counted from 0. */
  readonly column: number;
  /** For instance `#DIV/0!`. */
  readonly error: string;
}

/**
 * The cells of each sheet that hold a formula error. The workbook reader gives them out as empty, and an empty cell means
 * a missing value; a value that a formula failed to compute is another matter and must not pass for one.
 *
 * @param files - the unpacked workbook.
 * @returns errors by the name of the sheet.
 */
export function formulaErrors(files: ReadonlyMap<string, Uint8Array>): ReadonlyMap<string, readonly FormulaError[]> {
  const textOf = (name: string) => new TextDecoder().decode(files.get(name) ?? new Uint8Array());
  const targets = new Map(
    elements(textOf('xl/_rels/workbook.xml.rels'), 'Relationship').map((one) => [one('Id'), one('Target')]),
  );
  const sheets = elements(textOf('xl/workbook.xml'), 'sheet');
  return new Map(
    sheets.map((sheet) => {
      const target = (targets.get(sheet('r:id')) ?? '').replace(/^\/?(?:xl\/)?/, 'xl/');
      return [withoutEntities(sheet('name')), errorsIn(textOf(target))];
    }),
  );
}

/** The start tags of one name, each as a function from an attribute to its value. */
function elements(xml: string, name: string): ((attribute: string) => string)[] {
  return [...xml.matchAll(new RegExp(`<(?:\\w+:)?${name}\\s([^>]*)>`, 'g'))].map((match) => (attribute) => {
    return new RegExp(`(?:^|\\s)${attribute}\\s*=\\s*["']([^"']*)["']`).exec(match[1] ?? '')?.[1] ?? '';
  });
}

function errorsIn(sheet: string): FormulaError[] {
  const cells = sheet.matchAll(/<((?:\w+:)?c)\s([^>]*\bt=["']e["'][^>]*)>(.*?)<\/\1>/gs);
  return [...cells].map(([, , attributes = '', content = '']) => {
    const [, letters = '', row = ''] = /\br=["']([A-Z]+)(\d+)["']/.exec(attributes) ?? [];
    const error = /<(?:\w+:)?v>([^<]*)</.exec(content)?.[1] ?? '#VALUE!';
    return { row: Number(row), column: columnOf(letters), error: withoutEntities(error) };
  });
}

/** A, B, …, Z, AA, AB, … */
function columnOf(letters: string): number {
  return [...letters].reduce((column, letter) => column * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

function withoutEntities(text: string): string {
  return text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&apos;', "'")
    .replaceAll('&amp;', '&');
}
