import { existsSync, mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Lets the notebooks import the built package by its name, as they would where it is installed. Node itself finds a package by
 * its own name, but the older way in which the kernel's TypeScript looks for types needs it in a `node_modules`.
 */
export function linkPackage() {
  const modules = join(import.meta.dirname, 'node_modules');
  const link = join(modules, 'fairwall');
  if (existsSync(link)) return;
  mkdirSync(modules, { recursive: true });
  try {
    symlinkSync(join(import.meta.dirname, '..'), link, 'junction');
  } catch (error) {
    // Two runs at once: the other one made it.
    if (error.code !== 'EEXIST') throw error;
  }
}
