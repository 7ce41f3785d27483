import type { LengthUnits } from '../../domain/model/layout.ts';
import type { DayRecord, Issue, RecordEvent } from '../../domain/model/record.ts';
import { printName } from './name.ts';
import { keyed, printPlaces, printQuantityReading, printStation } from './values.ts';
import { lineOf, printMarks, printReference, printText, tagLines, tagWords } from './words.ts';

export function printDay(day: DayRecord, units: LengthUnits): readonly string[] {
  return [
    lineOf('record', day.date, day.by === undefined ? undefined : ['by', printName(day.by)]),
    ...(day.tags ? tagLines(day.tags) : []),
    ...day.events.map((event) => lineOf(eventWords(event, units), tagWords(event.tags))),
  ];
}

function eventWords(event: RecordEvent, units: LengthUnits): readonly (string | undefined)[] {
  switch (event.kind) {
    case 'installed':
      return [
        'installed',
        printMarks(event.marks),
        event.place.kind === 'as-planned' ? 'as planned' : undefined,
        event.place.kind === 'at' ? `at ${printStation(event.place.station, units)}` : undefined,
        keyed('embed', event.embed, units),
        keyed('offset', event.offset, units),
        event.torque && `tightened ${printQuantityReading(event.torque)}`,
        event.using && `using ${printReference(event.using.name)}`,
        event.lot === undefined ? undefined : `lot ${printName(event.lot)}`,
        event.expires === undefined ? undefined : `expires ${event.expires}`,
        event.reason === undefined ? undefined : `because ${printText(event.reason)}`,
      ];
    case 'omitted':
      return ['omitted', printMarks(event.marks), `because ${printText(event.reason ?? '')}`];
    case 'tested':
      return [
        'tested',
        printMarks(event.marks),
        event.how,
        event.value && printQuantityReading(event.value),
        event.result,
        event.failure,
        event.witness === undefined ? undefined : `witness ${printName(event.witness)}`,
      ];
    case 'inspected':
      return ['inspected', event.what === undefined ? undefined : printName(event.what), event.result];
    case 'discovered':
      return [
        'discovered',
        printText(event.text),
        event.on && `on ${printReference(event.on.name)}`,
        event.stretch && printPlaces([event.stretch], units, undefined),
      ];
    case 'dead-hole':
      return [
        'dead-hole',
        event.on && printReference(event.on.name),
        `at ${printStation(event.station, units)}`,
        event.state,
      ];
  }
}

export function printIssue(issue: Issue): readonly string[] {
  return [
    lineOf(
      ['issue', issue.number?.toString(), issue.date],
      issue.purpose === undefined ? undefined : `for ${printName(issue.purpose)}`,
      issue.by === undefined ? undefined : `by ${printName(issue.by)}`,
      issue.fingerprint === undefined ? undefined : `fingerprint ${printText(issue.fingerprint)}`,
    ),
    ...issue.changed.map(({ marks, reason }) =>
      lineOf('changed', printMarks(marks), 'because', printText(reason ?? '')),
    ),
    ...(issue.tags ? tagLines({ ...issue.tags, by: undefined }) : []),
  ];
}
