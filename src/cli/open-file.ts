import { spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { tell } from './print.js';

/** Opens a file with whatever the system opens such files with, and doesn't wait for it. */
export const openFile = (path: string): void => openWith(resolve(path));

/** Opens an address in the browser, likewise. */
export const openAddress = (address: string): void => openWith(address);

function openWith(full: string): void {
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open', full]
      : process.platform === 'win32'
        ? ['explorer.exe', full]
        : ['xdg-open', full];
  const opener = spawn(command, args, { detached: true, stdio: 'ignore' });
  opener.on('error', () => tell(`Nothing here opens files by itself: open ${full} in a browser.`));
  opener.unref();
}
