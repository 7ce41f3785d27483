import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import type { ScheduleName } from '../../../language/domain/documents/schedules/table.ts';
import type { SheetSizeName } from '../../../language/domain/drawing/sheet/sheet-sizes.ts';
import packageManifest from '../../../package.json' with { type: 'json' };
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { readRuleSetChoice } from './rule-set-choice.ts';
import { readScheduleChoice } from './schedule-choice.ts';
import { readSheetChoice } from './sheet-choice.ts';
import { complain, type Terminal } from './terminal.ts';

/**
 * Runs one command. Never throws: what the user can mend ends in 1 or 2 with a message, what only we can mend in 3.
 * Commands are loaded when they are called, so that `--help` and a small check start quickly.
 */
export async function runCommandLine(
  words: readonly string[],
  terminal: Terminal,
  environment: Readonly<Record<string, string | undefined>>,
): Promise<ExitCode> {
  let code: ExitCode = exitCodes.clean;
  const program = describeProgram(terminal, (result) => {
    code = result;
  });
  try {
    await program.parseAsync(words, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.clean : exitCodes.couldNotRun;
    explainDefect(error, terminal, words.includes('--trace') || Boolean(environment.SILLWRIGHT_TRACE));
    return exitCodes.defect;
  }
}

function describeProgram(terminal: Terminal, finish: (code: ExitCode) => void): Command {
  const program = new Command('sillwright')
    .description(
      'Checks, mends, draws and schedules layouts for tying an old wood house to its foundation (.sill files).',
    )
    .version(packageManifest.version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print how a command is used')
    .helpCommand('help [command]', 'print how a command is used')
    .exitOverride()
    .showHelpAfterError('(add --help for how it is used)')
    .configureOutput({ writeOut: (text) => terminal.out(text), writeErr: (text) => terminal.err(text) })
    .addHelpText('after', afterHelp);

  const command = (usage: string, description: string, parent = program) =>
    parent
      .command(usage)
      .description(description)
      .option('--trace', 'after a defect of Sillwright itself, show where it lies');

  command('check <files...>', 'check layouts and print what was found')
    .addOption(formatOption(['text', 'json']))
    .addOption(
      new Option(
        '--rules <names>',
        "check under these rule sets in place of the layout's own, commas between; given again, compare them side by side",
      ).argParser(readRuleSetChoice),
    )
    .action(async (files: string[], options: { format: 'text' | 'json'; rules?: readonly (readonly string[])[] }) => {
      const { format, rules: choices = [] } = options;
      if (choices.length > 1) {
        const { compare } = await import('./commands/compare.ts');
        finish(compare(files, { format, choices }, terminal));
      } else {
        const { check } = await import('./commands/check.ts');
        finish(check(files, { format, rules: choices[0] }, terminal));
      }
    });

  command('fix <file>', 'show what mending the findings would change; with --write, change it')
    .option('--rule <id>', 'mend this rule only; may be given again', collect)
    .option('--write', 'write the mended file')
    .action(async (file: string, options: { rule?: string[]; write?: true }) => {
      const { fix } = await import('./commands/fix.ts');
      finish(fix(file, { rules: options.rule ?? [], write: options.write === true }, terminal));
    });

  command('format <file>', 'print the file in its canonical format')
    .addOption(new Option('--write', 'write it back').conflicts('check'))
    .addOption(new Option('--check', 'only say whether anything would change (1 if so)').conflicts('write'))
    .action(async (file: string, options: { write?: true; check?: true }) => {
      const { format } = await import('./commands/format.ts');
      finish(format(file, { write: options.write === true, check: options.check === true }, terminal));
    });

  command('place <file>', 'lay out the connectors, fewest and cheapest first; with --write, write them as proposals')
    .option('--wall <name>', 'this wall only')
    .option('--slip <length>', 'how far every hole may drift, for example 1/2in, with the limits still kept')
    .addOption(
      new Option(
        '--rules <names>',
        "keep these rule sets in place of the layout's own, commas between; given again, keep all of them at once",
      ).argParser(readRuleSetChoice),
    )
    .option('--connector <name>', 'choose from this connector; may be given again', collectConnectors)
    .option('--move-issued', 'also move proposals whose marks an issue holds')
    .option('--write', 'write the proposals into the file')
    .option('--diff', 'show what --write would change')
    .addOption(formatOption(['text', 'json']))
    .action(
      async (
        file: string,
        options: {
          wall?: string;
          slip?: string;
          rules?: readonly (readonly string[])[];
          connector?: string[];
          moveIssued?: true;
          write?: true;
          diff?: true;
          format: 'text' | 'json';
        },
      ) => {
        const { place } = await import('./commands/place.ts');
        const { rules = [], connector = [], moveIssued, write, diff, ...rest } = options;
        finish(
          place(
            file,
            {
              ...rest,
              rules,
              connectors: connector,
              moveIssued: moveIssued === true,
              write: write === true,
              diff: diff === true && write !== true,
            },
            terminal,
          ),
        );
      },
    );

  command('serve', 'be the language server of an editor')
    .requiredOption('--stdio', 'speak over standard input and output')
    .action(async () => {
      const { serve } = await import('./commands/serve.ts');
      finish(await serve());
    });

  command('draw <file>', 'draw the plan, a wall, a girder, crew strips or sections as SVG')
    .addOption(new Option('--plan', 'the plan of the house').conflicts(['wall', 'girder']))
    .addOption(new Option('--wall <name>', 'the inside elevation of a wall').conflicts(['plan', 'girder']))
    .addOption(new Option('--girder <name>', 'a girder and its posts from the side').conflicts(['plan', 'wall']))
    .addOption(
      new Option('--windows <mark>', 'with --wall: where this anchor may stand, and what is in the way').conflicts([
        'plan',
        'girder',
      ]),
    )
    .addOption(
      new Option(
        '--strips',
        'for the crew: a strip for each wall, a card for each mark, two strips to a sheet; with --wall that wall alone',
      ).conflicts(['plan', 'girder', 'windows', 'sections']),
    )
    .addOption(
      new Option(
        '--sections',
        'the walls cut across, once for each way in which they are built; with --wall that wall alone',
      ).conflicts(['plan', 'girder', 'windows', 'strips']),
    )
    .addOption(
      new Option(
        '--sheet <size>',
        'as printed sheets with frame and title block: 24x18, 36x24, 17x11, A1, A2 or A3; without --plan, --wall or --girder the whole set with its cover',
      )
        .argParser(readSheetChoice)
        .conflicts(['windows', 'strips', 'sections']),
    )
    .option('-o, --output <path>', 'write to this file; of several sheets each gets its number before the ending')
    .action(
      async (
        file: string,
        options: {
          plan?: true;
          wall?: string;
          girder?: string;
          windows?: string;
          strips?: true;
          sections?: true;
          sheet?: SheetSizeName;
          output?: string;
        },
      ) => {
        const { draw, viewOf } = await import('./commands/draw.ts');
        if (options.sheet !== undefined) {
          const { drawSheets } = await import('./commands/draw-sheets.ts');
          const { sheet: size, output } = options;
          finish(drawSheets(file, { size, view: viewOf(options), output }, terminal));
          return;
        }
        finish(await draw(file, { view: viewOf(options), output: options.output }, terminal));
      },
    );

  command('schedule <file>', 'list what the design puts in: connectors, panels, ties, posts, angles, blocks, remedies')
    .addOption(
      new Option(
        '--of <names>',
        'only these, commas between: connectors, panels, ties, posts, angles, blocks, remedies, record, stock, work; in CSV connectors unless you say more, or all',
      ).argParser(readScheduleChoice),
    )
    .addOption(formatOption(['text', 'csv', 'json']))
    .option('-o, --output <path>', 'write to this file')
    .action(
      async (
        file: string,
        options: { of?: readonly ScheduleName[]; format: 'text' | 'csv' | 'json'; output?: string },
      ) => {
        const { schedule } = await import('./commands/schedule.ts');
        finish(schedule(file, { format: options.format, of: options.of, output: options.output }, terminal));
      },
    );

  command('calc <file>', 'set the demand of each line beside the capacity that is counted, with the work shown')
    .option('--line <name>', 'this line of resistance only')
    .option('--existing-building-share', 'take 75 percent of the base shear of a new building: a choice that you state')
    .addOption(formatOption(['text', 'json', 'html']))
    .option('-o, --output <path>', 'write to this file')
    .action(
      async (
        file: string,
        options: {
          line?: string;
          existingBuildingShare?: true;
          format: 'text' | 'json' | 'html';
          output?: string;
        },
      ) => {
        const { calc } = await import('./commands/calc.ts');
        finish(await calc(file, options, terminal));
      },
    );

  command('survey-list <file>', 'list what to measure, confirm and ask on the next visit, wall by wall')
    .addOption(formatOption(['text', 'csv', 'json']))
    .option('-o, --output <path>', 'write to this file')
    .action(async (file: string, options: { format: 'text' | 'csv' | 'json'; output?: string }) => {
      const { surveyList } = await import('./commands/survey-list.ts');
      finish(surveyList(file, { format: options.format, output: options.output }, terminal));
    });

  command('close <file>', 'show how the outline closes, and spread its error over the walls; with --write, write it')
    .option('--anew', 'spread it anew from the tape, also where the adjusted lengths close')
    .option('--write', 'write the adjusted lengths beside the taped ones')
    .action(async (file: string, options: { anew?: true; write?: true }) => {
      const { close } = await import('./commands/close.ts');
      finish(close(file, { anew: options.anew === true, write: options.write === true }, terminal));
    });

  const verify = command('verify', 'work published figures and walls with known answers anew');
  command('values [file]', 'compare figures with what the formulas here give; without a file, those shipped', verify)
    .addOption(formatOption(['text', 'json']))
    .action(async (file: string | undefined, options: { format: 'text' | 'json' }) => {
      const { verifyValuesIn } = await import('./commands/verify.ts');
      finish(await verifyValuesIn(file, options, terminal));
    });
  command('placement <file>', 'solve the walls of a case file, one line of JSON each', verify).action(
    async (file: string) => {
      const { verifyPlacementIn } = await import('./commands/verify.ts');
      finish(await verifyPlacementIn(file, terminal));
    },
  );

  command('rules [id]', 'list the rules, or print the page of one').action(async (id: string | undefined) => {
    const { rules } = await import('./commands/rules.ts');
    finish(rules(id, terminal));
  });

  return program;
}

const afterHelp = `
Exit codes: 0 clean, 1 an error or a stop was found, 2 could not run, 3 a defect of Sillwright.
An aid to drafting and checking, not engineering. Local code, the building official and licensed professionals decide.`;

function formatOption(formats: readonly string[]): Option {
  return new Option('--format <format>', 'how it is written').choices(formats).default(formats[0]);
}

function collectConnectors(value: string, before: string[] | undefined): string[] {
  if (value === '') throw new InvalidArgumentError('Name a connector, for example flat-plate.');
  return [...(before ?? []), value];
}

function collect(value: string, before: string[] | undefined): string[] {
  if (value === '') throw new InvalidArgumentError('Name a rule, for example anchorage/end-too-far.');
  return [...(before ?? []), value];
}

function explainDefect(error: unknown, terminal: Terminal, trace: boolean): void {
  const what = error instanceof Error ? error.message : String(error);
  complain(terminal, `this is a defect of Sillwright, not of your file: ${what}`);
  if (trace) terminal.err(`${error instanceof Error ? (error.stack ?? what) : what}\n`);
  else
    terminal.err('Nothing was written. Run it again with --trace to see where it lies, and send that with the file.\n');
}
