import type { AngleRun, Blocking, Layout, NewAnchor, Wall } from '../model/layout.ts';
import { noTags } from '../model/layout.ts';
import { formatExact } from '../units/format-length.ts';
import { withWorkEdit } from './apply-work-edit.ts';
import type { ThingEdit } from './edit.ts';
import { withReplacedSill } from './replaced-sill.ts';

/**
 * The layout as it would be with the edits made; the text stays as it is. Walls that no edit touches stay the same objects.
 * An edit of a thing that is not there changes nothing, nor does one that only replaces text.
 */
export function withEdits(layout: Layout, edits: readonly ThingEdit[]): Layout {
  const walls = layout.walls.map((wall) => edits.reduce((edited, edit) => withEdit(layout, edited, edit), wall));
  return { ...layout, walls };
}

function withEdit(layout: Layout, wall: Wall, edit: ThingEdit): Wall {
  switch (edit.kind) {
    case 'insert-anchor': {
      if (edit.wall !== wall.id) return wall;
      const connector = layout.connectors.get(edit.connector.toLowerCase());
      const anchor: NewAnchor = {
        id: `${wall.name}/anchor:${edit.mark}`,
        name: edit.mark,
        nameSource: wall.nameSource,
        source: wall.source,
        tags: noTags,
        connectorName: edit.connector,
        connectorSource: undefined,
        connector,
        station: edit.station,
        stationSource: undefined,
        embed: undefined,
        offset: undefined,
        shim:
          edit.shim === undefined
            ? undefined
            : { kind: 'known', value: edit.shim, quality: 'measured', typed: '', source: wall.source },
        proposed: true,
        rightAngleDrill: edit.rightAngleDrill === true,
        state: 'planned',
      };
      return { ...wall, anchors: inOrder([...wall.anchors, anchor]) };
    }
    case 'remove-anchor':
      return wall.anchors.some((anchor) => anchor.id === edit.anchor)
        ? { ...wall, anchors: wall.anchors.filter((anchor) => anchor.id !== edit.anchor) }
        : wall;
    case 'insert-angles': {
      if (edit.wall !== wall.id) return wall;
      const angles: AngleRun = {
        id: `${wall.name}/angles:${edit.mark}`,
        name: edit.mark,
        source: wall.source,
        tags: noTags,
        connectorName: edit.connector,
        connectorSource: wall.source,
        connector: layout.connectors.get(edit.connector.toLowerCase()),
        stations: edit.stations,
        lacking: [],
      };
      return { ...wall, angles: [...wall.angles, angles] };
    }
    case 'insert-blocking': {
      if (edit.wall !== wall.id) return wall;
      const blocks: Blocking = {
        id: `${wall.name}/blocking:proposed`,
        name: undefined,
        source: wall.source,
        tags: noTags,
        bays: { kind: 'numbers', numbers: edit.bays },
        size: undefined,
        layer: 'design',
      };
      return { ...wall, blocking: [...wall.blocking, blocks] };
    }
    case 'set-station':
      return withAnchor(wall, edit.anchor, (anchor) => ({ ...anchor, station: edit.station }));
    case 'set-connector':
      return withAnchor(wall, edit.anchor, (anchor) => ({
        ...anchor,
        connectorName: edit.connector,
        connector: layout.connectors.get(edit.connector.toLowerCase()),
      }));
    case 'set-credit': {
      const line = wall.foundAnchors.find((anchor) => anchor.id === edit.anchor)?.source;
      if (!line) return wall;
      const foundAnchors = wall.foundAnchors.map((anchor) =>
        anchor.source === line || anchor.id === edit.anchor ? { ...anchor, credit: edit.credit } : anchor,
      );
      return { ...wall, foundAnchors };
    }
    case 'set-value':
      return withAnchor(wall, edit.anchor, (anchor) => ({
        ...anchor,
        [edit.key]: {
          kind: 'known',
          value: edit.value,
          quality: 'measured',
          typed: formatExact(edit.value, layout.title.units),
          source: anchor.source,
        },
      }));
    case 'replace-sill':
      return edit.wall === wall.id ? withReplacedSill(wall, edit.piece, edit) : wall;
    case 'spell-out-breaks':
    case 'insert-survey-line':
    case 'add-words':
    case 'set-adjusted':
    case 'replace-text':
      return wall;
    default:
      return withWorkEdit(layout, wall, edit);
  }
}

function withAnchor(wall: Wall, id: string, change: (anchor: NewAnchor) => NewAnchor): Wall {
  if (!wall.anchors.some((anchor) => anchor.id === id)) return wall;
  return { ...wall, anchors: inOrder(wall.anchors.map((anchor) => (anchor.id === id ? change(anchor) : anchor))) };
}

function inOrder(anchors: readonly NewAnchor[]): readonly NewAnchor[] {
  return anchors.toSorted((a, b) => (a.station ?? Number.MAX_SAFE_INTEGER) - (b.station ?? Number.MAX_SAFE_INTEGER));
}
