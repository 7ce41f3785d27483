import type { Layout, SillPiece, ThingId, Wall } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { nothing, ownText } from '../spare-room.ts';
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
    /** Whether it came with something that a person might do. */
    readonly proposes: boolean;
    /** What that is; not in a result that is kept, since it holds on to the whole layout that the rule looked at. */
    readonly propose: ((layout: Layout) => readonly Fix[]) | undefined;
  }[];
  readonly notChecked: readonly NotChecked[];
  readonly openQuestions: readonly OpenQuestion[];
  readonly crashes: readonly Crash[];
}

/** Gathers what rules say. */
export interface Heard {
  readonly findings: RunResult['findings'][number][];
  readonly notChecked: NotChecked[];
  readonly openQuestions: OpenQuestion[];
  readonly crashes: Crash[];
}

/** The same for keeping: what the findings propose is asked of the rule again. */
export function withoutProposals(findings: RunResult['findings']): RunResult['findings'] {
  return findings.map((each) => ({ ...each, propose: undefined }));
}

export function nothingHeard(): Heard {
  return { findings: [], notChecked: [], openQuestions: [], crashes: [] };
}

/**
 * Lets a rule look at one thing after the other. What it throws is caught: our mistake, never the user's. What crashed once crashes
 * again; once is enough to say so.
 */
export function runRule(rule: Rule, layout: Layout, sites: readonly RuleSite[], seen: Seen, heard: Heard): void {
  const [first] = sites;
  if (!first) return;
  let site = first;
  let asked: AskedLimit[] = [];
  const units = layout.title.units;

  const lacks: RuleContext['lacks'] = ({ wants, at, thing }) => {
    const { wall, piece, id } = site;
    heard.notChecked.push({ rule: rule.id, wants, thing: thing ?? id, wall: wall?.name, piece: piece?.name, span: at });
  };
  const leftOpen: RuleContext['leftOpen'] = (question, at) => {
    if (question.kind === 'depends') lacks({ wants: question.wants, at });
    else heard.openQuestions.push({ rule: rule.id, question, at });
  };
  // One for all sites: a wall has many anchors, and most rules have nothing to say of most of them.
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
    report: (reported) => heard.findings.push(completed(rule, site, reported, asked)),
  };
  for (const each of sites) {
    site = each;
    if (asked.length > 0) asked = [];
    try {
      rule.check(site.subject, context);
    } catch (thrown) {
      const reason = thrown instanceof Error ? thrown.message : String(thrown);
      heard.crashes.push({ rule: rule.id, wall: site.wall?.name, reason, at: site.source });
      return;
    }
  }
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
      message: ownText(reported.message),
      thing,
      layer: reported.layer ?? site.layer,
      wall: 'wall' in reported ? reported.wall : site.wall?.name,
      piece: 'piece' in reported ? reported.piece : site.piece?.name,
      station: 'station' in reported ? reported.station : site.station,
      stationTo: reported.stationTo,
      span: reported.span,
      related: reported.related ?? nothing,
      citation,
      asked: reported.asked ?? (citation && asked.findLast(({ limit }) => limit.citation === citation)),
      identity,
    },
    identity,
    proposes: reported.fixes !== undefined,
    propose: reported.fixes,
  };
}
