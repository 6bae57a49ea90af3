// Packs the command into two files:  node src/bundle.mjs, after the compiler and as the last step of `npm run build`.
//
// Finding and opening a thousand small files takes a cold start longer than reading them, and compiling them longer still. `dist/cli.js`
// is written anew, small enough for whoever asks for help; what the verbs need stands in `dist/bundle/commands.cjs`, with the bytecode
// that this engine made of it beside it. The library's own files stay as the compiler wrote them.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '..');
const cli = join(root, 'dist/cli.js');
const command = 'dist/command/run-command.js';
const parts = join(root, 'dist/bundle');
const common = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20.19',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  metafile: true,
  logLevel: 'warning',
};

const verbs = verbsIn(readFileSync(join(root, command), 'utf8'));
// A thread draws charts with the same bytecode.
const drawing = { name: 'renderSvgs', path: './dist/charts/render-svg.js' };
const { metafile } = await build({
  ...common,
  stdin: {
    // Whoever asks for one verb does not wait for what the others load.
    contents: [...verbs.map(({ name, verb }) => ({ name, path: `./dist/command/${verb}.js` })), drawing]
      .map(
        ({ name, path }) => `export const ${name} = async (...given) => (await import('${path}')).${name}(...given);`,
      )
      .join('\n'),
    resolveDir: root,
  },
  outfile: 'dist/bundle/commands.cjs',
  format: 'cjs',
  // What is loaded later is required: a script from the cache cannot import.
  supported: { 'dynamic-import': false },
  define: { 'import.meta.url': '__url', 'import.meta.dirname': '__dirname' },
  // The one for Node.js would measure text by a package that somebody may have installed, and then charts would differ.
  alias: { 'vega-canvas': join(root, 'node_modules/vega-canvas/build/vega-canvas.browser.js') },
  // The database and the renderer of pictures have parts of machine code.
  external: ['@duckdb/*', 'sharp', 'docx'],
  plugins: [slimPackages()],
});
await build({
  ...common,
  entryPoints: ['dist/cli.js'],
  outdir: 'dist',
  allowOverwrite: true,
  format: 'esm',
  plugins: [
    packed(
      verbs.map(({ name, verb }) => ({ name, path: `./${verb}.js` })),
      'import.meta.url',
    ),
  ],
  // It finds the package's description from where the compiler wrote it.
  external: [join(root, 'dist/opinion/version.js')],
});

const workers = [
  // Packed, a thread that simulates trials starts in a third of the time.
  await packWorker('planning/simulated-chances/intervals-worker.js', { packages: 'external' }),
  await packWorker('charts/drawing-worker.js', {
    plugins: [packed([{ name: drawing.name, path: './render-svg.js' }], "new URL('..', import.meta.url)")],
  }),
];

// They belong to the files that the compiler wrote.
for (const file of [cli, ...workers]) rmSync(`${file}.map`);
asciiAlone(join(parts, 'commands.cjs'));
writeFileSync(join(parts, 'LICENSES.txt'), licences(packagesIn(metafile)));
warm();

/** Writes the script of a thread anew, with what it loads in it. */
async function packWorker(path, more) {
  const file = join(root, 'dist', path);
  await build({ ...common, entryPoints: [file], outfile: file, allowOverwrite: true, format: 'esm', ...more });
  return file;
}

/** Regular expressions alone keep other characters, and one of those would double what the engine reads. */
function asciiAlone(file) {
  const text = readFileSync(file, 'utf8');
  const escaped = text.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
  writeFileSync(file, escaped, 'latin1');
}

/** Every verb is a function of a module that `run-command.js` loads when it is asked for; help alone is asked for too often to wait. */
function verbsIn(text) {
  const loaded = [...text.matchAll(/const \{ (\w+) \} = await import\('\.\/([a-z-]+)\.js'\)/g)];
  if (loaded.length === 0) throw new Error(`${command} loads no verb in the way that is looked for here`);
  return loaded.map(([, name, verb]) => ({ name, verb }));
}

/** In place of modules, what the packed script exports; `dist` says where that lies, in the words of a module. */
function packed(modules, dist) {
  const loader = JSON.stringify(join(import.meta.dirname, 'load-packed.mjs'));
  return {
    name: 'packed',
    setup(building) {
      for (const { name, path } of modules) {
        const filter = new RegExp(`^${path.replaceAll('.', '\\.')}$`);
        building.onResolve({ filter }, () => ({ path, namespace: 'packed' }));
        building.onLoad({ filter, namespace: 'packed' }, () => ({
          contents: `import { loadPacked } from ${loader};\nexport const { ${name} } = loadPacked(${dist}).exports;`,
          resolveDir: root,
        }));
      }
    },
  };
}

/**
 * What stands for a package where more of it, or another form of it, would be packed than charts and plans use:
 * - `jsonc-parser`: what Node.js loads of it cannot be packed; it brings the same as a module;
 * - `vega`: maps, forces, trees, words in clouds and the like are in no chart.
 */
function slimPackages() {
  const slim = {
    'jsonc-parser': {
      contents: "import * as all from './lib/esm/main.js';\nexport default all;",
      resolveDir: join(root, 'node_modules/jsonc-parser'),
    },
    vega: {
      contents: `
        import { transforms } from 'vega-dataflow';
        import * as encode from 'vega-encode';
        import * as data from 'vega-transforms';
        import { extend } from 'vega-util';
        import * as views from 'vega-view-transforms';
        extend(transforms, data, views, encode);
        export * from 'vega-util';
        export { parse } from 'vega-parser';
        export { View } from 'vega-view';
      `,
      resolveDir: join(root, 'node_modules/vega'),
    },
  };
  return {
    name: 'slim-packages',
    setup(building) {
      building.onResolve({ filter: /^(?:jsonc-parser|vega)$/ }, ({ path }) => ({ path, namespace: 'slim' }));
      building.onLoad({ filter: /.*/, namespace: 'slim' }, ({ path }) => slim[path]);
    },
  };
}

/** The verbs run once, in a process of its own that has compiled nothing else, for the cache to hold what they use. */
function warm() {
  const scratch = mkdtempSync(join(tmpdir(), 'fairwall-'));
  try {
    execFileSync(process.execPath, [join(import.meta.dirname, 'warm-packed.mjs'), scratch], {
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  } finally {
    rmSync(scratch, { recursive: true });
  }
}

/** The packages of which anything was packed, by folder. */
function packagesIn({ outputs }) {
  const inputs = Object.values(outputs).flatMap(({ inputs }) => Object.keys(inputs));
  const folders = inputs.flatMap((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0] ?? []);
  return [...new Set(folders)].sort();
}

/** Their licences ask that their texts go with every copy. */
function licences(folders) {
  const texts = folders.map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    const file = readdirSync(join(root, folder)).find((each) => /^licen[cs]e/i.test(each));
    if (file === undefined) throw new Error(`${name} has no licence text to go with what is packed of it`);
    return `${name} ${version} (${license})\n\n${readFileSync(join(root, folder, file), 'utf8').trim()}\n`;
  });
  return `The files beside this one hold code of these packages.\n\n${texts.join(`\n${'-'.repeat(80)}\n\n`)}`;
}
