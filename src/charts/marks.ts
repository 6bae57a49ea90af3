import type { ChartSpecification } from './chart-specification.js';
import { pixels } from './frame.js';
import { fontSize, ink } from './theme.js';

/** Marks at positions in pixels that the layout has already worked out. */

export interface PlacedText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

export interface TextLook {
  readonly align?: 'left' | 'right' | 'center';
  readonly bold?: boolean;
  readonly soft?: boolean;
}

export function texts(values: readonly PlacedText[], look: TextLook = {}): ChartSpecification {
  return {
    data: { values },
    mark: {
      type: 'text',
      align: look.align ?? 'left',
      baseline: 'middle',
      fontSize: fontSize.label,
      fontWeight: look.bold === true ? 600 : 400,
      fill: look.soft === true ? ink.soft : ink.text,
      limit: 0,
    },
    encoding: { x: pixels('x'), y: pixels('y'), text: { field: 'text', type: 'nominal' } },
  };
}

export interface RuleLook {
  readonly stroke?: string;
  readonly width?: number;
  readonly dash?: readonly number[];
}

export function upright(x: number, y: number, y2: number, look: RuleLook = {}): ChartSpecification {
  return {
    data: { values: [{ x, y, y2 }] },
    mark: {
      type: 'rule',
      stroke: look.stroke ?? ink.rule,
      strokeWidth: look.width ?? 1.25,
      strokeDash: look.dash ?? [],
    },
    encoding: { x: pixels('x'), y: pixels('y'), y2: { field: 'y2' } },
  };
}

export interface Box {
  readonly x: number;
  readonly x2: number;
  readonly y: number;
  readonly y2: number;
}

export function boxes(values: readonly Box[], fill: string): ChartSpecification {
  return {
    data: { values },
    mark: { type: 'rect', fill },
    encoding: { x: pixels('x'), x2: { field: 'x2' }, y: pixels('y'), y2: { field: 'y2' } },
  };
}
