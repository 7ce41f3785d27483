import type { Layout, SillPiece, ThingId, Wall } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import type {
  Crash,
  OpenQuestion,
  ReportedFinding,
  Rule,
  RuleContext,
  RuleScope,
  ScopeSubjects,
  Seen,
} from './define.ts';
import type { Finding, Fix, Layer, NotChecked } from './finding.ts';
import type { AskedLimit } from './limit-words.ts';

/** One thing that a rule looks at, with what a finding about it says by default. */
export interface RuleSite {
  readonly subject: ScopeSubjects[RuleScope];
  readonly wall: Wall | undefined;
  readonly piece: SillPiece | undefined;
  readonly id: ThingId;
  readonly source: SourceSpan;
  readonly station: Length | undefined;
  readonly layer: Layer;
}

export interface RunResult {
  readonly findings: readonly {
    readonly finding: Omit<Finding, 'fixes' | 'accepted'>;
    /** Which finding of its rule this is, whatever else is edited. */
    readonly identity: string;
    readonly propose: ((layout: Layout) => readonly Fix[]) | undefined;
  }[];
  readonly notChecked: readonly NotChecked[];
  readonly openQuestions: readonly OpenQuestion[];
  readonly crashes: readonly Crash[];
}

/** Lets a rule look at one thing. What it throws is caught: our mistake, never the user's. */
export function runRule(rule: Rule, layout: Layout, site: RuleSite, seen: Seen): RunResult {
  const findings: RunResult['findings'][number][] = [];
  const notChecked: NotChecked[] = [];
  const openQuestions: OpenQuestion[] = [];
  const crashes: Crash[] = [];
  const asked: AskedLimit[] = [];
  const units = layout.title.units;
  const wall = site.wall?.name;

  const lacks: RuleContext['lacks'] = ({ wants, at, thing }) => {
    notChecked.push({ rule: rule.id, wants, thing: thing ?? site.id, wall, piece: site.piece?.name, span: at });
  };
  const leftOpen: RuleContext['leftOpen'] = (question, at) => {
    if (question.kind === 'depends') lacks({ wants: question.wants, at });
    else openQuestions.push({ rule: rule.id, question, at });
  };
  const context: RuleContext = {
    layout,
    seen,
    limit(subject, query) {
      const answer = limitFor(layout.rules, subject, query);
      if (answer.kind === 'limit') asked.push({ limit: answer.limit, query });
      return answer;
    },
    show: (length) => formatLength(length, units),
    showStation: (length) => formatStation(length, units),
    lacks,
    leftOpen,
    report: (reported) => findings.push(completed(rule, site, reported, asked)),
  };
  try {
    rule.check(site.subject, context);
  } catch (thrown) {
    crashes.push({
      rule: rule.id,
      wall,
      reason: thrown instanceof Error ? thrown.message : String(thrown),
      at: site.source,
    });
  }
  return { findings, notChecked, openQuestions, crashes };
}

function completed(
  rule: Rule,
  site: RuleSite,
  reported: ReportedFinding,
  asked: readonly AskedLimit[],
): RunResult['findings'][number] {
  const thing = 'thing' in reported ? reported.thing : site.id;
  const identity = `${rule.id} ${reported.about ?? thing ?? ''}`;
  const { citation } = reported;
  return {
    finding: {
      rule: rule.id,
      severity: reported.severity ?? rule.severity,
      message: reported.message,
      thing,
      layer: reported.layer ?? site.layer,
      wall: 'wall' in reported ? reported.wall : site.wall?.name,
      piece: 'piece' in reported ? reported.piece : site.piece?.name,
      station: 'station' in reported ? reported.station : site.station,
      stationTo: reported.stationTo,
      span: reported.span,
      related: reported.related ?? [],
      citation,
      asked: reported.asked ?? (citation && asked.findLast(({ limit }) => limit.citation === citation)),
      identity,
    },
    identity,
    propose: reported.fixes,
  };
}
