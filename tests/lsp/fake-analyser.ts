import type { Analyser, Analysis, FileHost } from '../../language/analysis.ts';
import type { Layout } from '../../language/domain/model/layout.ts';
import type { FileId, SourceSpan } from '../../language/domain/model/source.ts';
import type { Finding } from '../../language/domain/rules/finding.ts';
import type { Steps } from '../../language/domain/steps.ts';
import { finish } from '../../language/domain/steps.ts';

/**
 * An analyser for tests of the server alone: every `bad` in a text is an error, every `meh` a note, each with a related place, `use other.sill` reads another file,
 * and `explode` makes it fail as a defect of ours would.
 */
export function createFakeAnalyser(
  host: FileHost,
  analysed: (file: FileId, text: string) => void = () => undefined,
  stepped: (file: FileId, text: string) => void = () => undefined,
): Analyser {
  /** A step for each `long` in the text. */
  function* analyseInSteps(file: FileId): Steps<Analysis> {
    const texts = new Map<FileId, string>();
    readInto(texts, host, file);
    const text = texts.get(file) ?? '';
    for (const _ of text.matchAll(/long/g)) {
      stepped(file, text);
      yield;
    }
    analysed(file, text);
    if (text.includes('explode')) throw new Error('a defect of ours');
    return asAnalysis(file, texts);
  }
  return {
    analyse: (file) => finish(analyseInSteps(file)),
    analyseInSteps,
    forget() {},
  };
}

function readInto(texts: Map<FileId, string>, host: FileHost, file: FileId): void {
  if (texts.has(file)) return;
  const answer = host.read(file);
  texts.set(file, 'text' in answer ? answer.text : '');
  for (const [, path] of (texts.get(file) ?? '').matchAll(/^use (\S+)/gm)) {
    const target = host.resolve(file, path ?? '');
    if ('file' in target) readInto(texts, host, target.file);
  }
}

function asAnalysis(file: FileId, texts: ReadonlyMap<FileId, string>): Analysis {
  const findings = [...texts].flatMap(([each, text]) =>
    [...text.matchAll(/bad|meh/g)].map(({ 0: word, index }) => finding(each, word, index)),
  );
  const counts = { stops: 0, errors: findings.length, warnings: 0, infos: 0, notChecked: 0, assumed: 0 };
  return {
    file,
    text: texts.get(file) ?? '',
    layout: emptyLayout,
    checked: { findings, notChecked: [] },
    findings,
    basis: { rules: 'none', label: "for engineer's review", stopped: false, demo: false, counts, lines: [] },
    rulesNamed: () => undefined,
    ruleSetNames: [],
    locate: (span) => ({ file: span.block.file, start: span.start, end: span.end }),
    textOf: (each) => texts.get(each),
    files: [...texts.keys()],
    blocksOf: () => undefined,
  };
}

function finding(file: FileId, word: string, start: number): Finding {
  const span: SourceSpan = { block: { file, key: file }, start, end: start + word.length };
  return {
    rule: `language/${word}`,
    severity: word === 'bad' ? 'error' : 'info',
    message: `This is ${word}.`,
    thing: word === 'bad' ? 'wall:A' : undefined,
    layer: 'survey',
    ...{ wall: undefined, piece: undefined, station: undefined, stationTo: undefined, citation: undefined },
    ...{ span, related: [{ span, message: 'here too' }], fixes: [], accepted: undefined },
  };
}

const emptyLayout: Layout = {
  title: {
    ...{ name: undefined, units: 'feet-inches', face: 'outside', ruleSets: [], facts: new Map(), surveyed: undefined },
    ...{ prepared: undefined, engineered: false, accepted: [], source: undefined },
  },
  house: {
    ...{ storeys: undefined, year: undefined, dwellings: undefined, area: undefined, slope: undefined },
    ...{ floorUnderside: undefined, words: new Map(), seismic: new Map(), seismicWords: new Map() },
    ...{ weights: new Map(), diagonals: [], source: undefined },
  },
  walls: [],
  lines: [],
  girders: [],
  spaces: [],
  connectors: new Map(),
  prices: [],
  rules: { chosen: [], limits: [] },
  record: [],
  issues: [],
  questions: [],
  assumptions: [],
  unknowns: [],
  sourceMap: { locate: () => undefined },
};
