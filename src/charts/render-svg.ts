import { createHash } from 'node:crypto';
import type { ChartSpecification } from './chart-specification.js';

/**
 * Renders a Vega-Lite specification as an SVG element that can stand inside a page: it scales down with its
 * container, carries `specification.description` as its alternative text, and its ids are its own.
 * The same specification gives the same text.
 *
 * `vega` waits at its top level while it loads, so it is loaded here and never by a static import: a page or a
 * kernel that loads this library with `require` would otherwise fail.
 *
 * @throws where the specification is no Vega-Lite specification, or has no `description`.
 */
export async function renderSvg(specification: ChartSpecification): Promise<string> {
  const description = specification.description;
  if (typeof description !== 'string' || description === '') {
    throw new TypeError('renderSvg needs a description in the specification: it becomes the alternative text');
  }
  const [{ parse, View, Error: errorsOnly }, { compile }] = await Promise.all([import('vega'), import('vega-lite')]);
  const compiled = compile(specification as unknown as Parameters<typeof compile>[0]).spec;
  const view = new View(parse(compiled), { renderer: 'none', logLevel: errorsOnly });
  const svg = await view.toSVG();
  view.finalize();
  return withOwnIds(accessible(svg, description));
}

function accessible(svg: string, description: string): string {
  return svg.replace(/^<svg [^>]*?width="([\d.]+)" height="([\d.]+)"[^>]*>/, (_, width: string, height: string) =>
    [
      '<svg xmlns="http://www.w3.org/2000/svg" role="img"',
      `aria-label="${escapeAttribute(description)}"`,
      `width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    ].join(' '),
  );
}

/** Vega numbers its clip paths and gradients through the whole process: here they are renamed after the picture's content. */
function withOwnIds(svg: string): string {
  const ids = [...new Set([...svg.matchAll(/ id="([^"]+)"/g)].map((match) => match[1] ?? ''))];
  if (ids.length === 0) return svg;
  const neutral = ids.reduce((text, id, index) => renamed(text, id, `@${index}`), svg);
  const prefix = `c${createHash('sha256').update(neutral).digest('hex').slice(0, 10)}`;
  return ids.reduce((text, _, index) => renamed(text, `@${index}`, `${prefix}-${index}`), neutral);
}

function renamed(svg: string, from: string, to: string): string {
  return svg
    .replaceAll(` id="${from}"`, ` id="${to}"`)
    .replaceAll(`#${from})`, `#${to})`)
    .replaceAll(`"#${from}"`, `"#${to}"`);
}

function escapeAttribute(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
