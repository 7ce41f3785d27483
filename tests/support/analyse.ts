import type { Analysis } from '../../language/analysis.ts';
import { createAnalyser } from '../../language/analysis.ts';
import type { Finding } from '../../language/domain/rules/finding.ts';
import { MAIN, memoryHost } from './memory-host.ts';

/** One text, or several files of which `main.sill` is analysed. */
export function analyse(text: string | Readonly<Record<string, string>>): Analysis {
  const files = typeof text === 'string' ? { [MAIN]: text } : text;
  return createAnalyser(memoryHost(files)).analyse(MAIN);
}

export interface PlacedFinding {
  readonly file: string;
  /** 0-based. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly severity: Finding['severity'];
  readonly rule: string;
  readonly message: string;
}

/** Findings where a reader sees them; one that spans lines ends at the end of its first line. */
export function placedFindings(analysis: Analysis): readonly PlacedFinding[] {
  return analysis.checked.findings.map((finding) => {
    const place = analysis.locate(finding.span);
    const file = place?.file ?? '';
    const text = analysis.textOf(file) ?? '';
    const before = text.slice(0, place?.start ?? 0);
    const line = before.split('\n').length - 1;
    const from = before.length - (before.lastIndexOf('\n') + 1);
    const lineEnd = text.indexOf('\n', place?.start ?? 0);
    const end = Math.min(place?.end ?? 0, lineEnd < 0 ? text.length : lineEnd);
    return {
      file,
      line,
      from,
      to: from + end - (place?.start ?? 0),
      severity: finding.severity,
      rule: finding.rule,
      message: finding.message,
    };
  });
}
