#!/usr/bin/env node
import { Command, CommanderError, InvalidArgumentError } from 'commander';
import type { CheckOptions } from './cli/check.js';
import { SAMPLES, SEED } from './cli/defaults.js';
import { BAD_INPUT, FAULT, FINE } from './cli/exit-codes.js';
import type { ExploreOptions } from './cli/explore.js';
import { InputError } from './figure/input-error.js';
import { version } from './search/root.js';
import { StudyError } from './search/study-error.js';

const program = new Command('dummyrun')
  .description('Tries out the dims of a moving pop-up figure before any card is cut.')
  .version(version())
  .exitOverride()
  .showHelpAfterError('Give --help for what may be asked.')
  .addHelpText(
    'after',
    `
Exit codes: 0 it works, 1 it does not (or nothing does), 2 bad input, 130 interrupted.
`,
  );

program
  .command('explore')
  .description('Scores many sets of dims, ranks them, and says which dim matters.')
  .argument('<figure>', 'the figure file (YAML)')
  .option('--samples <count>', `how many dummies to score (default: ${SAMPLES})`, wholeNumber(1, 10_000_000))
  .option(
    '--seed <number>',
    `the same seed gives the same results (default: ${SEED})`,
    wholeNumber(0, 2 ** 32 - 1),
  )
  .option('--workers <count>', 'threads to score with (default: one for each core)', wholeNumber(1, 256))
  .option('--out <folder>', 'where to write the results (default: results/ and the name of the figure file)')
  .option('--resume', 'go on with a study that was interrupted', false)
  .option('--open', 'open the report when done', false)
  .addHelpText(
    'after',
    `
Writes to the folder: report.html (look at this first), ranking.csv (best first), candidates.csv (all, in
order), sensitivity.csv (how each dim moves each score) and study.json (what it was run with).
Ctrl-C ends a study with what there is; --resume goes on with it, also after a power cut.

Example:
  dummyrun explore examples/ferryman.yaml --samples 2000 --seed 7 --out results/first-try
`,
  )
  .action(async (figure: string, options: ExploreOptions) => {
    // Each command is loaded when it is asked for: the charts alone take a third of a second.
    const { explore } = await import('./cli/explore.js');
    process.exitCode = await explore(figure, options);
  });

program
  .command('check')
  .description('Scores one set of dims and says in words how it does.')
  .argument('<figure>', 'the figure file (YAML)')
  .option('--set <dim=value>', 'give a dim a value; may be given again for other dims', collected, [])
  .option('--json', 'print the scorecard as JSON instead of words', false)
  .option('--poses <file>', 'write where every panel is at every page angle (JSON)')
  .addHelpText(
    'after',
    `
A dim that is not set counts as it starts: a range as its start value, else its middle; a choice as its first.

Example:
  dummyrun check examples/ferryman.yaml --set boat_height=32.5 --poses poses.json
`,
  )
  .action(async (figure: string, options: CheckOptions) => {
    const { check } = await import('./cli/check.js');
    process.exitCode = check(figure, options);
  });

function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (/^\d+$/.test(text) && number >= least && number <= most) return number;
    throw new InvalidArgumentError(`Give a whole number from ${least} to ${most}.`);
  };
}

function collected(text: string, before: string[]): string[] {
  return [...before, text];
}

// Whoever reads our output may stop early, as `head` does.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    // Its message is printed already; asking for help or the version is no mistake.
    process.exitCode = error.exitCode === 0 ? FINE : BAD_INPUT;
  } else if (error instanceof InputError || error instanceof StudyError) {
    console.error(error.message);
    process.exitCode = BAD_INPUT;
  } else {
    console.error('This is a fault of dummyrun itself:', error);
    process.exitCode = FAULT;
  }
}
