import type { Finding, Severity } from '../rules/finding.ts';
import type { MarkerKind } from './symbols.ts';

/** A finding with the number that its marker and its line in the list share. */
export interface NumberedFinding {
  readonly number: number;
  readonly finding: Finding;
  readonly kind: MarkerKind;
}

export function numbered(findings: readonly Finding[]): readonly NumberedFinding[] {
  return findings.map((finding, index) => ({ number: index + 1, finding, kind: markerKind(finding) }));
}

/** A stop stays a stop: accepting it changes nothing. */
function markerKind(finding: Finding): MarkerKind {
  return finding.accepted !== undefined && finding.severity !== 'stop' ? 'accepted' : finding.severity;
}

export const markerWords: Readonly<Record<MarkerKind, string>> = {
  stop: 'STOP',
  error: 'ERROR',
  warning: 'WARNING',
  info: 'INFO',
  accepted: 'ACCEPTED',
};

/** What is dropped last has nought. */
export const markerPriority: Readonly<Record<Severity | 'accepted', number>> = {
  stop: 0,
  error: 0,
  warning: 1,
  accepted: 2,
  info: 3,
};
