import { existsSync } from 'node:fs';

const usual = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** The browser named by the environment variable CHROMIUM, else the first that stands in a usual place. */
export function findChromium(): string | undefined {
  const { CHROMIUM } = process.env;
  return CHROMIUM !== undefined && CHROMIUM !== '' ? CHROMIUM : usual.find((path) => existsSync(path));
}

export const howToGetChromium =
  'no Chromium found: install it (on Debian: apt-get install chromium), or set CHROMIUM to the path of one';
