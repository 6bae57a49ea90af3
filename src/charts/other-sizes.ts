import type { Spec, View } from 'vega';
import type { ChartSpecification } from './chart-specification.js';

/**
 * Sizes of one chart in one dataflow. Half of the time that a chart takes goes into building it from a specification, whatever it shows:
 * two sizes with the same layers are built once, with signals in place of what differs, and the second is drawn after a change of these.
 */

/** What the dataflow is told to draw another size. */
export interface OtherSize {
  readonly width: number;
  readonly height: number;
  readonly padding: Padding;
  readonly signals: Readonly<Record<string, unknown>>;
  readonly rows: Readonly<Record<string, readonly object[]>>;
}

type Padding = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

interface Channel {
  readonly axis?: Readonly<Record<string, unknown>> | null;
  readonly scale?: Readonly<Record<string, unknown>> | null;
}

interface Layer {
  readonly data: { readonly values: readonly object[] };
  readonly mark: Readonly<Record<string, unknown>>;
  readonly encoding: Readonly<Record<string, Channel>>;
}

/** As `frame` makes it. */
interface Framed {
  readonly width: number;
  readonly height: number;
  readonly padding: Padding;
  readonly title: Readonly<Record<string, unknown>>;
  readonly layer: readonly Layer[];
}

const ofTitle = ['text', 'subtitle', 'dx', 'offset'] as const;
const ofAxis = ['title', 'tickCount', 'values'] as const;
const ofScale = ['domain', 'range'] as const;
const channels = ['x', 'y'] as const;

/** The first size compiled, and those after it that its dataflow can be turned to. */
export function compiledWith(
  sizes: readonly ChartSpecification[],
  compile: (specification: ChartSpecification) => Spec,
): { readonly compiled: Spec; readonly others: readonly OtherSize[] } {
  const [first, second] = sizes;
  // The engine numbers the rows that it draws, in the rows themselves: facts of an opinion may be among them.
  const alone = structuredClone(first ?? {});
  if (second === undefined || !isFramed(alone) || !isFramed(second)) return { compiled: compile(alone), others: [] };
  const [own, turned] = [levelled(alone, second), levelled(second, alone)];
  if (shapeOf(own) !== shapeOf(turned)) return { compiled: compile(alone), others: [] };
  const compiled = compile({ ...own, layer: own.layer.map(named) } as unknown as ChartSpecification);
  const other = withSignals(compiled as unknown as Compiled, own, turned);
  // Where the compiler has made something else of a value, the second size is built by itself.
  return other === undefined ? { compiled: compile(alone), others: [] } : { compiled, others: [other] };
}

/** A look that all rows share in one size and not in the other stands in the rows of both. */
function levelled(chart: Framed & ChartSpecification, other: Framed): Framed {
  const layer = chart.layer.map((each, at) => {
    const others = other.layer[at]?.mark ?? {};
    const shared = Object.entries(each.mark).filter(
      ([key, value]) => isLook(value) && others[key] !== undefined && !isLook(others[key]),
    );
    if (shared.length === 0) return each;
    const [looks, columns] = [Object.fromEntries(shared), shared.map(([key]) => [key, { expr: `datum.${key}` }])];
    return {
      ...each,
      data: { values: each.data.values.map((row) => ({ ...row, ...looks })) },
      mark: { ...each.mark, ...Object.fromEntries(columns) },
    };
  });
  return { ...chart, layer };
}

function isLook(value: unknown): boolean {
  return typeof value !== 'object' || value === null || !('expr' in value);
}

/** Makes the dataflow draw the other size from now on. */
export function turnTo(view: View, { width, height, padding, signals, rows }: OtherSize): void {
  view.width(width).height(height).padding(padding);
  for (const [name, value] of Object.entries(signals)) view.signal(name, value);
  for (const [name, values] of Object.entries(rows)) view.data(name, structuredClone(values) as object[]);
}

function isFramed(specification: ChartSpecification): specification is Framed & ChartSpecification {
  return 'layer' in specification && 'padding' in specification && 'title' in specification;
}

/** All of a specification but for what two sizes may differ in. */
function shapeOf({ layer, title, ...rest }: Framed): string {
  return JSON.stringify({
    ...{ ...rest, width: 0, height: 0, padding: 0, description: 0 },
    title: without(title, ofTitle),
    layer: layer.map(({ mark, encoding }) => ({
      mark,
      encoding: Object.entries(encoding).map(([key, { axis, scale, ...channel }]) => [
        ...[key, channel],
        ...[axis && without(axis, ofAxis), scale && without(scale, ofScale)],
      ]),
    })),
  });
}

function without(record: Readonly<Record<string, unknown>>, keys: readonly string[]): object {
  return Object.entries(record).map(([key, value]) => [key, keys.includes(key) ? 0 : value]);
}

function rowsName(layer: number): string {
  return `rows_${layer}`;
}

function named(layer: Layer, at: number): object {
  return { ...layer, data: { ...layer.data, name: rowsName(at) } };
}

type Part = Record<string, unknown>;

/** What is used of a Vega specification here. */
interface Compiled {
  signals?: { readonly name: string; readonly value: unknown }[];
  readonly title: Part;
  readonly axes?: readonly Part[];
  readonly scales?: readonly Part[];
  readonly data: readonly { readonly name: string; readonly values?: unknown; readonly format?: unknown }[];
}

interface Reading {
  /** What the compiler writes for a value. */
  readonly written: unknown;
  /** What a signal has to be in its place. */
  readonly meant: unknown;
}

/** Days are written as expressions; all else as it stands. */
const readings: readonly ((value: unknown) => Reading)[] = [
  (value) => ({ written: value, meant: value }),
  (value) => {
    const times = Array.isArray(value) ? value : [];
    return {
      written: times.map((time) => ({ signal: `datetime(${time})` })),
      meant: times.map((time) => new Date(time)),
    };
  },
];

/** Puts signals into the compiled specification where sizes differ, and returns what they are for the other one. */
function withSignals(compiled: Compiled, own: Framed, other: Framed): OtherSize | undefined {
  const signals: { readonly name: string; readonly value: unknown; readonly turned: unknown }[] = [];
  let isWhole = true;
  const replace = (parts: readonly Part[], key: string, value: unknown, turned: unknown) => {
    if (JSON.stringify(value) === JSON.stringify(turned)) return;
    const holders = parts.filter((part) => key in part);
    const read = readings.find((as) =>
      holders.every((part) => JSON.stringify(part[key]) === JSON.stringify(as(value).written)),
    );
    if (holders.length === 0 || read === undefined) {
      isWhole = false;
      return;
    }
    const name = `size_${signals.length}`;
    signals.push({ name, value: read(value).meant, turned: read(turned).meant });
    for (const part of holders) part[key] = { signal: name };
  };
  for (const key of ofTitle) replace([compiled.title], key, own.title[key], other.title[key]);
  for (const channel of channels) {
    const axes = (compiled.axes ?? []).filter(({ scale }) => scale === channel);
    const scales = (compiled.scales ?? []).filter(({ name }) => name === channel);
    for (const [at, layer] of own.layer.entries()) {
      const [one, another] = [layer.encoding[channel], other.layer[at]?.encoding[channel]];
      for (const key of ofAxis) replace(axes, key, one?.axis?.[key], another?.axis?.[key]);
      for (const key of ofScale) replace(scales, key, one?.scale?.[key], another?.scale?.[key]);
    }
  }
  const rows: Record<string, readonly object[]> = {};
  for (const [at, { data }] of other.layer.entries()) {
    if (JSON.stringify(data.values) === JSON.stringify(own.layer[at]?.data.values)) continue;
    const source = compiled.data.find(({ name }) => name === rowsName(at));
    // Rows that are put in later are not parsed.
    if (source === undefined || source.format !== undefined) isWhole = false;
    rows[rowsName(at)] = data.values;
  }
  if (!isWhole) return undefined;
  compiled.signals = [...(compiled.signals ?? []), ...signals.map(({ name, value }) => ({ name, value }))];
  return {
    ...{ width: other.width, height: other.height, padding: other.padding, rows },
    signals: Object.fromEntries(signals.map(({ name, turned }) => [name, turned])),
  };
}
