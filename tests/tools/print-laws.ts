// `npm run --silent laws`: the laws over every shipped case and its variants, each fact moved one step: how many were
// tried, and where a law is broken. Ends with 1 where one is.
import { overShipped } from '../decision/laws/shipped-variants.ts';
import { runTool } from './studies.ts';

runTool(async () => {
  const tallies = overShipped();
  for (const { law, tried, found } of tallies) {
    process.stdout.write(
      `${law.padEnd(52)}${String(tried).padStart(6)} tried${String(found.length).padStart(5)} broken\n`,
    );
    for (const what of found) process.stdout.write(`    ${what}\n`);
  }
  process.exitCode = tallies.some(({ found }) => found.length > 0) ? 1 : 0;
});
