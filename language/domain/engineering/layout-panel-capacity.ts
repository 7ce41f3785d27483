import { panelHeights } from '../fit/panel-room.ts';
import type { Panel, PanelNailing } from '../model/design.ts';
import type { Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { Force } from '../units/force.ts';
import { inInches, nanometres } from '../units/length.ts';
import type { EdgeSpacing, PanelNail, PanelThickness, Panel as Sheathing } from './capacity/shear-wall.ts';
import { panelCapacity, panelRows } from './capacity/shear-wall.ts';
import { type CountedConnector, gravityBounds } from './layout-capacity.ts';
import { section } from './publications.ts';
import type { Outcome, Refused } from './trace.ts';
import { given, isRefused, refused } from './trace.ts';
import { factor, foot } from './trace-units.ts';

/** Read, not recalled: the table of the 2021 printing was not at hand, and its allowable values differ by less than one in a hundred. */
const EDITION = '2015';

/**
 * The bracing panels of a wall, each as a full-height segment of its own: blocked wood structural panels, allowable, against
 * earthquake. Whether its ends are held down is another matter, and said so.
 */
export function panelsOfWall(wall: Wall): readonly CountedConnector[] {
  return wall.panels.map((panel) => {
    const { capacity, remarks } = panelOf(wall, panel);
    return {
      mark: panel.name,
      wall: wall.name,
      what: 'panel',
      connector: boardInWords(panel),
      thing: panel.id,
      count: 1,
      capacity,
      remarks: isRefused(capacity) ? [] : remarks,
    };
  });
}

interface Worked {
  readonly capacity: Outcome<Force>;
  readonly remarks: readonly string[];
}

function panelOf(wall: Wall, panel: Panel): Worked {
  const without = (reason: string): Worked => ({ capacity: refused(reason), remarks: [] });
  if (panel.state === 'omitted') return without('the record says that it was omitted');
  if (panel.state === 'failed') return without('the record says that its test failed');
  if (!panel.stretch) return without('it has no place');
  if (!panel.board) return without('its board is not given');
  const nails = nailingOf(panel.nails);
  if (isRefused(nails)) return { capacity: nails, remarks: [] };
  const thick = thicknessOf(panel, nails.nail);
  if (isRefused(thick)) return { capacity: thick, remarks: [] };
  const heights = panelHeights(wall, panel);
  if (heights.kind === 'lacking') return without(`its height is not known: ${heights.wants}`);
  const { high, low } = heights.heights;
  const height = nanometres(high - low);
  if (inInches(height) > SHEET_WIDE && !(panel.flatBlocked || panel.flatBlock))
    return without(
      'it is higher than a sheet is wide, and no block is given behind the joint: the table is for blocked panels',
    );
  const sheathing: Sheathing = { grade: 'sheathing', ...thick.row, ...nails };
  const length = nanometres(panel.stretch.to - panel.stretch.from);
  const capacity = panelCapacity({
    panel: sheathing,
    edition: EDITION,
    load: 'seismic',
    height: given('h', 'height of the panel', foot, height, qualityOf(panel)),
    length: given('b_s', 'length of the panel', foot, length),
    gravity: given(
      'G',
      'specific gravity of studs and plates, whose species nobody gives: the least of the table',
      factor,
      gravityBounds.least,
      { quality: 'assumed', section: section('NDS 2018', 'Table 12.3.3A', 'from-memory') },
    ),
  });
  return { capacity, remarks: [...nails.remarks, ...thick.remarks] };
}

/** Sheets are 4 ft wide (PS 1, PS 2). */
const SHEET_WIDE = 48;

const qualityOf = ({ height }: Panel) => (height?.kind === 'known' ? { quality: height.quality } : {});

function boardInWords({ board, nails }: Panel): string {
  const thick = board?.thick?.kind === 'known' ? thicknessInWords(inInches(board.thick.value)) : undefined;
  const sheet = board ? [board.kind, thick].filter(Boolean).join(' ') : 'panel';
  return nails?.penny === undefined ? sheet : `${sheet}, ${nails.penny}d`;
}

const inFractions = (thickness: PanelThickness): number => {
  const [over = 0, under = 1] = thickness.split('/').map(Number);
  return over / under;
};
function thicknessInWords(inch: number): string {
  const named = panelRows.find(({ thickness }) => Math.abs(inFractions(thickness) - inch) < HALF_THIRTY_SECOND);
  return named ? `${named.thickness}"` : `${Number(inch.toFixed(3))}"`;
}
const HALF_THIRTY_SECOND = 1 / 64;

interface Nailed {
  readonly nail: PanelNail;
  readonly edgeSpacing: EdgeSpacing;
  readonly remarks: readonly string[];
}
function nailingOf(nails: PanelNailing | undefined): Nailed | Refused {
  if (nails?.penny === undefined) return refused('its nails are not given');
  if (nails.kind !== undefined && nails.kind !== 'common')
    return refused(`the table is for common nails, and these are ${nails.kind.replace('-', ' ')} nails`);
  const nail = panelRows.find((each) => each.nail === `${nails.penny}d common`)?.nail;
  if (!nail) return refused(`the table has no ${nails.penny}d nails`);
  const edge = knownValue(nails.edge);
  if (edge === undefined) return refused('the spacing of its edge nails is not known');
  const spacing = spacings.find((each) => inInches(edge) <= each + 1e-9);
  if (spacing === undefined) return refused('its edge nails are more than 6 in apart: the table ends there');
  const closer = inInches(edge) < spacing - 1e-9;
  return {
    nail,
    edgeSpacing: spacing,
    remarks: [
      ...(nails.kind === undefined ? ['its nails are taken for common ones: box nails and sinkers carry less'] : []),
      ...(closer ? [`its edge nails are counted at ${spacing} in, the next wider spacing of the table`] : []),
    ],
  };
}
const spacings: readonly EdgeSpacing[] = [2, 3, 4, 6];

interface Thickness {
  readonly row: { readonly thickness: PanelThickness };
  readonly remarks: readonly string[];
}
/** A thickness between two rows counts as the thinner one. */
function thicknessOf({ board }: Panel, nail: PanelNail): Thickness | Refused {
  const thick = board && knownValue(board.thick);
  if (thick === undefined) return refused('the thickness of its board is not known');
  const rows = panelRows.filter((each) => each.grade === 'sheathing' && each.nail === nail);
  const thinner = rows.filter(({ thickness }) => inFractions(thickness) <= inInches(thick) + HALF_THIRTY_SECOND);
  const row = thinner.toSorted((a, b) => inFractions(b.thickness) - inFractions(a.thickness))[0];
  if (!row) return refused(`the table has no board so thin for ${nail} nails`);
  const exact = Math.abs(inFractions(row.thickness) - inInches(thick)) < HALF_THIRTY_SECOND;
  return {
    row: { thickness: row.thickness },
    remarks: exact ? [] : [`its board is counted as one of ${row.thickness} in`],
  };
}
