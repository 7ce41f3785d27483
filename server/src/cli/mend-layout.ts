import { type Analysis, writeEdits } from '../../../language/analysis.ts';
import type { TextPlace } from '../../../language/domain/documents/findings-report.ts';
import type { Finding, Fix, RuleId } from '../../../language/domain/rules/finding.ts';
import { applyChanges } from '../../../language/syntax/write-edit.ts';
import { type OpenLayout, placesIn } from './open-layout.ts';

/** A mend that was made, with the place of its finding before it. */
export interface Mend {
  readonly rule: RuleId;
  readonly title: string;
  /** Wants a person's eye. */
  readonly review: boolean;
  readonly place: TextPlace | undefined;
}

export interface Mended {
  readonly analysis: Analysis;
  readonly mends: readonly Mend[];
}

/**
 * Mends one finding, looks at the whole layout anew, and goes on until nothing is left that helps. A mend that does not
 * take its finding away, or that brings an error, is taken back. Only the file itself is changed, never one that it uses.
 * @param rules only these; empty: every rule
 */
export function mendLayout({ host, analyser, analysis: start }: OpenLayout, rules: readonly string[]): Mended {
  const chosen = new Set(rules);
  const mends: Mend[] = [];
  // What was tried once is not tried again, so the loop ends even where two mends undo each other.
  const tried = new Set<string>();
  // Findings that nothing helped so far. Working out mends is dear, so these wait until another mend has changed the house.
  let waiting = new Set<string>();
  let mendsBeforeRound = 0;
  let analysis = start;
  for (;;) {
    const next = nextMend(analysis, chosen, tried, waiting);
    if (!next) {
      if (mends.length === mendsBeforeRound) return { analysis, mends };
      mendsBeforeRound = mends.length;
      waiting = new Set();
      continue;
    }
    tried.add(next.key);
    host.replaceText(analysis.file, next.text);
    const after = analyser.analyse(analysis.file);
    if (!isBetter(analysis, after, next.finding.rule)) {
      host.replaceText(analysis.file, analysis.text);
      analysis = analyser.analyse(analysis.file);
      continue;
    }
    mends.push({
      rule: next.finding.rule,
      title: next.fix.title,
      review: next.fix.trust === 'review',
      place: placesIn(analysis)(next.finding.span),
    });
    analysis = after;
  }
}

interface NextMend {
  readonly finding: Finding;
  readonly fix: Fix;
  readonly text: string;
  readonly key: string;
}

function nextMend(
  analysis: Analysis,
  chosen: ReadonlySet<string>,
  tried: ReadonlySet<string>,
  waiting: Set<string>,
): NextMend | undefined {
  for (const finding of analysis.findings) {
    if (finding.accepted !== undefined || (chosen.size > 0 && !chosen.has(finding.rule))) continue;
    const identity = JSON.stringify([finding.rule, finding.thing, finding.message]);
    if (waiting.has(identity)) continue;
    for (const fix of finding.fixes) {
      const key = `${identity} ${fix.title}`;
      if (tried.has(key)) continue;
      const written = writeEdits(analysis, fix.edits);
      if (written.kind === 'refused' || written.changes.length === 0) continue;
      if (written.changes.some((change) => change.file !== analysis.file)) continue;
      return { finding, fix, text: applyChanges(analysis.text, written.changes), key };
    }
    waiting.add(identity);
  }
  return undefined;
}

/** The finding is gone, and no graver kind of finding has grown: so each mend is a step down, and there is a last one. */
function isBetter(before: Analysis, after: Analysis, rule: RuleId): boolean {
  const ofRule = (analysis: Analysis) =>
    analysis.findings.filter((finding) => finding.rule === rule && finding.accepted === undefined).length;
  if (ofRule(after) >= ofRule(before)) return false;
  for (const severity of ['stops', 'errors', 'warnings', 'infos'] as const) {
    const change = after.basis.counts[severity] - before.basis.counts[severity];
    if (change !== 0) return change < 0;
  }
  return false;
}
