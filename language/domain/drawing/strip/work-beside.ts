import { boardInWords, nailersInWords, nailsInWords } from '../../documents/schedules/panel-table.ts';
import { fastenersByMember, joined, readingInWords, sizeInWords } from '../../documents/schedules/words.ts';
import { stretchWords } from '../../fit/thing-words.ts';
import type { Panel, Remedy } from '../../model/design.ts';
import type { AngleRun, Blocking, LengthUnits, Wall } from '../../model/layout.ts';
import type { MarkState } from '../../model/record.ts';
import { formatInches, formatStation } from '../../units/format-length.ts';
import { minus } from '../../units/length.ts';
import { plainText } from '../lettering.ts';
import type { PlacedAnchor } from '../placed-mark.ts';
import { connectorInWords } from './card-words.ts';

/** A piece of work that needs no card: a box to tick where there is something to do, and words. */
export interface WorkItem {
  readonly thing: string | undefined;
  readonly box: MarkState | undefined;
  readonly text: string;
}

/** Panels, angles, blocks and remedies of a wall; what holds for several of them is said once. */
export function workBeside(wall: Wall, marks: readonly PlacedAnchor[], units: LengthUnits): readonly WorkItem[] {
  return [
    ...panelItems(wall, units),
    ...wall.angles.map((run) => angleItem(run, units)),
    ...wall.blocking.filter(({ layer }) => layer === 'design').map(blockItem),
    ...wall.remedies.map((remedy) => remedyItem(remedy, units)),
    ...connectors(marks, units),
  ];
}

/** Panels of one make and one nailing stand together, and the nailing once behind them. */
function panelItems(wall: Wall, units: LengthUnits): readonly WorkItem[] {
  const byNailing = new Map<string, Panel[]>();
  for (const panel of wall.panels) {
    const words = nailingInWords(panel, units);
    byNailing.set(words, [...(byNailing.get(words) ?? []), panel]);
  }
  return [...byNailing].flatMap(([nailing, panels]): readonly WorkItem[] => [
    ...panels.map((panel) => ({
      thing: panel.id,
      box: panel.state,
      text: [
        `${plainText(panel.name)} ${panel.stretch ? stretchWords(panel.stretch, units) : 'no place'}`,
        ...(panel.proposed && panel.state === 'planned' ? ['proposed'] : []),
        ...(panel.state === 'omitted' ? ['OMITTED'] : panel.state === 'failed' ? ['FAILED'] : []),
        ...(panel.flatBlock
          ? [`flat block ${sizeInWords(panel.flatBlock, units)}`]
          : panel.flatBlocked
            ? ['flat block']
            : []),
      ].join(', '),
    })),
    { thing: undefined, box: undefined, text: `Panels: ${nailing}.` },
  ]);
}

function nailingInWords(panel: Panel, units: LengthUnits): string {
  const nailers = nailersInWords(panel, units);
  const { ventHoles } = panel;
  const holes =
    ventHoles && ventHoles !== 'none'
      ? joined(
          [readingInWords(ventHoles.diameter, units) || 'size not said', ventHoles.pattern?.replaceAll('-', ' ') ?? ''],
          ' ',
        )
      : '';
  return joined(
    [
      boardInWords(panel, units),
      `edge ${nailsInWords(panel.nails, 'edge', units)}`,
      `field ${nailsInWords(panel.nails, 'field', units)}`,
      nailers === '' || nailers === 'none' ? '' : `nailers ${nailers}`,
      holes === '' ? '' : `vent holes ${holes}`,
    ],
    '; ',
  );
}

function angleItem(run: AngleRun, units: LengthUnits): WorkItem {
  const { stations, connector } = run;
  const [first, last] = [stations[0], stations[stations.length - 1]];
  const apart = stations.length > 1 ? evenSpacing(run, units) : '';
  const where =
    first === undefined || last === undefined
      ? 'no station known'
      : stations.length === 1
        ? `at ${formatStation(first, units)}`
        : `${formatStation(first, units)} to ${formatStation(last, units)}${apart}`;
  const long = connector?.body?.wide;
  const text = joined([
    `${plainText(run.name)} ${stations.length} of ${plainText(run.connectorName)}${long === undefined ? '' : ` ${formatInches(long, units)} long`}`,
    where,
    fastenersByMember(connector, units),
    run.lacking.length > 0 ? 'not all counted' : '',
    run.proposed ? 'proposed' : '',
  ]);
  return { thing: run.id, box: 'planned', text };
}

/** Where all stand equally far apart. */
function evenSpacing({ stations }: AngleRun, units: LengthUnits): string {
  const gaps = stations.slice(1).map((station, index) => minus(station, stations[index] ?? station));
  const [first] = gaps;
  return first !== undefined && gaps.every((gap) => gap === first) ? `, ${formatInches(first, units)} apart` : '';
}

function blockItem({ id, bays, size, proposed }: Blocking): WorkItem {
  const where = bays.kind === 'numbers' ? `bays ${bays.numbers.join(', ')}` : `${bays.kind} bays`;
  const text = joined([`new blocks, ${where}`, sizeInWords(size, 'feet-inches'), proposed ? 'proposed' : '']);
  return { thing: id, box: 'planned', text };
}

function remedyItem(remedy: Remedy, units: LengthUnits): WorkItem {
  if (!('what' in remedy)) {
    const trade = remedy.byLicensedTrade ? ', by the licensed trade only' : '';
    const put = remedy.connectorName === undefined ? '' : ` ${plainText(remedy.connectorName)}`;
    return { thing: remedy.id, box: 'planned', text: `${remedy.verb} ${plainText(remedy.on.name)}${put}${trade}` };
  }
  const where = remedy.stretch ? ` ${stretchWords(remedy.stretch, units)}` : '';
  const size = sizeInWords(remedy.size, units);
  return {
    thing: remedy.id,
    box: 'planned',
    text: joined([`${remedy.verb} ${remedy.what}${where}`, size, remedy.treated ? 'treated' : '']),
  };
}

function connectors(marks: readonly PlacedAnchor[], units: LengthUnits): readonly WorkItem[] {
  const words = new Set(marks.flatMap((mark) => connectorInWords(mark, units) ?? []));
  return [...words].map((text) => ({ thing: undefined, box: undefined, text: `${text}.` }));
}

/** Nought: there is nothing for a crew to do on the wall. */
export const countOfWork = (wall: Wall): number =>
  wall.anchors.length +
  wall.ties.length +
  wall.panels.length +
  wall.angles.length +
  wall.remedies.length +
  wall.blocking.filter(({ layer }) => layer === 'design').length;
