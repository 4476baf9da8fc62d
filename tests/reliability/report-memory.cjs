// Loaded before the program (NODE_OPTIONS --require): writes how much memory it held at most, in kilobytes.
const { writeFileSync } = require('node:fs');

process.on('exit', () => {
  writeFileSync(process.env.MENDWISE_MEMORY_FILE, String(process.resourceUsage().maxRSS));
});
