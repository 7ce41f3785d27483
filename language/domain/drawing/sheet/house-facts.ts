import { countOf } from '../../documents/text-layout.ts';
import type { Layout } from '../../model/layout.ts';
import type { Reading } from '../../model/reading.ts';
import { formatLength } from '../../units/format-length.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { lettered, plainText, wrapText } from '../lettering.ts';
import { line } from '../scene.ts';
import { type Block, spacer, underHeading } from '../sheet-lists.ts';
import { capHeights } from '../tokens.ts';
import { notYetGiven } from './title-block.ts';

export interface Fact {
  readonly name: string;
  readonly value: string;
}

/** The first facts that somebody asks of a house, as the layout has them; what nobody wrote down is said to be so. */
export function houseFacts(layout: Layout): readonly Fact[] {
  const { house, title } = layout;
  const words = [...house.words].map(
    ([name, values]): Fact => ({ name: inWords(name), value: values.map(inWords).join(', ') }),
  );
  const quantities = [...house.seismic, ...house.weights].map(
    ([name, reading]): Fact => ({ name: inWords(name), value: readingInFull(reading, formatQuantity) }),
  );
  const seismicWords = [...house.seismicWords].map(([name, value]): Fact => ({ name: inWords(name), value }));
  return [
    { name: 'Storeys', value: readingInFull(house.storeys, String) },
    { name: 'Year built', value: readingInFull(house.year, String) },
    { name: 'Dwellings', value: readingInFull(house.dwellings, String) },
    { name: 'Slope of the site', value: readingInFull(house.slope, formatQuantity) },
    ...(house.area ? [{ name: 'Floor area', value: readingInFull(house.area, formatQuantity) }] : []),
    {
      name: 'Joist underside',
      value: readingInFull(house.floorUnderside, (length) => `${formatLength(length, title.units)} above datum`),
    },
    ...words,
    ...quantities,
    ...seismicWords,
    ...(title.specialInspectionBy === undefined
      ? []
      : [{ name: 'Special inspection by', value: title.specialInspectionBy }]),
    {
      name: 'Walls, girders',
      value: `${countOf(layout.walls.length, 'wall')}, ${countOf(layout.girders.length, 'girder')}, ${countOf(layout.spaces.length, 'space')}`,
    },
    {
      name: 'Not measured',
      value: `${layout.assumptions.length} assumed or told, ${layout.unknowns.length} unknown, ${layout.questions.length} asked`,
    },
  ];
}

export function issueFacts({ issues, record }: Layout): readonly Fact[] {
  return [
    ...issues.map(({ number, date, purpose, by, changed }): Fact => {
      const changes = changed.map(({ marks, reason }) =>
        [marks.map(({ name }) => name).join(', '), ...(reason === undefined ? [] : [reason])].join(': '),
      );
      const sentence = [
        date ?? 'no date',
        ...(purpose === undefined ? [] : [`for ${purpose}`]),
        ...(by === undefined ? [] : [`by ${by}`]),
      ];
      return {
        name: `Issue ${number ?? ''}`.trim(),
        value: [sentence.join(' '), ...(changes.length > 0 ? [`Changed ${changes.join('; ')}`] : [])].join('. '),
      };
    }),
    ...record.map(
      ({ date, by, events }): Fact => ({
        name: `Record ${date}`,
        value: `${countOf(events.length, 'entry').replace('entrys', 'entries')}${by === undefined ? '' : `, by ${by}`}`,
      }),
    ),
  ];
}

const inWords = (name: string): string => name.replaceAll('-', ' ');

function readingInFull<Value>(reading: Reading<Value> | undefined, print: (value: Value) => string): string {
  if (reading === undefined) return notYetGiven;
  if (reading.kind === 'unknown') return 'unknown';
  return reading.quality === 'measured' ? print(reading.value) : `${print(reading.value)} (${reading.quality})`;
}

const NAME_WIDTH = 34;
const PITCH = capHeights.label * 1.55;
const MOST_LINES = 24;

/** A fact a row: its name, and what is known of it. */
export function factBlocks(title: string, facts: readonly Fact[], width: number): readonly Block[] {
  const rows = facts.flatMap(({ name, value }): readonly Block[] => {
    const lines = wrapText(plainText(value), width - NAME_WIDTH, 'label');
    const chunks = Array.from({ length: Math.max(1, Math.ceil(lines.length / MOST_LINES)) }, (_, index) =>
      lines.slice(index * MOST_LINES, (index + 1) * MOST_LINES),
    );
    return chunks.map((chunk, index) => rowBlock(index === 0 ? name : '', chunk, width));
  });
  return underHeading(title, width, rows.length === 0 ? [] : [...rows, spacer('list')]);
}

function rowBlock(name: string, lines: readonly string[], width: number): Block {
  const names = wrapText(plainText(name), NAME_WIDTH - 2, 'label').slice(0, MOST_LINES);
  const height = Math.max(1, lines.length, names.length) * PITCH + 1.7;
  return {
    role: 'list',
    height,
    draw: ([x, y]) => [
      ...names.map((text, index) =>
        lettered(text, [x, y + 0.8 + capHeights.label + index * PITCH], { size: 'label', colour: 'ink2' }),
      ),
      ...lines.map((text, index) =>
        lettered(text, [x + NAME_WIDTH, y + 0.8 + capHeights.label + index * PITCH], { size: 'label' }),
      ),
      line([x, y + height], [x + width, y + height], { colour: 'rule', pen: 'P5' }),
    ],
  };
}
