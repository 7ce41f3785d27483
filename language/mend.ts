import { type Analysis, writeEdits } from './analysis.ts';
import type { FileId } from './domain/model/source.ts';
import type { Finding, Fix, RuleId } from './domain/rules/finding.ts';
import { applyChanges } from './syntax/write-edit.ts';

export interface MadeMend {
  readonly finding: Finding;
  readonly fix: Fix;
  /** What was known before it was made. */
  readonly before: Analysis;
}

export interface MendingTexts {
  /** The file as it is read from now on. */
  replaceText(file: FileId, text: string): void;
  analyse(file: FileId): Analysis;
}

/**
 * Mends one finding, looks at the whole layout anew, and goes on until nothing is left that helps. A mend that does not
 * take its finding away, or that brings an error, is taken back. Only the file itself is changed, never one that it uses;
 * nothing is made that guesses at what somebody measured.
 */
export function mendAnalysis(
  texts: MendingTexts,
  start: Analysis,
  which: {
    /** Only these; empty: every rule. */
    readonly rules: readonly string[];
    /** `safe`: only what keeps the meaning. */
    readonly trust: 'safe' | 'review';
  },
): { readonly analysis: Analysis; readonly mends: readonly MadeMend[] } {
  const chosen = new Set(which.rules);
  const mends: MadeMend[] = [];
  // What was tried once is not tried again, so the loop ends even where two mends undo each other.
  const tried = new Set<string>();
  // Findings that nothing helped so far. Working out mends is dear, so these wait until another mend has changed the house.
  let waiting = new Set<string>();
  let mendsBeforeRound = 0;
  let analysis = start;
  for (;;) {
    const next = nextMend(analysis, chosen, which.trust, tried, waiting);
    if (!next) {
      if (mends.length === mendsBeforeRound) return { analysis, mends };
      mendsBeforeRound = mends.length;
      waiting = new Set();
      continue;
    }
    tried.add(next.key);
    texts.replaceText(analysis.file, next.text);
    const after = texts.analyse(analysis.file);
    if (!isBetter(analysis, after, next.finding.rule)) {
      texts.replaceText(analysis.file, analysis.text);
      analysis = texts.analyse(analysis.file);
      continue;
    }
    mends.push({ finding: next.finding, fix: next.fix, before: analysis });
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
  trust: 'safe' | 'review',
  tried: ReadonlySet<string>,
  waiting: Set<string>,
): NextMend | undefined {
  for (const finding of analysis.findings) {
    if (finding.accepted !== undefined || (chosen.size > 0 && !chosen.has(finding.rule))) continue;
    const identity = JSON.stringify([finding.rule, finding.thing, finding.message]);
    if (waiting.has(identity)) continue;
    for (const fix of finding.fixes) {
      if (fix.trust === 'by-hand' || (trust === 'safe' && fix.trust !== 'safe')) continue;
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
