import { layoutAsBuilt, wallAsBuilt } from '../../fit/as-built.ts';
import { cornersOf } from '../../fit/corners.ts';
import { isSameList } from '../../list-in-runs.ts';
import type { Tie } from '../../model/design.ts';
import type { Layout, NewAnchor, Wall } from '../../model/layout.ts';
import type { AsBuilt } from '../../model/record.ts';
import { applies } from '../applies.ts';
import type { Rule, RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Finding } from '../finding.ts';
import { restsOn } from '../rests-on.ts';
import type { RunResult } from '../run-rule.ts';
import { nothingHeard, runRule, withoutProposals } from '../run-rule.ts';
import { sitesOnWall } from '../sites-on-wall.ts';

const recorded = (place: string): string =>
  `${demo({ anchors: sound })}\nrecord 2026-06-10\n  installed F-3 at ${place} because "hit steel"\n`;

/**
 * What was built elsewhere, or otherwise, than designed is put to the rules that look at walls, where it stands now.
 * @param allRules the rules, this one among them
 */
export const movedOutOfPlace = (allRules: () => readonly Rule[]) =>
  defineRule({
    id: 'as-built/moved-out-of-place',
    severity: 'error',
    on: 'wall',
    besides: 'round-corners',
    summary:
      'An anchor that the record has at another place, deeper or of another kind than the design, breaks a rule as built.',
    why: 'What holds the house is what was built. An anchor that was moved past a stone may leave its end window, a gap or a pipe behind that the drawing never showed.',
    remedy:
      'Add an anchor where one is wanted now, design the change and issue it, or have the official accept it: `accept … because "…"`. A place that nobody wrote down is measured first.',
    subjects: {},
    examples: [{ failing: recorded(`9'-4"`), passing: recorded(`8'-7"`) }],
    check({ wall }, context) {
      for (const { name, id, asBuilt } of marksOf(wall)) {
        if (!asBuilt || asBuilt.asPlanned || asBuilt.station !== undefined) continue;
        context.lacks({ wants: `where ${name} was built`, at: asBuilt.source, thing: id });
      }
      const { layout } = context;
      const built = wallAsBuilt(layout, wall);
      const { left, right } = cornersOf(layout, wall);
      const around = [left?.neighbour, right?.neighbour].filter((each) => each !== undefined);
      const isAsDesigned = built === wall && around.every((each) => wallAsBuilt(layout, each) === each);
      if (!isAsDesigned) judge(allRules(), wall, built, context);
    },
  });

type Mark = NewAnchor | Tie;
const marksOf = (wall: Wall): readonly Mark[] => [...wall.anchors, ...wall.ties];

/** A mark that was built otherwise than designed. */
interface Moved {
  readonly mark: Mark;
  readonly asBuilt: AsBuilt;
}

function judge(allRules: readonly Rule[], wall: Wall, built: Wall, context: RuleContext): void {
  // On a wall that was built as designed only what looks round its corners can say something else.
  const scopes = built === wall ? ['round-corners'] : [undefined, 'round-corners'];
  const { common, apart } = restsOn(context.layout, wall);
  const said = apart
    .filter(({ besides }) => scopes.includes(besides))
    .map(({ besides, own }) => saidInScope(allRules, wall, built, besides, [...own, ...common], context));
  const now = saidBy(said.map((each) => each.now));
  const designed = saidBy(said.map((each) => each.designed));
  const moved = movedOn(wall, built);
  const alsoDesigned = new Set(designed.findings.map(({ finding }) => sameWords(finding)));
  for (const { finding } of now.findings) {
    if (finding.severity === 'info' || alsoDesigned.has(sameWords(finding))) continue;
    const whose = whoseFault(finding, moved);
    // What was built on the next wall is told there.
    if (whose) report(finding, whose, context);
  }
  const lacked = new Set(designed.notChecked.map(({ rule, wants, thing }) => `${rule} ${wants} ${thing}`));
  for (const { rule, wants, thing, span } of now.notChecked) {
    if (!lacked.has(`${rule} ${wants} ${thing}`)) context.lacks({ wants, thing, at: span });
  }
  const crashed = new Set(designed.crashes.map(({ rule }) => rule));
  const crash = now.crashes.find(({ rule }) => !crashed.has(rule));
  if (crash) throw new Error(`${crash.rule} on what was built: ${crash.reason}`);
}

/** What rules say of a wall as it was built, and what those that have a word to say of it say of its design. */
interface Said {
  readonly now: RunResult;
  readonly designed: RunResult;
}

/** By the design of the wall and the scope of the rules. What was built follows from the design, so it needs no look. */
const keptSaid = new WeakMap<Wall, Map<Rule['besides'], KeptSaid>>();
interface KeptSaid extends Said {
  readonly inputs: readonly unknown[];
}

/** An edit of a neighbour leaves most of it as it was. */
function saidInScope(
  allRules: readonly Rule[],
  wall: Wall,
  built: Wall,
  besides: Rule['besides'],
  inputs: readonly unknown[],
  context: RuleContext,
): Said {
  const ofWall = keptSaid.get(wall) ?? new Map<Rule['besides'], KeptSaid>();
  keptSaid.set(wall, ofWall);
  const before = ofWall.get(besides);
  if (before && isSameList(before.inputs, inputs)) return before;
  const { layout } = context;
  const judged = allRules.filter((rule) => rule.on !== 'house' && rule.besides === besides && !isAboutTheRecord(rule));
  const now = heardOf(judged, layoutAsBuilt(layout), built, context);
  const speaking = new Set<string>(
    [...now.findings.map(({ finding }) => finding), ...now.notChecked, ...now.crashes].map(({ rule }) => rule),
  );
  const asked = judged.filter(({ id }) => speaking.has(id));
  const said = { inputs, now, designed: heardOf(asked, layout, wall, context) };
  ofWall.set(besides, said);
  return said;
}

const isAboutTheRecord = ({ id }: Rule): boolean => id.startsWith('as-built/');

const saidBy = (parts: readonly RunResult[]): Pick<RunResult, 'findings' | 'notChecked' | 'crashes'> => ({
  findings: parts.flatMap(({ findings }) => findings),
  notChecked: parts.flatMap(({ notChecked }) => notChecked),
  crashes: parts.flatMap(({ crashes }) => crashes),
});

function heardOf(judged: readonly Rule[], layout: Layout, wall: Wall, { seen }: RuleContext): RunResult {
  const heard = nothingHeard();
  for (const rule of judged) {
    if (applies(rule, layout, wall)) runRule(rule, layout, sitesOnWall(rule.on, wall), seen, heard);
  }
  return { ...heard, findings: withoutProposals(heard.findings) };
}

const sameWords = ({ identity, message }: Omit<Finding, 'fixes' | 'accepted'>): string => `${identity} ${message}`;

function movedOn(wall: Wall, built: Wall): readonly Moved[] {
  const designed = new Set(marksOf(wall));
  return marksOf(built).flatMap((mark): readonly Moved[] =>
    designed.has(mark) || !mark.asBuilt ? [] : [{ mark, asBuilt: mark.asBuilt }],
  );
}

/** The mark that a finding is about, or that stands nearest to what it is about. */
function whoseFault(
  { thing, span, related, station }: Pick<Finding, 'thing' | 'span' | 'related' | 'station'>,
  moved: readonly Moved[],
): Moved | undefined {
  const own = moved.find(({ mark, asBuilt }) => mark.id === thing || asBuilt.source === span);
  if (own) return own;
  const beside = moved.find(({ asBuilt }) => related.some((each) => each.span === asBuilt.source));
  if (beside || station === undefined) return beside ?? moved[0];
  const away = ({ mark }: Moved): number => Math.abs((mark.station ?? station) - station);
  return moved.toSorted((a, b) => away(a) - away(b))[0];
}

function report(finding: Omit<Finding, 'fixes' | 'accepted'>, { mark, asBuilt }: Moved, context: RuleContext): void {
  const { rule, message, severity, thing, wall, piece, station, stationTo, span, related, citation, asked } = finding;
  const also = [{ span, message: `what ${rule} looks at` }, ...related].filter((each) => each.span !== asBuilt.source);
  context.report({
    message: `As built: ${factsOf(message)} Add an anchor, or ask the official (${rule}).`,
    severity,
    about: finding.identity ?? `${rule} ${thing}`,
    thing: mark.id,
    layer: 'record',
    wall,
    piece,
    station,
    stationTo,
    span: asBuilt.source,
    related: also,
    citation,
    ...(asked ? { asked } : {}),
  });
}

/** The first sentence: what follows tells how to mend a design. */
const factsOf = (message: string): string => /^.*?\.(?=\s+[A-Z]|$)/.exec(message)?.[0] ?? message;
