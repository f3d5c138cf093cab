import { Command, Help, Option } from 'commander';
import { version } from '../disk/root.js';
import { patterns } from '../figure/patterns/index.js';
import { HAND } from '../insight/hand/figure-tolerance.js';
import { COMMAND } from '../report/words/command.js';
import { MOST_CUT } from '../score/trims/most-cut.js';
import {
  COMPARE_SAMPLES,
  LEAST_SEEDS,
  MOST_COMPARE_SAMPLES,
  MOST_SAMPLES,
  MOST_SEED,
  MOST_SEEDS,
  MOST_WORKERS,
  SAMPLES,
  SEARCH,
  SEED,
  TRIALS,
} from '../study/defaults.js';
import { SEARCH_WAYS } from '../study/search-way.js';
import { type CardOptions, cardInWords } from './card.js';
import type { CheckOptions } from './check.js';
import type { CompareCommandOptions } from './compare.js';
import type { ExploreOptions } from './explore.js';
import { listPatterns, patternLines, startFigure } from './new.js';
import { amount, collected, folderName, millimetres, secondsOf, wholeNumber } from './option-values.js';
import { READERS_OUTPUT } from './print.js';
import type { SheetsCommandOptions } from './sheets.js';
import type { ShowOptions } from './show.js';
import type { TuneCommandOptions } from './tune.js';

/** The commands and their options. @param end is given the exit code of the command that was asked for */
export function programOf(end: (code: number) => void): Command {
  const program = new Command('dummyrun')
    .description('Tries out the dims of a moving pop-up figure before any card is cut.')
    .version(version())
    .exitOverride()
    .configureOutput(READERS_OUTPUT)
    // A switch is off, and a list is empty, unless given: that needs no telling.
    .configureHelp({
      optionDescription: (option) =>
        new Help().optionDescription(option).replace(/ \(default: (?:false|\[\])\)/, ''),
    })
    .showHelpAfterError('Give --help for what may be asked.')
    .addHelpText(
      'after',
      `
Exit codes: 0 it works, 1 it does not (or nothing does), 2 bad input, 4 what was found could not be printed,
130 interrupted.
`,
    );

  program
    .command('explore')
    .description('Scores many sets of dims, ranks them, and says which dim matters.')
    .argument('<figure>', 'the figure file (YAML)')
    .option(
      '--samples <count>',
      `how many dummies to score (default: ${SAMPLES})`,
      wholeNumber(1, MOST_SAMPLES),
    )
    .option(
      '--seed <number>',
      `the same seed gives the same results (default: ${SEED})`,
      wholeNumber(0, MOST_SEED),
    )
    .option('--for <time>', 'score until time is up instead, such as 90s, 2m or 1h', secondsOf)
    .addOption(
      new Option(
        '--search <way>',
        `plain samples; samples and then evolution; or that with a learned surrogate that screens (default: ${SEARCH})`,
      ).choices(SEARCH_WAYS),
    )
    .option(
      '--workers <count>',
      'threads to score with (default: one for each core)',
      wholeNumber(1, MOST_WORKERS),
    )
    .addOption(
      new Option(
        '--queue <address>',
        "score with cores that other machines lend over a Redis (see 'lend')",
      ).conflicts('workers'),
    )
    .option(
      '--out <folder>',
      'where to write the results (default: results/ and the name of the figure file)',
      folderName,
    )
    .option('--resume', 'go on with a study that was interrupted', false)
    .option('--open', 'open the report when done', false)
    .addHelpText(
      'after',
      `
Writes to the folder: report.html (look at this first), best-1.glb … (the best, moving, for 3D programs),
ranking.csv (best first), candidates.csv (all, in order), sensitivity.csv (how each dim moves each score),
sensitivity.json (that, and how exact the best must be cut), charts/ (every chart as SVG), study.json (what it was
run with) and scored.jsonl (for 'dummyrun show').
Once all is scored, about as many dummies again show which dim matters and how many of the best work when cut by hand.
The report is there a few seconds after scoring has begun, and is written again as it goes.
Ctrl-C ends a study with what there is; --resume goes on with it, also after a power cut.

Example:
  ${COMMAND} explore examples/ferryman.yaml --samples 2000 --seed 7 --out results/first-try
`,
    )
    .action(async (figure: string, options: ExploreOptions) => {
      // Each command is loaded when it is asked for: the charts alone take a third of a second.
      const { explore } = await import('./explore.js');
      end(await explore(figure, options));
    });

  program
    .command('lend')
    .description('Lends cores of this machine to studies of other machines.')
    .argument('<queue>', 'the address of their Redis: redis://host:6379, or rediss://… for TLS')
    .option('--workers <count>', 'threads to lend (default: one for each core)', wholeNumber(1, MOST_WORKERS))
    .addHelpText(
      'after',
      `
Takes dummies from studies begun with 'explore --queue' and the same address, scores them and gives the scores back, until
Ctrl-C. The figure travels with them: no disk is shared. Program and Node must be the same on both machines.
A Redis that strangers can reach needs a password and TLS: see docs/queue.md.

Example:
  ${COMMAND} lend redis://192.168.1.20:6379 --workers 4
`,
    )
    .action(async (queue: string, options: { workers?: number }) => {
      const { lendCores } = await import('./lend.js');
      end(await lendCores(queue, options));
    });

  program
    .command('show')
    .description('Writes the report of a finished study again.')
    .argument('<results>', 'the folder of the study')
    .option('--damaged', 'show what is left of a damaged study, in a report of its own', false)
    .option('--open', 'open it when done', false)
    .addHelpText(
      'after',
      `
Example:
  ${COMMAND} show results/ferryman --open
`,
    )
    .action(async (results: string, options: ShowOptions) => {
      const { show } = await import('./show.js');
      end(show(results, options));
    });

  program
    .command('check')
    .description('Scores one set of dims and says in words how it does.')
    .argument('<figure or results>', 'the figure file (YAML), or the folder of a study')
    .option('--set <dim=value>', 'give a dim a value; may be given again for other dims', collected, [])
    .addOption(rankOption())
    .addOption(damagedOption())
    .option('--json', 'print the scorecard as JSON instead of words', false)
    .option('--trim', 'offer the smallest cuts that free what catches', false)
    .option(
      '--most-cut <percent>',
      `with --trim: how much of a panel cuts may take (default: ${MOST_CUT})`,
      amount(100),
    )
    .option('--open', 'write a page with the moving figure and every catch, and open it', false)
    .option('--poses <file>', 'write where every panel is at every page angle (JSON)')
    .option('--tolerance', 'cut dummies of it with errors of the hand, and say how exact it must be', false)
    .option(
      '--sigma-mm <mm>',
      `with --tolerance: standard deviation of lengths and places (default: ${HAND.mm})`,
      amount(10),
    )
    .option(
      '--sigma-degrees <degrees>',
      `with --tolerance: standard deviation of angles (default: ${HAND.degrees})`,
      amount(10),
    )
    .addHelpText(
      'after',
      `
A dim that is not set counts as it starts: a range as its start value, else its middle; a choice as its first.

Example:
  ${COMMAND} check examples/ferryman.yaml --set tall=70 --poses poses.json
  ${COMMAND} check examples/ferryman.yaml --tolerance --sigma-mm 0.2
  ${COMMAND} check examples/stuck-drummer.yaml --trim
  ${COMMAND} check results/ferryman --rank 1 --open
`,
    )
    .action(async (figure: string, options: CheckOptions) => {
      const { check } = await import('./check.js');
      end(await check(figure, options));
    });

  program
    .command('tune')
    .description('Says why a figure does not work and finds the smallest changes that free it.')
    .argument('<figure>', 'the figure file (YAML); it needs no ranges')
    .option(
      '--hold <name>',
      'leave a dim, a part, or a field of a part as it is; may be given again',
      collected,
      [],
    )
    .option(
      '--price <name=number>',
      'what changing it costs, 1 if not given; may be given again',
      collected,
      [],
    )
    .option('--keep-glued', 'only what can be done to a finished dummy: nothing glued comes off', false)
    .option(
      '--most-cut <percent>',
      `how much of a panel a remedy may take (default: ${MOST_CUT})`,
      amount(100),
    )
    .option('--trials <count>', 'how many dummies to score at most', wholeNumber(1, MOST_SAMPLES), TRIALS)
    .option(
      '--workers <count>',
      'threads to score with (default: one for each core)',
      wholeNumber(1, MOST_WORKERS),
    )
    .option(
      '--out <folder>',
      'where to write the remedies (default: remedies, in the folder of the results)',
      folderName,
    )
    .option('--resume', 'go on with a run that was interrupted', false)
    .option('--json', 'print what was found as JSON instead of words', false)
    .addHelpText(
      'after',
      `
Writes to the folder: remedies.html, a page with pictures (look at this first), each remedy as a figure file, best
first (remedy-1.yaml, …), changes.csv, the list of all changes, and tune.json, all that was found. The best changes the fewest dims, by the least.
A dim of the file goes by its name, what is written in a part by the part's: sail.ridge, sail.panels.0.

Example:
  ${COMMAND} tune examples/heron.yaml --hold nest --price neck=3
`,
    )
    .action(async (figure: string, options: TuneCommandOptions) => {
      const { tune } = await import('./tune.js');
      end(await tune(figure, options));
    });

  program
    .command('compare')
    .description('Explores variants of one idea alike and says which wins at what, by how much.')
    .argument('<figures...>', 'two figure files or more; or one, with --each')
    .option('--each <name>', 'compare the options of this choice of the one figure file')
    .option(
      '--samples <count>',
      'how many dummies to score, for each variant and seed',
      wholeNumber(10, MOST_COMPARE_SAMPLES),
      COMPARE_SAMPLES,
    )
    .option('--seed <number>', 'the first seed', wholeNumber(0, 2 ** 31), SEED)
    .option(
      '--seeds <count>',
      `how many seeds, ${LEAST_SEEDS} to ${MOST_SEEDS}: the more, the surer`,
      wholeNumber(LEAST_SEEDS, MOST_SEEDS),
      LEAST_SEEDS,
    )
    .option(
      '--workers <count>',
      'threads to score with (default: one for each core)',
      wholeNumber(1, MOST_WORKERS),
    )
    .option(
      '--out <folder>',
      'where to write (default: compare, in the folder of the results of the first file)',
      folderName,
    )
    .option('--resume', 'go on with a comparison that was interrupted', false)
    .option('--json', 'print the verdict as JSON instead of words', false)
    .option('--open', 'open the page when done', false)
    .addHelpText(
      'after',
      `
Writes to the folder: compare.html (look at this first), verdict.csv and compare.json. All variants must have the
same wants; their panels may differ.

Examples:
  ${COMMAND} compare examples/variants/symmetric.yaml examples/variants/asymmetric.yaml
  ${COMMAND} compare examples/ferryman.yaml --each sits --samples 300
`,
    )
    .action(async (figures: string[], options: CompareCommandOptions) => {
      const { compare } = await import('./compare.js');
      end(await compare(figures, options));
    });

  program
    .command('new')
    .description('Starts a figure file: one that works at once, with remarks on what to change.')
    .argument('[pattern]', `one of ${patterns.map(({ name }) => name).join(', ')}`)
    .argument('[file]', 'the figure file to write (YAML); it must not be there yet')
    .option('--list', 'only list the patterns, and say where their pictures are', false)
    .addHelpText(
      'after',
      `
Patterns:
${patternLines()}

Example:
  ${COMMAND} new arm-on-counter-fold dancers.yaml
  ${COMMAND} new --list
`,
    )
    .action(
      (
        pattern: string | undefined,
        file: string | undefined,
        options: { list: boolean },
        command: Command,
      ) => {
        if (options.list) end(listPatterns());
        else if (pattern === undefined || file === undefined)
          command.error(`error: missing required argument '${pattern === undefined ? 'pattern' : 'file'}'`);
        else end(startFigure(pattern, file));
      },
    );

  program
    .command('desk')
    .description(
      'Opens a page in which a figure is built and freed while it moves; the file stays the truth.',
    )
    .argument(
      '<figure>',
      'the figure file (YAML); where there is none yet, the page offers patterns to begin with',
    )
    .option('--no-open', 'only print the address, and open nothing')
    .addHelpText(
      'after',
      `
The page is served on this machine only, to whoever has its address, and ends when it is closed, or with Ctrl-C.
What it does is written to the figure file at once, with all other letters as they are.

Example:
  ${COMMAND} desk mine.yaml
`,
    )
    .action(async (figure: string, options: { open: boolean }) => {
      const { desk } = await import('./desk.js');
      end(await desk(figure, options));
    });

  program
    .command('card')
    .description('Says how stiff card is: as is typical, and as a strip of it shows (see docs/card.md).')
    .option('--grammage <g/m²>', 'of the card', amount(3000), 250)
    .option('--thickness <mm>', 'of the card', amount(10), 0.3)
    .option('--overhang <mm>', 'a strip is laid so far over the edge of a table', amount(1000))
    .option('--drop <mm>', 'and its end sinks by so much', amount(1000))
    .option('--force <mN>', 'or its bending resistance at 15°, 50 mm, 38 mm wide', amount(100_000))
    .option('--rest <degrees>', 'a strip folded flat and laid on its side stays at this angle', amount(180))
    .option('--laid <degrees>', 'and at this one with one half on the table', amount(180))
    .option('--free <mm>', 'under the other half, which is so long', amount(1000))
    .addHelpText(
      'after',
      `
Example:
  ${COMMAND} card --grammage 240 --overhang 150 --drop 19
`,
    )
    .action((options: CardOptions) => {
      end(cardInWords(options));
    });

  program
    .command('sheets')
    .description('Makes true-scale sheets to cut, and a guide to putting them together.')
    .argument('<figure or results>', 'the figure file (YAML), or the folder of a study')
    .option('--set <dim=value>', 'give a dim a value; may be given again for other dims', collected, [])
    .addOption(rankOption())
    .addOption(damagedOption())
    .option('--out <folder>', 'where to write the files (default: in the folder of the results)', folderName)
    .option('--paper <sheet>', 'A4, A3, Letter … or WIDTHxHEIGHT in mm (default: A4)')
    .option('--copies <count>', 'how many of each piece (default: 1)', wholeNumber(1, 1000))
    .option('--costs <file>', 'minutes by kind of work, and prices (YAML)')
    .option('--margin <mm>', "room left at the sheet's edges (default: 10)", millimetres)
    .option('--spacing <mm>', 'room left between pieces (default: 5)', millimetres)
    .addOption(
      new Option('--base <how>', 'the book: as fits, one sheet, two leaves, or none but a template').choices([
        'auto',
        'sheet',
        'leaves',
        'none',
      ]),
    )
    .option('--behind-page', 'tabs on the page go through slits and are glued behind', false)
    .option('--art-templates', 'an SVG for each panel, to draw its art on', false)
    .option('--printer', 'die-lines and artwork templates, too', false)
    .option('--bleed <mm>', 'with --printer: how far artwork runs past the cut (default: 3)', millimetres)
    .option('--spot-cut <name>', 'with --printer: name of the spot colour of cuts (default: Cut)')
    .option('--spot-crease <name>', 'of creases (default: Crease)')
    .option('--spot-glue <name>', 'of glue (default: Glue)')
    .addHelpText(
      'after',
      `
Writes PDF, SVG (in mm) and DXF (for cutting machines) at true scale, and the guide as PDF. Print at 100 %.
A file for --costs has any of these; minutes are for one of each, and what has no price is left out of the sum:
  minutes: { stroke: 0.15, crease: 0.3, glue: 1, hub: 2, pass: 0.5 }
  prices: { currency: EUR, sheet: 0.2, glue: 0.02, hour: 18 }

Examples:
  ${COMMAND} sheets examples/heron.yaml --paper A3
  ${COMMAND} sheets results/ferryman --rank 2 --out ferryman-2
`,
    )
    .action(async (path: string, options: SheetsCommandOptions) => {
      const { sheets } = await import('./sheets.js');
      end(await sheets(path, options));
    });
  return program;
}

const rankOption = () =>
  new Option('--rank <place>', 'which dummy of the study, 1 for the best (default: 1)').argParser(
    wholeNumber(1, MOST_SAMPLES),
  );
const damagedOption = () => new Option('--damaged', 'of a damaged study, rank what is left').default(false);
