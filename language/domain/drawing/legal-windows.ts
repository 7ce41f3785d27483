import { clearIntervals } from '../fit/clear-intervals.ts';
import { howSet } from '../fit/fit-case.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import type { Tie } from '../model/design.ts';
import type { NewAnchor, SillPiece, Stretch } from '../model/layout.ts';
import { formatStation } from '../units/format-length.ts';
import { type Length, larger, midpoint, smaller, zero } from '../units/length.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { placeLabels } from './label-rows.ts';
import { lettered, plainText, shortened, textWidth } from './lettering.ts';
import { drawnStation } from './placed-mark.ts';
import { group, line, type SceneNode } from './scene.ts';
import { blockedStretch, legalWindow, unmeasuredStretch, WINDOW_HEIGHT } from './symbols-of-new-work.ts';
import { capHeights } from './tokens.ts';

/** Where one connector may stand on its board, and what is in the way elsewhere. */
export interface LegalWindows {
  readonly name: string;
  readonly thing: string;
  readonly board: Stretch;
  /** Open: as far as anybody measured, it may stand here. */
  readonly clear: readonly Stretch[];
  /** It may, if what nobody measured turns out well. */
  readonly unmeasured: readonly Stretch[];
  /** Closed, and named by what closes it. */
  readonly blocked: readonly (Stretch & { readonly words: readonly string[] })[];
}

/** `undefined` where the anchor has no station or no known connector: then nobody can say. */
export function legalWindowsOf(
  frame: Pick<ElevationFrame, 'layout' | 'wall' | 'shape'>,
  anchor: NewAnchor | Tie,
): LegalWindows | undefined {
  const station = drawnStation(anchor);
  if (station === undefined || 'kind' in anchor) return undefined;
  return windowsOnBoard(frame, anchor, pieceAt(frame.wall, station));
}

/** On a board of the wall, its own or another; without one on the whole wall. */
export function windowsOnBoard(
  { layout, wall, shape }: Pick<ElevationFrame, 'layout' | 'wall' | 'shape'>,
  anchor: NewAnchor,
  piece: SillPiece | undefined,
): LegalWindows | undefined {
  const { connector } = anchor;
  if (!connector) return undefined;
  const board = piece ?? { from: zero, to: shape.length };
  const answer = clearIntervals({ layout, wall, piece, connector, ...howSet(anchor) });
  const edges = { from: larger(board.from, zero), to: smaller(board.to, shape.length) };
  const holes = between(edges, answer.clear);
  return {
    name: anchor.name,
    thing: anchor.id,
    board: edges,
    clear: answer.sure.flatMap((stretch) => within(edges, stretch)),
    unmeasured: answer.clear.flatMap((stretch) => {
      const known = answer.sure.filter((sure) => sure.to >= stretch.from && sure.from <= stretch.to);
      return between(stretch, known).flatMap((part) => within(edges, part));
    }),
    blocked: holes.map((hole) => {
      const names = answer.blocked
        .filter((each) => each.from < hole.to && each.to > hole.from)
        .map((each) => plainText(each.words));
      return { ...hole, words: [...new Set(names)] };
    }),
  };
}

function within(bounds: Stretch, { from, to }: Stretch): readonly Stretch[] {
  const part = { from: larger(bounds.from, from), to: smaller(bounds.to, to) };
  return part.to < part.from ? [] : [part];
}

/** What of a stretch the parts leave; parts are in order. */
function between(whole: Stretch, parts: readonly Stretch[]): readonly Stretch[] {
  const rest: Stretch[] = [];
  let reached = whole.from;
  for (const part of parts) {
    if (part.from > reached) rest.push({ from: reached, to: smaller(part.from, whole.to) });
    reached = larger(reached, part.to);
  }
  if (reached < whole.to) rest.push({ from: reached, to: whole.to });
  return rest;
}

const LABEL_PITCH = 3.6;
const LONGEST_NAME = 46;

export interface WindowRow {
  readonly height: number;
  readonly left: number;
  readonly right: number;
  nodes(top: number): readonly SceneNode[];
}

/** A row over the tape: open bars where it may stand, hatched stretches with what blocks them, and the windows in words. */
export function windowRow(
  windows: LegalWindows,
  frame: Pick<ElevationFrame, 'units' | 'left' | 'right' | 'x'>,
): WindowRow {
  const x = (station: Length): number => frame.x(station);
  const texts = windows.blocked.map((stretch) => {
    const more = stretch.words.length > 1 ? ` +${stretch.words.length - 1} more` : '';
    const text = `${shortened(stretch.words[0] ?? 'blocked', LONGEST_NAME, 'least')}${more}`;
    return { stretch, text, wanted: x(midpoint(stretch.from, stretch.to)), width: textWidth(text, 'least') + 0.6 };
  });
  const placed = placeLabels(
    texts.map(({ wanted, width }) => ({ wanted, width, priority: 1 })),
    { from: frame.left - 20, to: frame.right + 24, gap: 1.6 },
    18,
  );
  const words = wordsOf(windows, frame.units);
  const dropped = placed.dropped.length;
  const nameHeight = placed.kept.length === 0 ? 0 : 2.6 + placed.rowCount * LABEL_PITCH;
  const sentence = dropped === 0 ? words : `${words}; ${dropped} more stretches blocked`;
  const centre = x(midpoint(windows.board.from, windows.board.to));
  const reach = textWidth(sentence, 'detail') / 2;
  const bounds = placed.kept.map((index, order) => {
    const half = (texts[index]?.width ?? 0) / 2;
    return { left: (placed.centres[order] ?? 0) - half, right: (placed.centres[order] ?? 0) + half };
  });
  return {
    height: capHeights.detail + 2 + WINDOW_HEIGHT + nameHeight + 2.4,
    left: Math.min(centre - reach, ...bounds.map(({ left }) => left)),
    right: Math.max(centre + reach, ...bounds.map(({ right }) => right)),
    nodes: (top) => {
      const barTop = top + capHeights.detail + 2;
      const foot = barTop + WINDOW_HEIGHT;
      const names = placed.kept.flatMap((index, order): readonly SceneNode[] => {
        const entry = texts[index];
        if (!entry) return [];
        const at = placed.centres[order] ?? entry.wanted;
        const row = placed.rows[order] ?? 0;
        const baseline = foot + 2.6 + row * LABEL_PITCH + capHeights.least;
        return [
          group(
            [
              line([entry.wanted, foot - 0.4], [at, baseline - capHeights.least - 0.5], {
                colour: 'ink3',
                pen: 'hair',
              }),
            ],
            {
              role: 'leader',
              hidden: true,
            },
          ),
          lettered(entry.text, [at, baseline], { size: 'least', anchor: 'middle', colour: 'ink2', halo: true }),
        ];
      });
      return [
        group(
          [
            lettered(sentence, [centre, top + capHeights.detail], {
              size: 'detail',
              anchor: 'middle',
              colour: 'good',
              halo: true,
            }),
            ...windows.blocked.map(({ from, to }) => blockedStretch(x(from), x(to), barTop)),
            ...windows.unmeasured.map(({ from, to }) => unmeasuredStretch(x(from), x(to), barTop)),
            ...windows.clear.map(({ from, to }) => legalWindow(x(from), x(to), barTop)),
            ...names,
          ],
          { thing: windows.thing, role: 'row', name: sentence },
        ),
      ];
    },
  };
}

const MOST_WINDOWS_IN_WORDS = 6;

function wordsOf({ name, clear, unmeasured }: LegalWindows, units: Parameters<typeof formatStation>[1]): string {
  const stretch = ({ from, to }: Stretch): string =>
    from === to ? formatStation(from, units) : `${formatStation(from, units)} to ${formatStation(to, units)}`;
  const listed = clear.slice(0, MOST_WINDOWS_IN_WORDS).map(stretch);
  const more = clear.length > listed.length ? ` and ${clear.length - listed.length} more` : '';
  const open = clear.length === 0 ? 'no place that is known to be free' : `may stand ${listed.join(', ')}${more}`;
  return `${plainText(name)} ${open}${unmeasured.length > 0 ? '; dashed: not measured' : ''}`;
}
