#!/usr/bin/env node
import { CANNOT_TELL, INTERRUPTED } from './cli/exit-codes.js';
import { tell } from './cli/print.js';
import { runCommand } from './cli/run-command.js';
import { troubleOf } from './disk/error.js';

// Whoever reads our output may stop early, as `head` does: a study goes on all the same. It also does where what we print
// goes to a full disk; but then nobody may take the exit code for an answer that was given.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return;
  tell(`What was found cannot be printed: ${troubleOf(error)}.`);
  process.on('exit', () => {
    process.exitCode = CANNOT_TELL;
  });
});
process.stderr.on('error', () => {});

// Begun by a desk that is gone: nobody could stop it any more, and it would keep others out of its folder.
process.once('disconnect', () => {
  if (!process.emit('SIGINT')) process.exit(INTERRUPTED);
});
process.channel?.unref();

process.exitCode = await runCommand(process.argv.slice(2));
