import type { ChartSpecification } from './chart-specification.js';
import { fontSize, ink } from './theme.js';

/**
 * Marks at places in pixels that the layout has already worked out, each row with its own look. Whatever else a row holds, such as the
 * value that is shown, goes with it into the chart's data.
 */
export interface PlacedMarks {
  readonly placed: 'text' | 'rule' | 'rect' | 'point';
  readonly rows: readonly PlacedRow[];
}

interface PlacedRow {
  readonly place: Readonly<Record<string, unknown>>;
  readonly look: Readonly<Record<string, unknown>>;
}

/** A position in pixels that the layout has already worked out. */
export function pixels(field: string): ChartSpecification {
  return { field, type: 'quantitative', scale: null, axis: null };
}

export interface PlacedText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

export interface TextLook {
  readonly align?: 'left' | 'right' | 'center';
  readonly bold?: boolean;
  readonly fill?: string;
  readonly soft?: boolean;
}

export function texts(values: readonly PlacedText[], look: TextLook = {}): PlacedMarks {
  return placed('text', values, {
    align: look.align ?? 'left',
    fontWeight: look.bold === true ? 600 : 400,
    fill: look.fill ?? (look.soft === true ? ink.soft : ink.text),
  });
}

export interface RuleLook {
  readonly stroke?: string;
  readonly width?: number;
  readonly dash?: readonly number[];
}

export function upright(x: number, y: number, y2: number, look: RuleLook = {}): PlacedMarks {
  return uprights([{ x, y, y2 }], look);
}

export function uprights(
  values: readonly { readonly x: number; readonly y: number; readonly y2: number }[],
  look: RuleLook = {},
): PlacedMarks {
  return rules(
    values.map((value) => ({ ...value, x2: value.x })),
    look,
  );
}

export function levels(
  values: readonly { readonly x: number; readonly x2: number; readonly y: number }[],
  look: RuleLook = {},
): PlacedMarks {
  return rules(
    values.map((value) => ({ ...value, y2: value.y })),
    look,
  );
}

function rules(values: readonly Box[], look: RuleLook): PlacedMarks {
  return placed('rule', values, {
    stroke: look.stroke ?? ink.rule,
    strokeWidth: look.width ?? 1.25,
    strokeDash: look.dash ?? [],
  });
}

export interface Box {
  readonly x: number;
  readonly x2: number;
  readonly y: number;
  readonly y2: number;
}

export interface BoxLook {
  readonly fill: string | null;
  readonly stroke?: string;
  readonly width?: number;
  readonly opacity?: number;
}

export function boxes(values: readonly Box[], { fill, stroke, width, opacity }: BoxLook): PlacedMarks {
  return placed('rect', values, { fill, stroke: stroke ?? null, strokeWidth: width ?? 0, opacity: opacity ?? 1 });
}

export interface SymbolLook {
  readonly shape: string;
  readonly fill: string | null;
  readonly stroke?: string;
  readonly width?: number;
  readonly opacity?: number;
  /** Area, in square pixels; a row may have its own. */
  readonly size?: number;
}

export function symbols(
  values: readonly { readonly x: number; readonly y: number; readonly size?: number }[],
  { shape, fill, stroke, width, opacity, size }: SymbolLook,
): PlacedMarks {
  const look = { shape, fill, stroke: stroke ?? null, strokeWidth: width ?? 0, opacity: opacity ?? 1 };
  const rows = values.map(({ size: own, ...place }) => ({ place, look: { ...look, size: own ?? size } }));
  return { placed: 'point', rows };
}

function placed(mark: PlacedMarks['placed'], values: readonly object[], look: PlacedRow['look']): PlacedMarks {
  return { placed: mark, rows: values.map((place) => ({ place: { ...place }, look })) };
}

/**
 * A chart's layers in the order in which they are drawn. Placed marks of one kind that follow each other become one layer, for a layer
 * costs the engine milliseconds whatever it holds; one without rows is left out. Words lie above everything else.
 */
export function layersOf(parts: readonly (ChartSpecification | PlacedMarks)[]): ChartSpecification[] {
  const words = parts.filter((part) => isPlaced(part) && part.placed === 'text') as readonly PlacedMarks[];
  const layers: ChartSpecification[] = [];
  let open: PlacedMarks | undefined;
  const close = () => {
    if (open !== undefined) layers.push(layerOf(open));
    open = undefined;
  };
  for (const part of parts) {
    if (!isPlaced(part)) {
      close();
      layers.push(part);
    } else if (part.placed !== 'text' && part.rows.length > 0) {
      if (open?.placed !== part.placed) close();
      open = { placed: part.placed, rows: [...(open?.rows ?? []), ...part.rows] };
    }
  }
  close();
  const rows = words.flatMap((each) => each.rows);
  return rows.length === 0 ? layers : [...layers, layerOf({ placed: 'text', rows })];
}

function isPlaced(part: ChartSpecification | PlacedMarks): part is PlacedMarks {
  return 'placed' in part;
}

const common = {
  text: { baseline: 'middle', fontSize: fontSize.label, limit: 0 },
  rule: {},
  rect: {},
  point: {},
} as const;

const box = { x: pixels('x'), x2: { field: 'x2' }, y: pixels('y'), y2: { field: 'y2' } } as const;

const encodings = {
  text: { x: pixels('x'), y: pixels('y'), text: { field: 'text', type: 'nominal' } },
  rule: box,
  rect: box,
  point: { x: pixels('x'), y: pixels('y') },
} as const;

/** What all rows look like is the mark's; in what they differ stands in a column of the data. */
function layerOf({ placed: type, rows }: PlacedMarks): ChartSpecification {
  const [first] = rows;
  const looks = Object.entries(first?.look ?? {}).filter(([key]) => rows.some(({ look }) => look[key] !== undefined));
  const own = looks.map(([key]) => key).filter((key) => !isAlike(rows, key));
  return {
    data: {
      values: rows.map(({ place, look }) => ({ ...place, ...Object.fromEntries(own.map((key) => [key, look[key]])) })),
    },
    mark: {
      type,
      ...common[type],
      ...Object.fromEntries(looks.map(([key, value]) => [key, own.includes(key) ? { expr: `datum.${key}` } : value])),
    },
    encoding: encodings[type],
  };
}

function isAlike(rows: readonly PlacedRow[], key: string): boolean {
  const first = JSON.stringify(rows[0]?.look[key]);
  return rows.every(({ look }) => JSON.stringify(look[key]) === first);
}
