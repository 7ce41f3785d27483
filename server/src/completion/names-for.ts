import type { Analysis } from '../../../language/analysis.ts';
import { kindInWords } from '../../../language/domain/documents/schedule.ts';
import { connectorsFor } from '../../../language/domain/fixes/choose-connector.ts';
import { nextMarks } from '../../../language/domain/fixes/next-mark.ts';
import { anchorsSill, type Connector, type ConnectorKind } from '../../../language/domain/hardware/connector.ts';
import type { Wall } from '../../../language/domain/model/layout.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { shippedRuleSets } from '../../../language/syntax/shipped-rule-sets.ts';
import type { Caret } from './caret.ts';

/** A name that may stand at a place, the likeliest first. */
export interface Proposal {
  readonly name: string;
  readonly detail: string;
}

/**
 * Names that make sense at a place of the grammar: `NewAnchor.connector` → connectors that fit on this wall.
 * `undefined`: the place takes no name that anybody could know.
 */
export function namesFor(place: string, analysis: Analysis, caret: Caret): readonly Proposal[] | undefined {
  const { layout } = analysis;
  const { wall, girder } = caret;
  switch (place) {
    case 'NewAnchor.name':
      return wall && proposals(nextMarks(layout, wall, 1), 'next free mark');
    case 'NewAnchor.connector':
      return sillAnchors(analysis, wall);
    case 'Angles.connector':
      return connectors(analysis, 'framing-angle');
    case 'HoldDown.connector':
      return connectors(analysis, 'hold-down', 'strap');
    case 'PostHardware.connector':
      return connectors(analysis, 'post-cap', 'post-base');
    case 'WithHardware.hardware':
    case 'FoundThingWork.connector':
      return connectors(analysis, 'plate-washer', 'shim');
    case 'InstalledUsing.connector':
    case 'Price.of':
    case 'Labour.of':
      return [...layout.connectors.values()].map(inWords);
    case 'Work.on':
    case 'Discovered.on':
    case 'DeadHole.on':
      return [
        ...layout.walls.map(({ name, label }) => ({ name, detail: ['wall', label].filter(Boolean).join(', ') })),
        ...layout.girders.map(({ name }) => ({ name, detail: 'girder' })),
      ];
    case 'LineWalls.walls':
      return layout.walls.map(({ name, label }) => ({ name, detail: ['wall', label].filter(Boolean).join(', ') }));
    case 'RulesFact.rules':
      return shippedRuleSets().map(({ name, title }) => ({ name, detail: title ?? 'rule set' }));
    case 'PostHardware.on':
      return girder?.posts.flatMap(({ name }) =>
        name === undefined ? [] : [{ name, detail: `post of ${girder.name}` }],
      );
    case 'Station.of':
    case 'FoundThingWork.on':
      return wall
        ? foundOn(analysis, wall)
        : girder?.posts.flatMap(({ name }) => (name === undefined ? [] : [{ name, detail: 'post' }]));
    case 'Replacement.name':
      return wall?.pieces.filter(({ layer }) => layer === 'survey').map(({ name }) => ({ name, detail: 'sill board' }));
    case 'Acceptance.on':
      return wall && [...foundOn(analysis, wall), ...wall.anchors.map(({ name }) => ({ name, detail: 'new anchor' }))];
    case 'Acceptance.rule':
      return acceptable(analysis, wall);
    case 'Installed.marks':
    case 'Omitted.marks':
      return marks(analysis, (state) => state === 'planned');
    case 'Tested.marks':
    case 'Changed.marks':
      return marks(analysis, () => true);
    default:
      return undefined;
  }
}

function sillAnchors(analysis: Analysis, wall: Wall | undefined): readonly Proposal[] {
  const all = [...analysis.layout.connectors.values()].filter(({ kind }) => anchorsSill(kind));
  if (!wall) return all.map(inWords);
  const boards = new Map<Connector, string[]>();
  for (const piece of wall.pieces) {
    for (const connector of connectorsFor(analysis.layout, wall, piece)) {
      boards.set(connector, [...(boards.get(connector) ?? []), piece.name]);
    }
  }
  const fitting = [...boards].map(([connector, names]) => ({
    name: connector.name,
    detail: `${kindInWords[connector.kind]}, fits on ${names.join(', ')}`,
  }));
  const others = all.filter((each) => !boards.has(each));
  return [
    ...fitting,
    ...others.map((each) => ({
      name: each.name,
      detail: `${kindInWords[each.kind]}, fits on no board of wall ${wall.name}`,
    })),
  ];
}

function connectors(analysis: Analysis, ...kinds: readonly ConnectorKind[]): readonly Proposal[] {
  return [...analysis.layout.connectors.values()].filter(({ kind }) => kinds.includes(kind)).map(inWords);
}

function inWords({ name, kind, demo }: Connector): Proposal {
  return { name, detail: `${kindInWords[kind]}${demo ? ', demo values' : ''}` };
}

function foundOn(analysis: Analysis, wall: Wall): readonly Proposal[] {
  const { units } = analysis.layout.title;
  const things = [
    ...wall.obstructions.map((thing) => ({ thing, kind: thing.kind, at: thing.stretch?.from })),
    ...wall.defects.map((thing) => ({ thing, kind: thing.kind, at: thing.stretch?.from })),
    ...wall.foundAnchors.map((thing) => ({ thing, kind: 'anchor found', at: thing.station })),
  ];
  return things.flatMap(({ thing, kind, at }) =>
    thing.name === undefined
      ? []
      : [
          {
            name: thing.name,
            detail: `${kind.replaceAll('-', ' ')}${at === undefined ? '' : ` at ${formatStation(at, units)}`}`,
          },
        ],
  );
}

/** Rules that find something on this wall now; a stop cannot be accepted. */
function acceptable(analysis: Analysis, wall: Wall | undefined): readonly Proposal[] {
  const found = new Map<string, string>();
  for (const { rule, severity, message, wall: on, accepted } of analysis.findings) {
    if (severity === 'stop' || accepted !== undefined || (wall && on !== wall.name)) continue;
    if (!found.has(rule)) found.set(rule, message.split('\n')[0] ?? '');
  }
  return [...found].map(([name, detail]) => ({ name, detail }));
}

function marks(analysis: Analysis, wanted: (state: string) => boolean): readonly Proposal[] {
  return analysis.layout.walls.flatMap((wall) =>
    [...wall.anchors, ...wall.panels, ...wall.ties]
      .filter(({ state }) => wanted(state))
      .map(({ name, state }) => ({ name, detail: `wall ${wall.name}, ${state}` })),
  );
}

function proposals(names: readonly string[], detail: string): readonly Proposal[] {
  return names.map((name) => ({ name, detail }));
}
