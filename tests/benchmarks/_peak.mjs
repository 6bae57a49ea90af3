// Loaded before a command (node --import _peak.mjs COMMAND…): says at its end how long it ran and the most memory it held.
process.on('exit', () => {
  const megabytes = process.resourceUsage().maxRSS / 1024;
  process.stdout.write(`${JSON.stringify({ seconds: [performance.now() / 1000], megabytes })}\n`);
});
