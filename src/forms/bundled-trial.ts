/** Where a trial lies that comes with this package: all of them are invented. */
export function bundledTrial(name: string): URL {
  return new URL(`../../datasets/${encodeURIComponent(name)}/`, import.meta.url);
}
