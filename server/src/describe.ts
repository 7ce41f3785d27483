import type { Analysis } from '../../language/analysis.ts';
import { gapInWords, kindInWords, type ScheduleRow, scheduleOfWall } from '../../language/domain/documents/schedule.ts';
import { stateOf as stateInSchedule } from '../../language/domain/documents/schedules/built-columns.ts';
import { countOf } from '../../language/domain/documents/text-layout.ts';
import type { LengthUnits, PostHardware, Wall } from '../../language/domain/model/layout.ts';
import { type Profile, profileAt, type Reading } from '../../language/domain/model/reading.ts';
import type { Finding } from '../../language/domain/rules/finding.ts';
import { citationWords } from '../../language/domain/rulesets/citation-words.ts';
import { formatBoth, formatLength, formatStation } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { describeByTable, factsOfPost } from './describe-by-table.ts';
import { type PlaceForAnchor, pieceAt, placeFor } from './place-for-anchor.ts';
import type { PlacedThing } from './things.ts';

/** A thing in words, for the hover and for "under the cursor" in the pane. */
export interface Description {
  readonly mark: string;
  readonly station: string;
  readonly summary: string;
  readonly facts: readonly Fact[];
}
export interface Fact {
  readonly name: string;
  readonly text: string;
}

export function describe(analysis: Analysis, placed: PlacedThing): Description {
  const { layout } = analysis;
  const units = layout.title.units;
  switch (placed.kind) {
    case 'wall':
      return describeWall(placed.wall, units);
    case 'anchor': {
      const rows = scheduleOfWall(layout, placed.wall, analysis.checked);
      const row = rows.find((each) => each.thing === placed.thing.id);
      return describeAnchor(placed, row, placeFor(layout, placed.wall, placed.thing), units);
    }
    case 'found-anchor': {
      const { thing } = placed;
      const kind = [thing.kind, ...thing.states].filter((word) => word !== undefined).join(', ');
      return {
        mark: thing.name ?? '',
        station: thing.station === undefined ? 'no station' : formatStation(thing.station, units),
        summary: ['anchor found', kind].filter(Boolean).join(', '),
        facts: facts({
          size: reading(thing.size, units),
          washer: thing.washer,
          nut: thing.nut,
          embed: reading(thing.embed, units),
          credit: thing.credit,
        }),
      };
    }
    case 'piece': {
      const { thing } = placed;
      return {
        mark: thing.name,
        station: stretch(thing, units),
        summary: `sill board, ${formatLength((thing.to - thing.from) as Length, units)} long`,
        facts: facts({
          size: (thing.size?.nominal ?? thing.size?.wide.kind === 'known') ? sizeOf(thing.size, units) : undefined,
          'set-back': range(thing.setBack, units),
          headroom: range(thing.headroom, units),
          'right end': thing.joint === 'none' ? undefined : thing.joint.replace('-', ' '),
          wood: [thing.species, thing.treated === false ? 'untreated' : thing.treated ? 'treated' : undefined]
            .filter(Boolean)
            .join(', '),
          condition: thing.conditions.join(', '),
        }),
      };
    }
    case 'obstruction': {
      const { thing } = placed;
      return {
        mark: thing.name ?? '',
        station: thing.stretch ? stretch(thing.stretch, units) : 'no station',
        summary: [thing.kind.replaceAll('-', ' '), thing.label].filter(Boolean).join(', '),
        facts: facts({
          'off the wall': reading(thing.off, units),
          height: thing.zone ? undefined : 'not recorded: taken as the full height',
          is: [...thing.words].map((word) => word.replaceAll('-', ' ')).join(', '),
        }),
      };
    }
    case 'defect': {
      const { thing } = placed;
      return {
        mark: thing.name ?? '',
        station: thing.stretch ? stretch(thing.stretch, units) : 'no station',
        summary: thing.kind.replace('-', ' '),
        facts: facts({ width: reading(thing.width, units), depth: reading(thing.depth, units) }),
      };
    }
    case 'girder': {
      const { thing } = placed;
      return {
        mark: thing.name,
        station: '',
        summary: ['girder', thing.label, countOf(thing.posts.length, 'post')].filter(Boolean).join(', '),
        facts: facts({
          size: thing.size ? sizeOf(thing.size, units) : undefined,
          underside: reading(thing.underside, units),
          'new hardware': String(thing.posts.reduce((sum, post) => sum + post.hardware.length, 0)),
          'left alone': thing.noWork?.reason,
        }),
      };
    }
    case 'post': {
      const { thing } = placed;
      return {
        mark: thing.name ?? '',
        station: thing.station === undefined ? 'no station' : formatStation(thing.station, units),
        summary: `post under girder ${placed.girder.name}`,
        facts: factsOfPost(analysis, placed.girder, thing),
      };
    }
    case 'post-hardware': {
      const { thing } = placed;
      return {
        mark: thing.name,
        station: '',
        summary: thing.connector ? kindInWords[thing.connector.kind] : `connector ${thing.connectorName} not found`,
        facts: facts({
          connector: thing.connector?.name,
          shim: reading(thing.shim, units),
          sides: thing.bothSides ? 'both' : undefined,
          state: stateInWords(thing),
        }),
      };
    }
    case 'panel':
    case 'tie':
    case 'angles':
    case 'remedy':
      return describeByTable(analysis, placed);
    default:
      return { mark: placed.thing.name ?? '', station: '', summary: wordOf(placed.thing.id), facts: [] };
  }
}

function stateInWords({ state, proposed }: PostHardware): string {
  return stateInSchedule({ state: state ?? 'planned', proposed: proposed === true });
}

function describeWall(wall: Wall, units: LengthUnits): Description {
  return {
    mark: wall.name,
    station: wall.length === undefined ? 'length not known' : formatStation(wall.length, units),
    summary: [wall.role === 'interior' ? 'inside wall' : 'wall', wall.label].filter(Boolean).join(', '),
    facts: facts({
      taped: reading(wall.taped, units),
      adjusted: reading(wall.adjusted, units),
      'sill boards': String(wall.pieces.length),
      'new anchors': String(wall.anchors.length),
      'found anchors': String(wall.foundAnchors.length),
    }),
  };
}

function describeAnchor(
  { thing, wall }: PlacedThing & { kind: 'anchor' },
  row: ScheduleRow | undefined,
  place: PlaceForAnchor | undefined,
  units: LengthUnits,
): Description {
  const station = thing.station;
  const piece = station === undefined ? undefined : pieceAt(wall, station);
  const setBack =
    piece?.setBack && station !== undefined ? reading(profileAt(piece.setBack, station), units) : undefined;
  return {
    mark: thing.name,
    station: station === undefined ? 'no station' : formatStation(station, units),
    summary: [row?.kind, thing.connectorName, row?.state].filter(Boolean).join(', '),
    facts: facts({
      station: station === undefined ? undefined : formatBoth(station),
      piece: piece
        ? [piece.name, stretch(piece, units), setBack === undefined ? undefined : `set-back ${setBack}`]
            .filter((part) => part !== undefined)
            .join(', ')
        : 'no sill board here',
      'clear for it': place && clearInWords(place, units),
      'in the way': place && blockersInWords(place),
      gaps: gapsInWords(row, units),
      fastener: [row?.size, row?.hole && `hole ${row.hole}`, row?.embed && `embed ${row.embed}`, row?.drill]
        .filter(Boolean)
        .join(', '),
      washer: row?.washer,
      shim: row?.shim,
      values: row?.valuesFrom,
    }),
  };
}

function gapsInWords(row: ScheduleRow | undefined, units: LengthUnits): string {
  const left = gapInWords(row?.gapLeft, units);
  const right = gapInWords(row?.gapRight, units);
  return [left && `${left} left`, right && `${right} right`].filter(Boolean).join(', ');
}

function clearInWords({ clearHere, station }: PlaceForAnchor, units: LengthUnits): string {
  if (clearHere) return stretch(clearHere, units);
  return `not at ${formatStation(station, units)}`;
}

/** What ends the clear stretch on either side, or what stands at the place itself. */
function blockersInWords({ fits, clearHere, station }: PlaceForAnchor): string {
  const { from, to } = clearHere ?? { from: station, to: station };
  const near = fits.blocked.filter((each) => each.from <= to && from <= each.to);
  return [...new Set(near.map((each) => each.words))].join('; ');
}

/** What the limit of a finding rests on, and how far that can be trusted. */
export function sourceOf(finding: Finding): string | undefined {
  return finding.citation && citationWords(finding.citation);
}

function facts(named: Readonly<Record<string, string | undefined>>): readonly Fact[] {
  return Object.entries(named).flatMap(([name, text]) => (text === undefined || text === '' ? [] : [{ name, text }]));
}

function reading(value: Reading<Length> | undefined, units: LengthUnits): string | undefined {
  if (value === undefined) return undefined;
  if (value.kind === 'unknown') return 'unknown';
  const quality = value.quality === 'measured' ? '' : ` (${value.quality})`;
  return `${formatLength(value.value, units)}${quality}`;
}

function range(profile: Profile | undefined, units: LengthUnits): string | undefined {
  if (!profile) return undefined;
  const said = profile.points.map((point) => reading(point.value, units) ?? '');
  return [...new Set(said)].join(' to ');
}

function stretch({ from, to }: { readonly from: Length; readonly to: Length }, units: LengthUnits): string {
  if (from === to) return formatStation(from, units);
  return `${formatStation(from, units)} to ${formatStation(to, units)}`;
}

function sizeOf(
  size:
    | { readonly nominal: string | undefined; readonly thick: Reading<Length>; readonly wide: Reading<Length> }
    | undefined,
  units: LengthUnits,
): string | undefined {
  if (!size) return undefined;
  const sides = `${reading(size.thick, units)} x ${reading(size.wide, units)}`;
  return size.nominal ? `${size.nominal} (${sides})` : sides;
}

/** `F/cripple:#1` is a cripple. */
function wordOf(id: string): string {
  return (id.split('/').pop() ?? id).split(':')[0]?.replaceAll('-', ' ') ?? id;
}
