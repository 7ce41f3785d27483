import { createTwoFilesPatch } from 'diff';
import { type Analysis, writeEdits } from '../../../../language/analysis.ts';
import { type PlacementReport, placementReport } from '../../../../language/domain/documents/placement-report.ts';
import { countOf, printable } from '../../../../language/domain/documents/text-layout.ts';
import { placementToJson, placementToText } from '../../../../language/domain/documents/write-placement.ts';
import type { Layout } from '../../../../language/domain/model/layout.ts';
import { sillConnectors } from '../../../../language/domain/place/connector-uses.ts';
import type { PlaceScope } from '../../../../language/domain/place/place-layout.ts';
import type { Length } from '../../../../language/domain/units/length.ts';
import { parseLength } from '../../../../language/domain/units/parse-length.ts';
import { applyChanges } from '../../../../language/syntax/write-edit.ts';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { notReadInFull, type OpenLayout, openLayout } from '../open-layout.ts';
import { complain, type Terminal } from '../terminal.ts';
import { writeTextFile } from '../write-text-file.ts';

export interface PlaceCommandOptions {
  readonly wall?: string;
  readonly slip?: string;
  /** Each entry is one choice of rule sets, a later one overriding an earlier; all entries have to be kept. */
  readonly rules: readonly (readonly string[])[];
  readonly connectors: readonly string[];
  readonly moveIssued: boolean;
  readonly write: boolean;
  readonly diff: boolean;
  readonly format: 'text' | 'json';
}

/**
 * `place FILE`: where the connectors go, proven, with what each may slide and what to do where a hole fails; `--write`
 * writes them as proposals. Ends in 1 where a board has no placement.
 */
export function place(file: string, options: PlaceCommandOptions, terminal: Terminal): ExitCode {
  const refused = (reason: string): ExitCode => {
    complain(terminal, reason);
    return exitCodes.couldNotRun;
  };
  const opened = openLayout(file);
  if (opened.kind === 'refused') return refused(opened.reason);
  const { layout: open } = opened;
  const { analysis } = open;
  const unread = notReadInFull(analysis);
  if (unread !== undefined) return refused(`${file} is not laid out, since it could not be read in full.\n${unread}`);
  const asked = readOptions(file, analysis, options);
  if (typeof asked === 'string') return refused(asked);

  const report = placementReport(
    { ...asked, connectors: options.connectors, moveIssued: options.moveIssued },
    analysis.findings.filter(({ rule }) => rule.startsWith('language/')),
  );
  const outcome = report.boards.some(({ board }) => board.outcome !== 'placed' && board.outcome !== 'left-alone')
    ? exitCodes.found
    : exitCodes.clean;
  if (!options.diff) terminal.out(options.format === 'json' ? placementToJson(report) : placementToText(report));
  if (!options.write && !options.diff) return outcome;
  const written = writePlacement(open, report, options, terminal);
  return written ?? outcome;
}

interface Asked {
  readonly layouts: readonly [Layout, ...Layout[]];
  readonly scope: PlaceScope;
  readonly slip: Length | undefined;
}

function readOptions(file: string, analysis: Analysis, options: PlaceCommandOptions): Asked | string {
  const { layout } = analysis;
  const scope = scopeOf(file, layout, options.wall);
  if (typeof scope === 'string') return scope;
  const slip = options.slip === undefined ? undefined : slipOf(options.slip);
  if (typeof slip === 'string') return slip;
  const known = new Map([...layout.connectors.values()].map((each) => [each.name.toLowerCase(), each]));
  for (const name of options.connectors) {
    if (!known.has(name.toLowerCase())) return `there is no connector ${printable(name)} in ${file} or what it uses.`;
    if (sillConnectors(layout, [name]).chosen.length === 0) return `connector ${printable(name)} is no sill anchor.`;
  }
  const layouts: Layout[] = [];
  for (const names of options.rules) {
    const missing = names.find((name) => !analysis.rulesNamed([name]));
    if (missing !== undefined)
      return `there is no rule set ${printable(missing)} in ${file}, what it uses or the shipped ones.`;
    const rules = analysis.rulesNamed(names);
    const source = layout.title.source ?? layout.walls[0]?.source;
    if (!rules || !source) return `${file} has no wall to lay out.`;
    layouts.push({
      ...layout,
      rules,
      title: { ...layout.title, ruleSets: names.map((name) => ({ name, source })) },
    });
  }
  const [first, ...rest] = layouts.length === 0 ? [layout] : layouts;
  return first === undefined ? 'no layout' : { layouts: [first, ...rest], scope, slip };
}

function scopeOf(file: string, layout: Layout, wall: string | undefined): PlaceScope | string {
  if (layout.walls.length === 0) return `${file} has no wall to lay out.`;
  if (wall === undefined) return { kind: 'house' };
  const found = layout.walls.find(({ name }) => name.toLowerCase() === wall.toLowerCase());
  if (found) return { kind: 'wall', wall: found };
  const names = layout.walls.map(({ name }) => printable(name));
  const shown = names.length > 20 ? `${names.slice(0, 20).join(', ')} and more` : names.join(', ');
  return `${file} has no wall ${printable(wall)}; its walls are ${shown}.`;
}

function slipOf(text: string): Length | string {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length')
    return `--slip ${printable(text)} is not a length; write it with its unit, for example 1/2in or 10mm.`;
  return parsed.length < 0 ? '--slip wants a length from 0 up.' : parsed.length;
}

/** `undefined` where it went well. */
function writePlacement(
  { path, byteOrderMark, host, analysis }: OpenLayout,
  report: PlacementReport,
  { write }: PlaceCommandOptions,
  terminal: Terminal,
): ExitCode | undefined {
  const refused = (reason: string): ExitCode => {
    complain(terminal, reason);
    return exitCodes.couldNotRun;
  };
  const changes = writeEdits(analysis, report.edits);
  if (changes.kind === 'refused') return refused(`the placement cannot be written: ${changes.reason}.`);
  const elsewhere = changes.changes.find((change) => change.file !== analysis.file);
  if (elsewhere)
    return refused(`the design stands in ${elsewhere.file}, which ${path} uses; place and write that file.`);
  const after = applyChanges(analysis.text, changes.changes);
  if (!write) {
    terminal.out(createTwoFilesPatch(path, path, analysis.text, after, 'as it is', 'laid out', { context: 3 }));
    return undefined;
  }
  if (changes.changes.length === 0) {
    terminal.err(`Nothing to write to ${path}: it is laid out so already.\n`);
    return undefined;
  }
  const keep = analysis.files.filter((used) => used !== host.main);
  const written = writeTextFile(path, (byteOrderMark ? '\uFEFF' : '') + after, { keep });
  if (written.kind === 'refused') return refused(`${path} cannot be written: ${written.reason}.`);
  const anchors = report.boards.reduce((sum, board) => sum + board.anchors.length, 0);
  terminal.err(`${countOf(anchors, 'proposal')} written to ${path}.\n`);
  return undefined;
}
