// Times one case of a benchmark in a process of its own: node _measure.mjs FILE FOLDER CASE REPEATS
const [file, folder, name, repeats] = process.argv.slice(2);
const { load } = await import(file);
const run = load(name, folder);
const count = Number(repeats);
// The compiler needs some calls before it has seen enough; a cold process has none.
if (count > 1) for (let warmUp = 0; warmUp < count; warmUp++) await run();
const seconds = [];
for (let repeat = 0; repeat < count; repeat++) {
  const start = performance.now();
  await run();
  seconds.push((performance.now() - start) / 1000);
}
process.stdout.write(`${JSON.stringify({ seconds, megabytes: process.resourceUsage().maxRSS / 1024 })}\n`);
