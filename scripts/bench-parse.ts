/**
 * Reading a layout file against reading the same data as JSON, in the same run: `node scripts/bench-parse.ts [lines]`.
 * The text is generated: random designed houses, one after the other. The JSON is what those houses say, read with JSON.parse and
 * checked against a schema of every field that occurs in them (ajv, compiled before). Each time is the median of seven runs after three
 * to warm up, and ours remembers nothing from run to run.
 */
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import { cutBlocks } from '../language/syntax/cut.ts';
import { parseBlock } from '../language/syntax/parse.ts';
import { readSheet } from '../language/syntax/sheet.ts';
import { houseOf } from '../tests/support/houses/house.ts';
import { meaningOf } from '../tests/support/meaning.ts';
import { readLayout } from '../tests/support/read-layout.ts';

export interface ParseBench {
  readonly houses: number;
  readonly lines: number;
  readonly bytes: number;
  readonly jsonBytes: number;
  /** In milliseconds, of the whole text. */
  readonly parse: number;
  readonly parseAndLower: number;
  /** Also with stations resolved and everything put together. */
  readonly wholeLayouts: number;
  readonly jsonParse: number;
  readonly jsonParseAndCheck: number;
}

export function benchParse(leastLines: number): ParseBench {
  const texts: string[] = [];
  let lines = 0;
  for (let seed = 0; lines < leastLines; seed += 1) {
    const { text } = houseOf(seed, { design: true });
    texts.push(text);
    lines += text.split('\n').length;
  }
  const text = texts.join('\n');
  const data = texts.map((each) => meaningOf(readLayout(each).layout));
  const json = JSON.stringify(data);
  const check = new Ajv({ allowUnionTypes: true }).compile(schemaOf([data]));
  if (!check(JSON.parse(json)))
    throw new Error(`the schema does not fit its own data: ${JSON.stringify(check.errors)}`);
  return {
    houses: texts.length,
    lines,
    bytes: Buffer.byteLength(text),
    jsonBytes: Buffer.byteLength(json),
    parse: median(() => cutBlocks(text).map((cut) => parseBlock(cut))),
    parseAndLower: median(() => readSheet('bench.sill', text)),
    wholeLayouts: median(() => texts.map((each) => readLayout(each).layout)),
    jsonParse: median(() => JSON.parse(json)),
    jsonParseAndCheck: median(() => check(JSON.parse(json))),
  };
}

/** A schema that holds for all of these values: types, members, and which of those every one of them has. */
function schemaOf(values: readonly unknown[]): Readonly<Record<string, unknown>> {
  const types = new Set(values.map(typeOf));
  const lists = values.filter((value) => Array.isArray(value));
  const records = values.filter((value) => typeOf(value) === 'object') as Readonly<Record<string, unknown>>[];
  const keys = [...new Set(records.flatMap((record) => Object.keys(record)))];
  return {
    type: [...types],
    ...(lists.length > 0 ? { items: lists.some((list) => list.length > 0) ? schemaOf(lists.flat(1)) : {} } : {}),
    ...(records.length > 0
      ? {
          properties: Object.fromEntries(
            keys.map((key) => [key, schemaOf(records.flatMap((record) => (key in record ? [record[key]] : [])))]),
          ),
          required: keys.filter((key) => records.every((record) => key in record)),
          additionalProperties: false,
        }
      : {}),
  };
}

function typeOf(value: unknown): string {
  if (Array.isArray(value)) return 'array';
  return value === null ? 'null' : typeof value;
}

function median(run: () => unknown): number {
  for (let warm = 0; warm < 3; warm += 1) run();
  const times = Array.from({ length: 7 }, () => {
    const from = performance.now();
    run();
    return performance.now() - from;
  });
  return times.sort((a, b) => a - b)[3] ?? 0;
}

export function printParseBench(): void {
  const bench = benchParse(Number(process.argv[2] ?? 10_000));
  const row = (what: string, bytes: number, time: number, lines?: number): string => {
    const perSecond =
      lines === undefined ? '' : `, ${Math.round((lines / time) * 1000).toLocaleString('en-US')} lines/s`;
    return `  ${what.padEnd(34)}${time.toFixed(1).padStart(8)} ms  ${(bytes / time / 1000).toFixed(2).padStart(7)} MB/s${perSecond}`;
  };
  const { bytes, jsonBytes, lines } = bench;
  console.log(
    `${bench.houses} random houses in ${lines} lines, ${bytes} bytes; the same data as JSON ${jsonBytes} bytes`,
  );
  console.log(row('parse', bytes, bench.parse, lines));
  console.log(row('parse and lower', bytes, bench.parseAndLower, lines));
  console.log(row('whole layouts', bytes, bench.wholeLayouts, lines));
  console.log(row('JSON.parse', jsonBytes, bench.jsonParse));
  console.log(row('JSON.parse and schema check', jsonBytes, bench.jsonParseAndCheck));
  const ratio = (ours: number, theirs: number): string => (ours / theirs).toFixed(1);
  console.log(
    `  time of parse and lower to JSON.parse and schema check of the same data: ${ratio(bench.parseAndLower, bench.jsonParseAndCheck)}; of whole layouts: ${ratio(bench.wholeLayouts, bench.jsonParseAndCheck)}`,
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) printParseBench();
