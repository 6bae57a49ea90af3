import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildOnce } from '../helpers/build-once.js';

const root = join(import.meta.dirname, '../..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

beforeAll(buildOnce, 120_000);

describe('README.md', () => {
  it('shows what npm start prints, to the letter, and it writes the three files', { timeout: 60_000 }, () => {
    const shown = /^```text\n(.*?)^```$/ms.exec(readme)?.[1];
    const { start } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).scripts as { start: string };
    const [program = '', script = '', verb = '', dataset = '', ...out] = start.split(' ');
    expect([program, verb]).toEqual(['node', 'opinion']);
    const cwd = mkdtempSync(join(tmpdir(), 'fairwall-readme-'));
    const words = [join(root, script), verb, join(root, dataset), ...out];
    const { stdout, stderr, status } = spawnSync(process.execPath, words, { cwd, encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout.trimEnd().replaceAll('\\', '/')).toBe(shown?.trimEnd());
    const folder = join(cwd, out.at(-1) ?? '');
    expect(readdirSync(folder).sort()).toEqual(['opinion.html', 'opinion.json', 'opinion.md']);
    const { format, verdict, primary } = JSON.parse(readFileSync(join(folder, 'opinion.json'), 'utf8'));
    expect({ format, code: verdict.code, id: primary.id, method: primary.method }).toEqual({
      format: 'fairwall-opinion/1',
      code: 'worthwhile',
      id: 'wall-change',
      method: 'paired-blocks',
    });
    rmSync(cwd, { recursive: true });
  });

  it('is short enough to be read', () => {
    expect(readme.trimEnd().split('\n').length).toBeLessThanOrEqual(100);
  });

  it('leads to nothing that is not there', () => {
    const links = [...readme.matchAll(/\]\(([^)#]+)(?:#([^)]+))?\)/g)].filter(([, path = '']) => !path.includes(':'));
    expect(links.length).toBeGreaterThan(10);
    for (const [, path = '', heading] of links) {
      expect(existsSync(join(root, path)), path).toBe(true);
      if (heading === undefined) continue;
      const headings = readFileSync(join(root, path), 'utf8').matchAll(/^#+ (.*)$/gm);
      const names = [...headings].map(([, text = '']) =>
        text
          .toLowerCase()
          .replace(/[^\p{L}\p{N} -]/gu, '')
          .replaceAll(' ', '-'),
      );
      expect(names, heading).toContain(heading);
    }
  });
});
