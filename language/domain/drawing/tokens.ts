/** The only place of colours, pens, line types and letter heights: drawings name them and never give a value of their own. */

export type ColourToken =
  | 'paper'
  | 'ink'
  | 'ink2'
  | 'found'
  | 'ink3'
  | 'new'
  | 'sel'
  | 'panel'
  | 'woodln'
  | 'defect'
  | 'gas'
  | 'power'
  | 'flue'
  | 'water'
  | 'earth'
  | 'good'
  | 'stop'
  | 'error'
  | 'warn'
  | 'info'
  | 'ontop'
  | 'stale'
  | 'conc'
  | 'wood'
  | 'panelfill'
  | 'selbg'
  | 'cursor'
  | 'wm'
  | 'rule';

/**
 * What a token is for decides how it prints in black and white and which contrast it must have:
 * `text` 4.5 and `line` 3.0 against the ground; any text reads on a `fill`, `ink` reads on a
 * `band`; a `faint` one carries nothing.
 */
export type TokenUse = 'ground' | 'text' | 'line' | 'on-solid' | 'fill' | 'band' | 'faint';

export interface TokenColours {
  readonly use: TokenUse;
  readonly light: string;
  readonly dark: string;
  /** `none`: the ground shows, in high contrast only outlines and solid marks stay. */
  readonly highContrast: string | 'none';
  readonly highContrastLight: string | 'none';
  /** The colour of the editor's own theme that a pane takes instead, without `--vscode-`. */
  readonly editorColour?: string;
}

export const colourTokens: Readonly<Record<ColourToken, TokenColours>> = {
  paper: row('ground', '#ffffff', '#1e1e1e', '#000000', '#ffffff', 'editor-background'),
  ink: row('text', '#14181c', '#ececec', '#ffffff', '#000000', 'editor-foreground'),
  ink2: row('text', '#454c54', '#bcc3ca', '#ffffff', '#000000'),
  found: row('text', '#454c54', '#bcc3ca', '#ffffff', '#000000'),
  ink3: row('text', '#656c75', '#979fa8', '#d6d6d6', '#000000', 'descriptionForeground'),
  new: row('text', '#0b4a8c', '#86c5ff', '#3ff2ff', '#003a8c'),
  sel: row('text', '#0b4a8c', '#86c5ff', '#3ff2ff', '#003a8c', 'focusBorder'),
  panel: row('text', '#7a4700', '#eebd72', '#ffd37a', '#5c3300'),
  woodln: row('text', '#6a5636', '#c9b48a', '#ffffff', '#000000'),
  defect: row('text', '#8c1250', '#ff93bd', '#ff9ad0', '#7a0048'),
  gas: row('text', '#7a5c00', '#ecc94b', '#ffe14d', '#4f3f00'),
  power: row('text', '#b01f16', '#ff8d7f', '#ffa79c', '#8f0000'),
  flue: row('text', '#93370b', '#ffb07a', '#ffc08a', '#6b2400'),
  water: row('text', '#5c6670', '#9fb4c4', '#ffffff', '#000000'),
  earth: row('text', '#5d5346', '#a99a82', '#ffffff', '#000000'),
  good: row('text', '#17633a', '#86d8a6', '#8dffb5', '#00451f'),
  stop: row('text', '#7d0018', '#ff9aa5', '#ff9c9c', '#8f0000', 'editorError-foreground'),
  error: row('text', '#a8001f', '#ff8a94', '#ff9c9c', '#8f0000', 'editorError-foreground'),
  warn: row('text', '#875300', '#f0bd5e', '#ffd23f', '#5c3a00', 'editorWarning-foreground'),
  info: row('text', '#0a5480', '#86c8f0', '#8fd6ff', '#003a66', 'editorInfo-foreground'),
  ontop: row('on-solid', '#ffffff', '#10171d', '#000000', '#ffffff'),
  stale: row('line', '#8a9099', '#7c838b', '#ffffff', '#000000'),
  conc: row('fill', '#efeee9', '#2c2e30', 'none', 'none'),
  wood: row('fill', '#f7efdf', '#35301f', 'none', 'none'),
  panelfill: row('fill', '#fbf1e1', '#3a3120', 'none', 'none'),
  selbg: row('band', '#dbe9f8', '#16364f', 'none', 'none', 'list-activeSelectionBackground'),
  cursor: row('band', '#c2e0ff', '#22384c', 'none', 'none', 'editor-lineHighlightBackground'),
  wm: row('faint', '#ecebe8', '#2a2a2a', 'none', 'none'),
  rule: row('faint', '#c9ccd0', '#45484c', '#ffffff', '#000000', 'contrastBorder'),
};

/** Fills that let what lies behind them show: the studs behind a bracing panel. */
export const fillOpacity: Readonly<Partial<Record<ColourToken, number>>> = { panelfill: 0.6 };

/** The custom property of a pane that themes a token. */
export const customProperty = (token: ColourToken): string => `--sw-${token}`;

export const blackAndWhite: Readonly<Record<TokenUse, string | 'none'>> = {
  ground: '#fff',
  text: '#000',
  line: '#000',
  'on-solid': '#fff',
  fill: 'none',
  band: 'none',
  // Lighter than any printer's threshold, dark enough to be read behind the drawing.
  faint: '#e2e2e2',
};

function row(
  use: TokenUse,
  light: string,
  dark: string,
  highContrast: string,
  highContrastLight: string,
  editorColour?: string,
): TokenColours {
  return { use, light, dark, highContrast, highContrastLight, ...(editorColour === undefined ? {} : { editorColour }) };
}

/** Line widths in mm on paper: the series of ISO 128-2, with two heavier and one finer use at its ends. */
export type Pen =
  | 'rod'
  | 'flue'
  | 'P1'
  | 'cut'
  | 'P2'
  | 'P3'
  | 'P4'
  | 'P5'
  | 'hair'
  | 'dot'
  | 'nail'
  | 'bar'
  | 'plan-panel';
export const pens: Readonly<Record<Pen, number>> = {
  /** New rods and bolts. */
  rod: 1.0,
  flue: 1.2,
  /** Frame, step, ground line, error marks. */
  P1: 0.7,
  /** Cut concrete in plan. */
  cut: 0.6,
  /** Top of concrete in view, openings, new outlines, edges of warning zones, ticks. */
  P2: 0.5,
  /** Found wood and things, frames of marks, outline of the tape. */
  P3: 0.35,
  /** Studs, hatch of new work, leaders that carry meaning, table rules. */
  P4: 0.25,
  /** Dimension lines, leaders, joist crosses, textures. */
  P5: 0.18,
  /** Inch ticks and extension lines. */
  hair: 0.13,
  /** Dots of the concrete texture. */
  dot: 0.32,
  /** Heads of the nails round a panel. */
  nail: 0.6,
  /** Where there is panel, in the row under the tape. */
  bar: 1.0,
  /** A panel seen from above. */
  'plan-panel': 1.3,
};

/** On screen a millimetre of pen is three pixels, and no line is thinner than this. */
export const PIXELS_PER_MILLIMETRE_OF_PEN = 3;
export const LEAST_PIXELS_OF_PEN = 0.75;

/** Dash and gap in mm. */
export type LineType =
  | 'hidden'
  | 'behind-panel'
  | 'chain'
  | 'thickness-change'
  | 'not-recorded'
  | 'ghost'
  | 'stale'
  | 'zone-edge'
  | 'omitted'
  | 'flue';
export const lineTypes: Readonly<Record<LineType, readonly number[]>> = {
  hidden: [3, 1.2],
  'behind-panel': [0.9, 0.6],
  chain: [6, 1.2, 0.8, 1.2],
  'thickness-change': [4, 1, 0.6, 1],
  'not-recorded': [1, 1],
  ghost: [0.9, 0.6],
  stale: [1.2, 0.8],
  'zone-edge': [3, 1],
  omitted: [1.2, 0.8],
  flue: [2, 0.8],
};

/** Cap heights in mm. Nothing on paper is smaller than the least. */
export type TextSize =
  | 'sheet-heading'
  | 'flag'
  | 'station'
  | 'block-heading'
  | 'strip-wall'
  | 'strip-station'
  | 'strip-mark'
  | 'mark'
  | 'label'
  | 'plan-mark'
  | 'detail'
  | 'least';
export const capHeights: Readonly<Record<TextSize, number>> = {
  'sheet-heading': 5.4,
  flag: 3.6,
  station: 3.2,
  'block-heading': 3.2,
  /** On a crew strip, read at arm's length by the light of a headlamp. */
  'strip-wall': 12,
  'strip-station': 5.6,
  'strip-mark': 3.6,
  mark: 2.6,
  label: 2.4,
  'plan-mark': 2.1,
  detail: 2.1,
  least: 1.8,
};
/** Cap height of the watermark, before it is fitted to its sheet. */
export const WATERMARK_CAP_HEIGHT = 44;
