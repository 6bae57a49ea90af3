import type { ChartSpecification } from '../../charts/index.js';
import type { Block, ReportDocument } from '../document.js';

/**
 * The data behind every chart of the report: where it stands, what it shows, and the rows of each of its layers, each once. What a
 * layer only draws (a rule at zero, the ends of an axis) is among them.
 */
export function chartsJson({ sections }: ReportDocument) {
  return sections.flatMap(({ id, blocks }) =>
    blocks.flatMap((block: Block) =>
      block.kind !== 'figure'
        ? []
        : block.charts.map(({ wide, description }) => ({
            ...{ section: id, caption: block.caption, description },
            layers: layersOf(wide),
          })),
    ),
  );
}

/** Rows by layer, in the order in which the specification holds them. */
function layersOf(specification: ChartSpecification): readonly (readonly unknown[])[] {
  const found = new Set<string>();
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if ('data' in value) {
      const { data } = value;
      const rows = typeof data === 'object' && data !== null && 'values' in data ? data.values : undefined;
      if (Array.isArray(rows) && rows.length > 0) found.add(JSON.stringify(rows));
    }
    for (const [key, inner] of Object.entries(value)) if (key !== 'data') visit(inner);
  };
  visit(specification);
  // A gap in a line is `null`, as it is in the picture.
  return [...found].map((rows) => JSON.parse(rows) as readonly unknown[]);
}
