import type {
  Girder,
  House,
  Layout,
  LengthUnits,
  Post,
  ResistanceLine,
  Space,
  Title,
} from '../../domain/model/layout.ts';
import { printName } from './name.ts';
import {
  keyed,
  printCount,
  printPoint,
  printQuantityReading,
  printReading,
  printSize,
  printStation,
} from './values.ts';
import { acceptanceLine, questionLines } from './wall.ts';
import { lineOf, printMarks, printNameOrUnknown, printText, tagLines, tagWords } from './words.ts';

export function printTitle(title: Title, layout: Layout): readonly string[] {
  if (title.name === undefined) return [];
  const { units } = title;
  const day = (key: 'surveyed' | 'prepared'): readonly string[] => {
    const fact = title[key];
    if (!fact) return [];
    return [
      lineOf(
        [key, fact.date],
        fact.by === undefined ? undefined : ['by', printName(fact.by)],
        fact.purpose === undefined ? undefined : ['for', printName(fact.purpose)],
      ),
    ];
  };
  return [
    lineOf('layout', printText(title.name)),
    ...[...title.facts].map(([key, text]) => {
      if (key !== 'special-inspection') return lineOf(key, text === 'unknown' ? text : printText(text));
      const { specialInspectionBy: by } = title;
      return lineOf(key, text, by === undefined ? undefined : ['by', printName(by)]);
    }),
    ...(units === 'metric' ? ['units metric'] : []),
    ...(title.face === 'inside' ? ['face inside'] : []),
    ...(title.ruleSets.length > 0 ? [`rules ${title.ruleSets.map(({ name }) => printName(name)).join(', ')}`] : []),
    ...day('surveyed'),
    ...day('prepared'),
    ...(title.engineered ? ['sheets engineered'] : []),
    ...(title.tags ? tagLines(title.tags) : []),
    ...title.accepted.map((each) => acceptanceLine(each, { units, end: undefined })),
    ...questionLines(layout.questions, undefined),
  ];
}

/** `house`, `seismic` and `weights`, each where it says something. */
export function printHouse(house: House, layout: Layout): readonly (readonly string[])[] {
  const { units } = layout.title;
  const counts = (['storeys', 'year', 'dwellings'] as const).flatMap((key) => {
    const reading = house[key];
    return reading ? [lineOf(key, printCount(reading))] : [];
  });
  const quantities = (['area', 'slope'] as const).flatMap((key) => {
    const reading = house[key];
    return reading ? [lineOf(key, printQuantityReading(reading))] : [];
  });
  const facts = [
    ...counts,
    ...quantities,
    ...(house.floorUnderside ? [lineOf('floor-underside', printReading(house.floorUnderside, units))] : []),
    ...[...house.words].map(([key, words]) => {
      if (!wordKeys.has(key)) return lineOf('no', printName(key));
      return lineOf(key, words.length === 1 ? printNameOrUnknown(words[0] ?? '') : words.map(printName));
    }),
    ...house.diagonals.map(({ from, to, taped }) =>
      lineOf('diagonal', printPoint(from, units), 'to', printPoint(to, units), 'taped', printReading(taped, units)),
    ),
    ...(house.tags ? tagLines(house.tags) : []),
    // Questions about the house stand in the title block, where there is one.
    ...(layout.title.name === undefined ? questionLines(layout.questions, undefined) : []),
  ];
  const seismic = [
    ...[...house.seismic].map(([key, reading]) => lineOf(key, printQuantityReading(reading))),
    ...[...house.seismicWords].map(([key, word]) => lineOf(key, printNameOrUnknown(word))),
  ];
  const weights = [...house.weights].map(([key, reading]) => lineOf(key, printQuantityReading(reading)));
  return [
    facts.length > 0 ? ['house', ...facts] : [],
    seismic.length > 0 ? ['seismic', ...seismic] : [],
    weights.length > 0 ? ['weights', ...weights] : [],
  ];
}
const wordKeys: ReadonlySet<string> = new Set([
  'roof',
  'siding',
  'veneer',
  'floors',
  'foundation',
  'soil',
  'inside-finish',
]);

export function printLine(line: ResistanceLine): readonly string[] {
  const { exempt } = line;
  return [
    lineOf(
      ['line', printName(line.name), line.label === undefined ? undefined : printText(line.label)],
      line.walls.length > 0 ? `walls ${printMarks(line.walls)}` : undefined,
      line.storeys && `storeys ${printCount(line.storeys)}`,
    ),
    ...(exempt
      ? [
          lineOf(
            'exempt',
            exempt.from === 'all' ? undefined : `from ${exempt.from}`,
            'because',
            printText(exempt.reason),
          ),
        ]
      : []),
    ...tagLines(line.tags),
  ];
}

export function printSpace(space: Space, units: LengthUnits): readonly string[] {
  const { access } = space;
  return [
    lineOf(
      ['space', printName(space.name), space.kind],
      space.from && space.to && ['from', printPoint(space.from, units), 'to', printPoint(space.to, units)],
      keyed('clear-height', space.clearHeight, units),
      space.clearHeightTo && `to ${printReading(space.clearHeightTo, units)}`,
      access?.wide && access.tall && `access ${printReading(access.wide, units)} x ${printReading(access.tall, units)}`,
    ),
    ...tagLines(space.tags),
  ];
}

export function printGirder(girder: Girder, layout: Layout): readonly string[] {
  const { units } = layout.title;
  return [
    lineOf(
      ['girder', printName(girder.name), girder.label === undefined ? undefined : printText(girder.label)],
      printSize(girder.size, units),
      girder.from && girder.to && ['from', printPoint(girder.from, units), 'to', printPoint(girder.to, units)],
      keyed('underside', girder.underside, units),
    ),
    ...(girder.spans && girder.spans.length > 0
      ? [`spans ${girder.spans.map((span) => printReading(span, units)).join(', ')}`]
      : []),
    ...girder.posts.map((post) => postLine(post, units)),
    ...girder.splices.map(({ station, words }) => lineOf('splice at', printStation(station, units), words)),
    ...[...girder.ends].map(([end, rest]) => `rests at ${end} ${rest}`),
    ...tagLines(girder.tags),
    ...(girder.accepted ?? []).map((each) => acceptanceLine(each, { units, end: undefined })),
    ...questionLines(layout.questions, girder.id),
  ];
}

function postLine(post: Post, units: LengthUnits): string {
  return lineOf(
    ['post', post.name === undefined ? undefined : printName(post.name), printSize(post.size, units)],
    ['at', printStation(post.station, units)],
    keyed('height', post.height, units),
    [...post.found].map(([key, words]) => lineOf(key, words)),
    post.leans && [keyed('leans', post.leans, units), keyed('per', post.leansPer, units)],
    keyed('gap', post.gap, units),
    tagWords(post.tags),
  );
}
