import { Desk } from '../desk/desk.js';
import { serveDesk } from '../desk/server.js';
import { FINE } from './exit-codes.js';
import { openAddress } from './open-file.js';
import { say } from './print.js';
import { resultsFolder } from './results-folder.js';

/**
 * Opens a page in which a figure is built and freed, and serves it until its last tab is closed, or Ctrl-C.
 * @returns the exit code
 * @throws InputError for a file that cannot be used
 */
export async function desk(path: string, options: { open: boolean }): Promise<number> {
  const served = await serveDesk(new Desk(path), resultsFolder(path));
  say(`The desk for ${path}: ${served.address}`, 'It ends when its page is closed, or with Ctrl-C.');
  if (options.open) openAddress(served.address);
  const interrupted = new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, resolve);
  });
  await Promise.race([served.left, interrupted]);
  await served.close();
  return FINE;
}
