import { spawn } from 'node:child_process';

/**
 * Starts a desk without opening it, as it was built last.
 * @returns its process, to be ended, and its address
 */
export async function servedDesk(program, cwd, file) {
  const desk = spawn(process.execPath, [program, 'desk', file, '--no-open'], {
    cwd,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await new Promise((resolve) => {
    let said = '';
    desk.stdout.on('data', (chunk) => {
      said += chunk;
      const found = /http:\S+/.exec(said)?.[0];
      if (found !== undefined) resolve(found);
    });
  });
  return { desk, address };
}
