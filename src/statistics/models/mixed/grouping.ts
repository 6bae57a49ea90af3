/** Labels as whole numbers from 0, in the order in which levels first appear. */
export interface Grouping {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** Numbers the levels of a column. A number and its text are the same label. */
export function grouping(labels: readonly (string | number)[]): Grouping {
  const seen = new Map<string | number, number>();
  const levels: string[] = [];
  const codes = new Int32Array(labels.length);
  for (let row = 0; row < labels.length; row++) {
    const label = labels[row]!;
    // Rows of one level usually follow one another.
    const known = row > 0 && label === labels[row - 1] ? codes[row - 1] : seen.get(label);
    codes[row] = known ?? register(seen, levels, label);
  }
  return { levels, codes };
}

function register(seen: Map<string | number, number>, levels: string[], label: string | number): number {
  const text = String(label);
  const code = seen.get(text) ?? levels.push(text) - 1;
  seen.set(text, code);
  seen.set(label, code);
  return code;
}

/** Whether every level of one grouping lies inside a single level of the other. */
export function isNested(inner: Grouping, outer: Grouping): boolean {
  const home = new Int32Array(inner.levels.length).fill(-1);
  return inner.codes.every((code, row) => {
    const before = home[code]!;
    home[code] = outer.codes[row]!;
    return before < 0 || before === outer.codes[row];
  });
}
