import type { Analyser } from '../../../language/analysis.ts';
import { createAnalyser } from '../../../language/analysis.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import type { FileHost } from '../../../language/syntax/project.ts';
import { MAIN } from '../../support/memory-host.ts';
import type { Defect, Injected, LegalHouse, Place } from './defect.ts';

/** What came of one mistake in one house. */
export interface Trial {
  readonly defect: Defect;
  readonly seed: number;
  readonly text: string;
  /** Places where the rule that is meant is silent. */
  readonly missed: readonly Place[];
  /** Errors and stops that nobody foresaw. */
  readonly extra: readonly Finding[];
}

/** One analyser for all houses, as an editor keeps one: the library is read once, and an edit reads its blocks anew. */
export function analyserOfTexts(): (text: string) => readonly Finding[] {
  let now = '';
  const host: FileHost = { read: () => ({ text: now }), resolve: (_from, path) => ({ file: path }) };
  const analyser: Analyser = createAnalyser(host);
  return (text) => {
    now = text;
    return analyser.analyse(MAIN).findings;
  };
}

const TOLERANCE = 25_400_000 / 16;

/**
 * Puts a mistake into a legal house.
 * @param before what the checks say of the legal house
 * @returns `undefined` where they say the same of it already, so that nothing is shown
 */
export function tryDefect(
  defect: Defect,
  house: LegalHouse,
  before: readonly Finding[],
  { text, expected }: Injected,
  findings: (text: string) => readonly Finding[],
): Trial | undefined {
  if (expected.some((place) => before.some((finding) => isAt(defect, place, finding)))) return undefined;
  const after = findings(text);
  const missed = expected.filter((place) => !after.some((finding) => isAt(defect, place, finding)));
  const grave = after.filter(({ severity }) => severity === 'error' || severity === 'stop');
  const extra = grave.filter(
    (finding) =>
      !expected.some((place) => isAt(defect, place, finding)) && defect.companions?.[finding.rule] === undefined,
  );
  return { defect, seed: house.facts.seed, text, missed, extra };
}

export function graveIn(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter(({ severity }) => severity === 'error' || severity === 'stop');
}

function isAt({ rule }: Defect, { wall, piece, station, severity }: Place, finding: Finding): boolean {
  return (
    finding.rule === rule &&
    (severity === undefined ? finding.severity !== 'info' : finding.severity === severity) &&
    (wall === undefined || finding.wall === wall) &&
    (piece === undefined || finding.piece === piece) &&
    (station === undefined || (finding.station !== undefined && Math.abs(finding.station - station) <= TOLERANCE))
  );
}
