import { describe, expect, it } from 'vitest';
import * as fairwall from '../src/index.js';
import * as calendar from '../src/plain/calendar.js';
import * as days from '../src/plain/days.js';
import * as groups from '../src/plain/group-by.js';
import * as order from '../src/plain/in-order.js';
import * as refusals from '../src/plain/unless-refused.js';
import * as statistics from '../src/statistics/index.js';
import * as tables from '../src/tables/arquero.js';
import { documentedFunctions, givenOf, partsOf } from './helpers/doc-examples.js';
import { disagreement } from './helpers/stated-value.js';

/** Code may wait for something, as the examples that read a folder do. */
const AsyncFunction = (async () => undefined).constructor as FunctionConstructor;

const { addTo: _, ...grouping } = groups;
/** What every room may use, and no face hands on. */
const plain = { ...days, ...calendar, ...grouping, ...order, ...refusals };
const faces = [
  { face: statistics, given: ['src/statistics/index.ts'] },
  { face: fairwall, given: ['src/index.ts', 'src/charts/index.ts'] },
  {
    face: { recordsOf: tables.recordsOf, tableOf: tables.tableOf, tablesOf: tables.tablesOf },
    given: ['src/tables/arquero.ts'],
  },
  { face: plain, given: ['src/plain/days.ts'] },
];
const known = { ...statistics, ...fairwall, ...tables, ...plain };
const documented = documentedFunctions();

for (const { face, given: files } of faces) {
  describe(`Examples of ${files[0]}`, async () => {
    const given = await runGiven(files.flatMap(givenOf));
    for (const name of functionsOf(face)) {
      it(`${name}: each is right`, async () => {
        const declared = documented.get(name) ?? [];
        expect(declared.map(({ file }) => file)).toHaveLength(1);
        const [{ examples } = { examples: [] }] = declared;
        expect(examples.length, 'examples').toBeGreaterThan(0);
        for (const example of examples) expect(await faultsOf(example, given)).toEqual([]);
      });
    }
  });
}

/** Classes need no example, and a constant is its own. */
function functionsOf(face: object): readonly string[] {
  const functions = Object.entries(face).filter(
    ([, value]) => typeof value === 'function' && !/^class\b/.test(`${value}`),
  );
  return functions.map(([name]) => name).sort();
}

/** Runs an example and says where it differs from what it states; the value of its last part must be stated. */
async function faultsOf(example: readonly string[], given: object): Promise<readonly string[]> {
  const parts = partsOf(example);
  if (parts.at(-1)?.stated === undefined) return [`states no value at its end: ${example.join('\n')}`];
  const code = parts.map(({ code, stated }) => (stated === undefined ? code : `$values.push(await (\n${code}\n));`));
  const values = (await run(code, { ...known, ...given }, '$values')) as readonly unknown[];
  const stated = parts.flatMap((part) => (part.stated === undefined ? [] : [part.stated]));
  return stated.flatMap((text, index) => disagreement(text, values[index]) ?? []);
}

/** Runs the code that a face gives to all its examples, and answers with what it names. */
async function runGiven(lines: readonly string[]): Promise<object> {
  const names = [...lines.join('\n').matchAll(/^const (\w+) =/gm)].map(([, name]) => name);
  return (await run(lines, known, `{ ${names.join(', ')} }`)) as object;
}

/** In a block, so that an example may give its own values the names of functions. */
function run(code: readonly string[], names: object, result: string): Promise<unknown> {
  const body = `const $values = []; { ${code.join('\n')}\nreturn ${result}; }`;
  const named = new Set(body.match(/[\w$]+/g));
  const used = Object.entries(names).filter(([name]) => named.has(name));
  return new AsyncFunction(...used.map(([name]) => name), body)(...used.map(([, value]) => value));
}

describe('disagreement(stated, actual)', () => {
  it.each([
    ['0.88', 0.876],
    ['0.87… of it', 0.8799],
    ['-2 °C', -2],
    ['15/16', 0.9375],
    ["['a', 2.50, …], and more", ['a', 2.504, true]],
    ["{ 'arm: treated': 1, b: undefined }", { 'arm: treated': 1, b: undefined }],
    ['{ a: 1, … }', { a: 1, b: 2 }],
    ['12n', 12n],
  ] as const)('%s agrees', (stated, actual) => expect(disagreement(stated, actual)).toBeUndefined());

  it.each([
    ['0.87', 0.876],
    ['0.87…', 0.8801],
    ['-2', -2.1],
    ['15/16', 0.9374],
    ["['a']", ['a', 'b']],
    ['{ a: 1 }', { a: 1, b: 2 }],
    ["'a'", 'b'],
    ['true', 'true'],
    ['12', 12n],
  ] as const)('%s does not agree', (stated, actual) => expect(disagreement(stated, actual)).toMatch(/comes out as/));

  it.each(['', 'near 0', '[1, 2', '{ a 1 }'])('"%s" states no value', (stated) => {
    expect(disagreement(stated, 1)).toMatch(/states no value/);
  });
});
