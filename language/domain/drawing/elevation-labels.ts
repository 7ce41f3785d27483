import type { FoundAnchor, LengthUnits, Obstruction } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { type Length, larger, magnitude, midpoint, minus, smaller, zero } from '../units/length.ts';
import { type ServiceZone, serviceColour, serviceZones } from './elevation-found.ts';
import { drawnThing, type ElevationFrame, sillTopAt } from './elevation-frame.ts';
import { plainText, textWidth } from './lettering.ts';
import type { XY } from './scene.ts';
import { isShown, shownOf } from './shown-part.ts';
import { foundFacts, isSound, kindWords, remedyWords } from './thing-names.ts';
import type { ColourToken } from './tokens.ts';
import { stepsOf } from './wall-shape.ts';

/** A label of the upper lane: what was found, where. */
export interface FoundLabel<Frame = ElevationFrame> {
  readonly thing: string | undefined;
  readonly station: Length;
  readonly first: string;
  readonly second: string | undefined;
  readonly colour: ColourToken;
  readonly heavy: boolean;
  /** Of a stretch where no hole may go: its words go with the zone, not with the thing that is the reason for it. */
  readonly zone?: 'warning-zone' | 'unknown-service';
  /** Nought is never dropped. */
  readonly priority: number;
  /** Where its leader ends, once the wall has its place on the sheet. */
  target(frame: Frame): XY;
}

export function labelWidth(label: Pick<FoundLabel, 'first' | 'second'>): number {
  return (
    Math.max(textWidth(label.first, 'label'), label.second === undefined ? 0 : textWidth(label.second, 'detail')) + 0.6
  );
}

type Ground = Pick<ElevationFrame, 'wall' | 'layout' | 'shape' | 'units' | 'shown'>;

/** Everything found that wants a name, left to right. */
export function foundLabels(ground: Ground, anchors: readonly FoundAnchor[]): readonly FoundLabel[] {
  const labels = [
    ...ground.wall.obstructions.flatMap((thing) => obstructionLabel(ground, thing)),
    ...zoneLabels(ground),
    ...anchors.flatMap((anchor) => anchorLabel(ground, anchor)),
    ...ground.wall.defects.flatMap((defect) => {
      const { stretch } = defect;
      if (!stretch || !onWall(ground, stretch.from, stretch.to)) return [];
      const station = middleOf(ground, stretch.from, stretch.to);
      return [
        label({
          thing: defect.id,
          station,
          first: named(defect.name, kindWords(defect.kind), place(stretch.from, stretch.to, ground.units)),
          second: [...(remedyWords(defect) ?? []), ...defect.tags.notes.slice(0, 1)].join(', ') || undefined,
          colour: 'defect',
          priority: 1,
          target: (frame) => [frame.x(station), frame.y(sillTopAt(frame, station)) - 0.4],
        }),
      ];
    }),
    ...jointLabels(ground),
    ...stepLabels(ground),
  ];
  return labels.sort((a, b) => a.station - b.station || (a.first < b.first ? -1 : a.first > b.first ? 1 : 0));
}

function label(
  parts: Omit<FoundLabel, 'heavy' | 'colour'> & { readonly heavy?: boolean; readonly colour?: ColourToken },
): FoundLabel {
  return {
    heavy: false,
    colour: 'ink',
    ...parts,
    second: parts.second === undefined ? undefined : plainText(parts.second),
  };
}

function obstructionLabel(ground: Ground, thing: Obstruction): readonly FoundLabel[] {
  const { stretch } = thing;
  if (!stretch || !onWall(ground, stretch.from, stretch.to)) return [];
  const station = middleOf(ground, stretch.from, stretch.to);
  const off = knownValue(thing.off);
  const facts = [
    ...(remedyWords(thing) ?? []),
    ...(thing.label === undefined ? [] : [thing.label]),
    ...['live', 'single-wall', 'movable']
      .filter((word) => (thing.words as ReadonlySet<string>).has(word))
      .map(kindWords),
    ...(off === undefined || off === 0 ? [] : [`${formatLength(off, ground.units)} off the wall`]),
    ...(!thing.zone && !thing.words.has('riser') && thing.kind !== 'chimney' ? ['height not recorded'] : []),
  ];
  return [
    label({
      thing: thing.id,
      station,
      first: named(thing.name, kindWords(thing.kind), place(stretch.from, stretch.to, ground.units)),
      second: facts.length > 0 ? facts.join(', ') : undefined,
      priority: hazards.has(thing.kind) ? 1 : 2,
      target: (frame) => {
        const drawn = drawnThing(frame, thing);
        return drawn
          ? [drawn.box.x + drawn.box.width / 2, drawn.box.y + Math.min(1.2, drawn.box.height / 2)]
          : [frame.x(station), frame.y(frame.highest)];
      },
    }),
  ];
}

const hazards: ReadonlySet<string> = new Set(['gas-pipe', 'electrical-panel', 'meter', 'conduit', 'flue']);

/** A stretch where no hole may go, with everything that is the reason for it. */
export interface NoHoles extends ServiceZone {
  readonly things: readonly string[];
}

/** Zones of one kind that overlap are one. */
export function noHoleStretches(ground: Pick<Ground, 'wall' | 'layout' | 'shape'>): readonly NoHoles[] {
  const merged: NoHoles[] = [];
  const latest = new Map<ServiceZone['reason'], number>();
  for (const zone of [...serviceZones(ground)].sort((a, b) => a.from - b.from)) {
    const thing = plainText(zone.thing.name ?? kindWords(zone.thing.kind));
    const index = latest.get(zone.reason);
    const same = index === undefined ? undefined : merged[index];
    if (index !== undefined && same && same.to >= zone.from) {
      merged[index] = {
        ...same,
        to: larger(same.to, zone.to),
        things: [...same.things, thing],
        clear: same.clear ?? zone.clear,
      };
    } else {
      latest.set(zone.reason, merged.length);
      merged.push({ ...zone, things: [thing] });
    }
  }
  return merged;
}

/** Where, and why. */
export function noHoleWords(zone: NoHoles, units: LengthUnits): { readonly where: string; readonly why: string } {
  const things = zone.things.slice(0, 3).join(', ') + (zone.things.length > 3 ? ' ...' : '');
  return {
    where: `NO HOLES ${place(zone.from, zone.to, units)}${zone.clear === undefined ? ' and near it' : ''}`,
    why: `${zone.reason === 'unknown' ? 'gas or power' : zone.reason} (${things}), not cleared`,
  };
}

/** Never dropped. */
function zoneLabels(ground: Ground): readonly FoundLabel[] {
  return noHoleStretches(ground).flatMap((zone) => {
    const shown = shownOf(ground.shown, zone);
    if (!shown) return [];
    const station = midpoint(shown.from, shown.to);
    const { where, why } = noHoleWords(zone, ground.units);
    return [
      label({
        thing: zone.thing.id,
        station,
        first: where,
        second: `${why}: locate and expose both sides first`,
        colour: serviceColour(zone.reason),
        heavy: true,
        zone: zone.reason === 'unknown' ? 'unknown-service' : 'warning-zone',
        priority: 0,
        target: (frame) => {
          const drawn = drawnThing(frame, zone.thing);
          return [
            frame.x(station),
            drawn ? Math.max(drawn.box.y - 0.6, frame.y(frame.highest) + 0.6) : frame.y(frame.highest),
          ];
        },
      }),
    ];
  });
}

function anchorLabel(ground: Ground, anchor: FoundAnchor): readonly FoundLabel[] {
  const { station } = anchor;
  if (station === undefined) return [];
  const size = knownValue(anchor.size);
  const what = [
    size === undefined ? undefined : formatLength(size, ground.units),
    anchor.kind === undefined ? 'anchor' : kindWords(anchor.kind),
  ];
  return [
    label({
      thing: anchor.id,
      station,
      first: named(anchor.name, what.filter(Boolean).join(' '), formatStation(station, ground.units)),
      second: foundFacts(anchor).join(', '),
      priority: isSound(anchor) ? 4 : 1,
      target: (frame) => [frame.x(station), frame.y(sillTopAt(frame, station)) - 3.2],
    }),
  ];
}

function jointLabels(ground: Ground): readonly FoundLabel[] {
  const pieces = [...ground.wall.pieces].sort((a, b) => a.from - b.from);
  return pieces.slice(1).flatMap((right, index) => {
    const left = pieces[index];
    if (!left || left.joint === 'step' || left.joint === 'corner' || left.joint === 'none') return [];
    const overlap = minus(left.to, right.from);
    if (overlap < 0 || !isShown(ground.shown, midpoint(right.from, left.to))) return [];
    const station = midpoint(right.from, left.to);
    const gap = knownValue(left.gap);
    const first =
      overlap > 0
        ? named(undefined, kindWords(left.joint), place(right.from, left.to, ground.units))
        : named(
            undefined,
            `${kindWords(left.joint)}${gap ? `, ${formatLength(gap, ground.units)} gap` : ''}`,
            formatStation(left.to, ground.units),
          );
    return [
      label({
        thing: left.id,
        station,
        first,
        second: undefined,
        priority: 3,
        target: (frame) => [frame.x(station), frame.y(sillTopAt(frame, station)) + 0.3],
      }),
    ];
  });
}

function stepLabels(ground: Ground): readonly FoundLabel[] {
  const steps = stepsOf(ground.shape).filter(({ station }) => isShown(ground.shown, station));
  return steps.map(({ station, before, after }) =>
    label({
      thing: undefined,
      station,
      first: `step ${formatLength(magnitude(minus(after, before)), ground.units)} ${after < before ? 'down' : 'up'} ${formatStation(station, ground.units)}`,
      second: undefined,
      priority: 2,
      target: (frame) => [frame.x(station), frame.y(larger(before, after)) + 0.3],
    }),
  );
}

function named(name: string | undefined, what: string, where: string): string {
  return [name === undefined ? '' : plainText(name), what, where].filter((part) => part !== '').join(' ');
}

function place(from: Length, to: Length, units: LengthUnits): string {
  return from === to ? formatStation(from, units) : `${formatStation(from, units)} to ${formatStation(to, units)}`;
}

function onWall(ground: Ground, from: Length, to: Length): boolean {
  return from <= ground.shape.length && to >= zero && shownOf(ground.shown, { from, to }) !== undefined;
}

function middleOf(ground: Ground, from: Length, to: Length): Length {
  const onIt = { from: larger(from, zero), to: smaller(to, ground.shape.length) };
  const shown = shownOf(ground.shown, onIt) ?? onIt;
  return midpoint(shown.from, shown.to);
}
