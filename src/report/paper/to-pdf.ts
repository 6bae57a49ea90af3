import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { findBrowser } from './find-browser.js';
import { PaperError } from './paper-error.js';

const patience_ms = 120_000;

/**
 * Prints a page to PDF with a headless browser of this machine: tagged, with bookmarks, fonts inside. The page runs no script and
 * fetches nothing, so neither does the browser.
 *
 * @throws PaperError where there is no such browser, or it fails
 */
export async function toPdf(html: string, environment = process.env): Promise<Uint8Array> {
  const browser = findBrowser(environment);
  if (browser === undefined)
    throw new PaperError(
      'no browser that prints to PDF was found (Chromium, Chrome or Edge); install one, or name it in FAIRWALL_BROWSER',
    );
  const folder = await mkdtemp(join(tmpdir(), 'fairwall-paper-'));
  try {
    const [page, pdf] = [join(folder, 'opinion.html'), join(folder, 'opinion.pdf')];
    await writeFile(page, html);
    await promisify(execFile)(browser, [...flags(folder), `--print-to-pdf=${pdf}`, pathToFileURL(page).href], {
      timeout: patience_ms,
    });
    return await readFile(pdf);
  } catch (error) {
    throw new PaperError(`${browser} did not print: ${error instanceof Error ? error.message.split('\n')[0] : error}`);
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 3 });
  }
}

function flags(folder: string): readonly string[] {
  // Its own sandbox needs a user who is not root; the page has no script to contain.
  const isRoot = process.getuid?.() === 0;
  return [
    '--headless',
    '--disable-gpu',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-extensions',
    '--no-pdf-header-footer',
    '--generate-pdf-document-outline',
    `--user-data-dir=${join(folder, 'profile')}`,
    ...(isRoot ? ['--no-sandbox'] : []),
  ];
}
