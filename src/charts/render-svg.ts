import { createHash } from 'node:crypto';
import type { ChartSpecification } from './chart-specification.js';
import { compiledWith, turnTo } from './other-sizes.js';

/**
 * Renders a Vega-Lite specification as an SVG element that can stand inside a page: it scales down with its
 * container, carries `specification.description` as its alternative text, and its ids are its own.
 * The same specification gives the same text.
 *
 * `vega` waits at its top level while it loads, so it is loaded here and never by a static import: a page or a
 * kernel that loads this library with `require` would otherwise fail.
 *
 * @throws where the specification is no Vega-Lite specification, or has no `description`.
 * @example (await renderSvg(intervalChart(differences))).slice(0, 4) // '<svg'
 */
export async function renderSvg(specification: ChartSpecification): Promise<string> {
  const [svg = ''] = await renderSvgs([specification]);
  return svg;
}

/**
 * Renders sizes of one chart: as `renderSvg` does each of them, and faster, for sizes that have the same layers go through the engine together.
 *
 * @throws as `renderSvg` does.
 * @example (await renderSvgs([intervalChart(differences), intervalChart(differences, { width: 340 })])).length // 2
 */
export async function renderSvgs(sizes: readonly ChartSpecification[]): Promise<readonly string[]> {
  const descriptions = sizes.map(({ description }) => {
    if (typeof description === 'string' && description !== '') return description;
    throw new TypeError('renderSvg needs a description in the specification: it becomes the alternative text');
  });
  const svgs = await drawn(sizes);
  return svgs.map((svg, at) => withOwnIds(asOnePicture(svg, descriptions[at] ?? '')));
}

async function drawn(sizes: readonly ChartSpecification[]): Promise<readonly string[]> {
  const [{ parse, View, Error: errorsOnly }, { compile }] = await Promise.all([import('vega'), import('vega-lite')]);
  const svgs: string[] = [];
  for (let rest = sizes; rest.length > 0; ) {
    const { compiled, others } = compiledWith(
      rest,
      (own) => compile(own as unknown as Parameters<typeof compile>[0]).spec,
    );
    const view = new View(parse(compiled), { renderer: 'none', logLevel: errorsOnly });
    svgs.push(await view.toSVG());
    for (const other of others) {
      turnTo(view, other);
      svgs.push(await view.toSVG());
    }
    view.finalize();
    rest = rest.slice(1 + others.length);
  }
  return svgs;
}

/** One picture with one alternative text: the roles that Vega gives to every mark would only be in the way. */
function asOnePicture(svg: string, description: string): string {
  // A thousandth of a point is finer than anybody sees; engines differ in the sixteenth digit.
  const bare = inTags(svg, / (?:role|class|pointer-events|aria-[a-z]+)="[^"]*"|\d+\.\d{4,}/, (found) =>
    found.startsWith(' ') ? '' : `${Number(Number(found).toFixed(3))}`,
  );
  return bare.replace(/^<svg [^>]*?width="([\d.]+)" height="([\d.]+)"[^>]*>/, (_, width: string, height: string) =>
    [
      '<svg xmlns="http://www.w3.org/2000/svg" role="img"',
      `aria-label="${escapeAttribute(description)}"`,
      `width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    ].join(' '),
  );
}

/** Vega numbers its clip paths and gradients through the whole process: here they are named after the picture's content. */
function withOwnIds(svg: string): string {
  const ids = new Map<string, string>();
  inTags(svg, / id="[^"]+/, (found) => {
    ids.set(found.slice(startOfId), `${ids.size}`);
    return found;
  });
  if (ids.size === 0) return svg;
  const renamed = (prefix: string) =>
    inTags(svg, / id="[^"]+|url\(#[^)]+/, (found) => {
      const id = found.slice(startOfId);
      return `${found.slice(0, startOfId)}${prefix}${ids.get(id) ?? id}`;
    });
  const content = createHash('sha256').update(renamed('')).digest('hex').slice(0, 10);
  return renamed(`c${content}-`);
}

/** Behind ` id="` and behind `url(#`. */
const startOfId = 5;

/** Changes what a pattern finds in tags, and leaves the words between them alone; Vega writes no bare angle bracket in words or attributes. */
function inTags(svg: string, pattern: RegExp, change: (found: string) => string): string {
  const orWords = new RegExp(`>[^<]+|${pattern.source}`, 'g');
  return svg.replace(orWords, (found) => (found.startsWith('>') ? found : change(found)));
}

function escapeAttribute(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
