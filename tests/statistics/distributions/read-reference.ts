import { readFileSync } from 'node:fs';

/** One list of cases from the reference values of distributions. */
export function readReference<Case>(name: string, list = 'cases'): readonly Case[] {
  const file = new URL(`../../reference/distributions/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(file, 'utf8'))[list];
}
