import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';

const datasets = join(import.meta.dirname, '..', '..', 'datasets');

/** A bundled trial in a new folder of another one, changed there. */
export function changedCopy(dataset: string, into: string, change: (folder: string) => void): string {
  const folder = mkdtempSync(join(into, `${dataset}-`));
  cpSync(join(datasets, dataset), folder, { recursive: true });
  change(folder);
  return folder;
}

/** Fails where there is nothing to replace. */
export function replaceIn(folder: string, file: string, from: string | RegExp, to: string | (() => string)): void {
  const text = readFileSync(join(folder, file), 'utf8');
  const changed = typeof to === 'string' ? text.replace(from, to) : text.replace(from, to);
  expect(changed).not.toBe(text);
  writeFileSync(join(folder, file), changed);
}
