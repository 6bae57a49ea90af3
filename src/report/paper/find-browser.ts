import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Names under which the browsers that can print are installed. */
const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome', 'msedge'];

/** Where they lie on systems whose programs are not on the path. */
const places = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/** The first browser that can print: that of the variable `FAIRWALL_BROWSER`, one on the path, or one in its usual place. */
export function findBrowser(environment: Readonly<Record<string, string | undefined>>): string | undefined {
  const { FAIRWALL_BROWSER: own, PATH: path = '' } = environment;
  if (own !== undefined && own !== '') return isProgram(own) ? own : undefined;
  const onPath = path.split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
  return [...onPath, ...places].find(isProgram);
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
