import type { ChartSpecification } from './chart-specification.js';
import { escapeHtml } from './escape-html.js';
import { renderSvg } from './render-svg.js';

/**
 * Renders a Vega-Lite specification as an image element that carries its drawing in itself, for the outputs of notebooks: pages that are
 * made of them by `nbconvert` strip a bare SVG and leave a white gap, and keep an image.
 *
 * @throws as `renderSvg` does.
 * @example (await renderImage(intervalChart(differences))).slice(0, 10) // '<img alt="'
 */
export async function renderImage(specification: ChartSpecification): Promise<string> {
  const svg = await renderSvg(specification);
  const [, width = '', height = ''] = /^<svg [^>]*?width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
  const source = `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`;
  return `<img alt="${escapeHtml(String(specification.description))}" width="${width}" height="${height}" src="${source}">`;
}
