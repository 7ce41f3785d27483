import { isSameList } from '../list-in-runs.ts';
import type { Steps } from '../steps.ts';
import { fontSize } from './lettering.ts';
import { isSameGroup, isSameShape } from './same-shape.ts';
import type { Group, PathStep, Scene, SceneNode, Shape, Stroke, TextFace, TextShape } from './scene.ts';
import {
  blackAndWhite,
  type ColourToken,
  capHeights,
  colourTokens,
  customProperty,
  fillOpacity,
  LEAST_PIXELS_OF_PEN,
  lineTypes,
  PIXELS_PER_MILLIMETRE_OF_PEN,
  pens,
} from './tokens.ts';

export interface SvgOptions {
  /** `screen` leaves the colours to custom properties (`--sw-ink`), and pens keep their width in pixels at any zoom. */
  readonly colours: 'paper' | 'black-and-white' | 'screen';
  /** Font files to put into the text, so that it looks the same where the lettering is not installed. */
  readonly fonts?: readonly { readonly face: TextFace; readonly trueTypeBase64: string }[];
}

/** The scene as one SVG text; the same scene gives the same bytes. User unit: 1 mm on paper. */
export function sceneToSvg(scene: Scene, options: SvgOptions): string {
  const writer = writerFor(options.colours);
  const parts = [
    openingTag(scene, options.colours),
    `\n<title>${escapeXml(scene.title)}</title>`,
    `\n<desc>${escapeXml(scene.description)}</desc>`,
    ...(options.fonts?.length ? [`\n<style>${options.fonts.map(fontFace).join('')}</style>`] : []),
    `\n${ground(scene, writer)}`,
  ];
  for (const node of scene.nodes) writeNode(node, writer, parts);
  parts.push('\n</svg>\n');
  return parts.join('');
}

/** An element with what is in it, as `language/protocol/picture.ts` has it. */
export interface SvgGroup {
  readonly open: string;
  readonly pieces: readonly (string | SvgGroup)[];
}

/**
 * The same for a screen, as a tree of its elements and without a title, which a screen would show over every shape. In steps: one for
 * each group within a group, a wall, a string, a label.
 * @param before a scene of nearly the same that was written too: what says the same in both is the same object in both pictures, and is
 *   not written again. So is a group that is the same object as in any scene before
 */
export function* sceneToPictureInSteps(scene: Scene, before?: Scene): Steps<SvgGroup> {
  const pieces: (string | SvgGroup)[] = [`<desc>${escapeXml(scene.description)}</desc>`, ground(scene, onScreen)];
  for (const [index, node] of scene.nodes.entries()) {
    if (node.kind !== 'group') {
      const text = shapeText(node, onScreen);
      if (text !== '') pieces.push(text);
      continue;
    }
    if (node.nodes.length === 0) continue;
    const partner = before?.nodes[placeOfPartner(before.nodes, scene.nodes, index)];
    // Its parts are written first, with a rest between them.
    const within = partner?.kind === 'group' ? partner.nodes : [];
    for (const [at, part] of node.nodes.entries()) {
      if (part.kind === 'group') pictureOf(part, within[placeOfPartner(within, node.nodes, at)]);
      yield;
    }
    pieces.push(pictureOf(node, partner));
  }
  return { open: openingTag(scene, 'screen'), pieces };
}

/** What a group was written as. */
interface Written {
  readonly picture: SvgGroup;
  /** Of each of its nodes; `''` where there is nothing to see of it. */
  readonly ofNodes: readonly (string | SvgGroup)[];
}
const written = new WeakMap<Group, Written>();

function pictureOf(group: Group, partner: SceneNode | undefined): SvgGroup {
  const known = written.get(group);
  if (known) return known.picture;
  const before = partner?.kind === 'group' ? partner : undefined;
  const was = before && written.get(before);
  const ofNodes = group.nodes.map((node, index): string | SvgGroup => {
    const at = was ? placeOfPartner(before.nodes, group.nodes, index) : -1;
    const same = before?.nodes[at];
    if (node.kind === 'group') return node.nodes.length > 0 ? pictureOf(node, same) : '';
    const isKept = same && same.kind !== 'group' && isSameShape(same, node);
    return (isKept && was?.ofNodes[at]) || shapeText(node, onScreen);
  });
  const pieces = ofNodes.includes('') ? ofNodes.filter((piece) => piece !== '') : ofNodes;
  const tagBefore = was && before && isSameGroup(before, group) ? was.picture.open : undefined;
  const isKept = tagBefore !== undefined && was && isSameList(pieces, was.picture.pieces);
  const picture = isKept ? was.picture : { open: tagBefore ?? groupTag(group, onScreen), pieces };
  written.set(group, { picture, ofNodes });
  return picture;
}

/** Where a node may have stood in a list before: at its place from the start, else at its place from the end. */
function placeOfPartner(before: readonly SceneNode[], now: readonly SceneNode[], at: number): number {
  const node = now[at];
  const first = before[at];
  return node && first && isOfOne(node, first) ? at : at + before.length - now.length;
}

function isOfOne(a: SceneNode, b: SceneNode): boolean {
  if (a.kind !== 'group' || b.kind !== 'group') return a.kind === b.kind;
  return a.thing === b.thing && a.role === b.role;
}

function openingTag({ width, height, title }: Scene, colours: SvgOptions['colours']): string {
  const screen = colours === 'screen';
  const size = screen ? '' : ` width="${number(width)}mm" height="${number(height)}mm"`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg"${size} viewBox="0 0 ${number(width)} ${number(height)}"` +
    ` role="${screen ? 'group' : 'img'}" aria-label="${attribute(title)}" fill="none" stroke-linejoin="round">`
  );
}

const ground = ({ width, height }: Scene, writer: Writer): string =>
  `<rect width="${number(width)}" height="${number(height)}"${writer.fill('paper')}/>`;

const groupTag = (group: Group, writer: Writer): string => `<g${groupAttributes(group, writer.colours === 'screen')}>`;

const fontFamilies: Readonly<Record<TextFace, string>> = { regular: 'Routed Gothic', narrow: 'Routed Gothic Narrow' };
const fallbackFamilies = "'Liberation Sans Narrow','Arial Narrow',sans-serif";

function fontFace(font: { readonly face: TextFace; readonly trueTypeBase64: string }): string {
  const base64 = font.trueTypeBase64.replace(/[^A-Za-z0-9+/=]/g, '');
  return `@font-face{font-family:'${fontFamilies[font.face]}';src:url(data:font/ttf;base64,${base64})}`;
}

const ofPaperSize = (pen: Stroke['pen']): boolean => pen === 'dot' || pen === 'nail';

interface Writer {
  readonly colours: SvgOptions['colours'];
  fill(token: ColourToken): string;
  stroke(stroke: Stroke): string;
  colour(token: ColourToken): string;
}

function writerFor(colours: SvgOptions['colours']): Writer {
  const screen = colours === 'screen';
  const colour = (token: ColourToken): string => {
    if (screen) return `var(${customProperty(token)})`;
    const row = colourTokens[token];
    return colours === 'paper' ? row.light : blackAndWhite[row.use];
  };
  const penScale = screen ? PIXELS_PER_MILLIMETRE_OF_PEN : 1;
  return {
    colours,
    colour,
    fill: (token) => {
      const opacity = fillOpacity[token];
      return ` fill="${colour(token)}"${opacity === undefined ? '' : ` fill-opacity="${opacity}"`}`;
    },
    stroke: keptByName(strokeName, ({ colour: token, pen, line, ends }) => {
      const width = pens[pen] * penScale;
      const dashes = line
        ? ` stroke-dasharray="${lineTypes[line].map((part) => number(part * penScale)).join(' ')}"`
        : '';
      const cap = ends ? ` stroke-linecap="${ends}"` : '';
      // A dot of a texture is a thing of paper size; a line keeps its width at any zoom.
      const fixed = screen && !ofPaperSize(pen) ? ' vector-effect="non-scaling-stroke"' : '';
      const shown = ofPaperSize(pen) ? pens[pen] : screen ? Math.max(width, LEAST_PIXELS_OF_PEN) : width;
      return ` stroke="${colour(token)}" stroke-width="${number(shown)}"${dashes}${cap}${fixed}`;
    }),
  };
}

const strokeName = ({ colour, pen, line, ends }: Stroke): string => `${colour} ${pen} ${line} ${ends}`;

/** A few dozen strokes draw everything: to write each anew takes a fourth of the time. */
function keptByName<Given>(nameOf: (given: Given) => string, work: (given: Given) => string): (given: Given) => string {
  const kept = new Map<string, string>();
  return (given) => {
    const name = nameOf(given);
    const known = kept.get(name);
    if (known !== undefined) return known;
    const made = work(given);
    kept.set(name, made);
    return made;
  };
}

const onScreen = writerFor('screen');

function writeNode(node: SceneNode, writer: Writer, parts: string[]): void {
  if (node.kind !== 'group') {
    parts.push('\n', shapeText(node, writer));
    return;
  }
  if (node.nodes.length === 0) return;
  parts.push(`\n${groupTag(node, writer)}`);
  for (const child of node.nodes) writeNode(child, writer, parts);
  parts.push('</g>');
}

function groupAttributes(group: Group, screen: boolean): string {
  let text = '';
  if (group.thing !== undefined) text += ` data-thing="${attribute(group.thing)}"`;
  if (group.role !== undefined) text += ` data-role="${group.role}"`;
  if (group.symbol !== undefined) text += ` data-symbol="${group.symbol}"`;
  if (group.hidden) return `${text} aria-hidden="true"`;
  if (group.name === undefined) return text;
  // A thing that can be reached one by one; a wall or a list holds such things.
  const holds = group.role === 'wall' || group.role === 'list';
  // A finding need not be about a thing, and opens its words all the same.
  const isStop = group.thing !== undefined || group.role === 'finding';
  const reached = screen && isStop && !holds ? ' tabindex="-1"' : '';
  return `${text} role="${holds ? 'group' : 'img'}" aria-label="${attribute(group.name)}"${reached}`;
}

function shapeText(shape: Shape, writer: Writer): string {
  switch (shape.kind) {
    case 'line':
      return `<path d="M${pair(shape.from)}L${pair(shape.to)}"${writer.stroke(shape.stroke)}/>`;
    case 'polyline': {
      const [first, ...rest] = shape.points;
      if (!first) return '';
      const path = `M${pair(first)}${rest.map((point) => `L${pair(point)}`).join('')}${shape.closed ? 'Z' : ''}`;
      return `<path d="${path}"${drawn(shape, writer)}/>`;
    }
    case 'rect': {
      const rounded = shape.rounded ? ` rx="${number(shape.rounded)}"` : '';
      const box = `x="${number(shape.x)}" y="${number(shape.y)}" width="${number(Math.max(shape.width, 0))}" height="${number(Math.max(shape.height, 0))}"`;
      return `<rect ${box}${rounded}${drawn(shape, writer)}/>`;
    }
    case 'circle': {
      const [x, y] = shape.centre;
      return `<circle cx="${number(x)}" cy="${number(y)}" r="${number(shape.radius)}"${drawn(shape, writer)}/>`;
    }
    case 'path':
      return `<path d="${shape.steps.map(stepText).join('')}"${drawn(shape, writer)}/>`;
    case 'text':
      return textElement(shape, writer);
  }
}

function drawn(shape: { readonly stroke?: Stroke; readonly fill?: ColourToken }, writer: Writer): string {
  return `${shape.fill ? writer.fill(shape.fill) : ''}${shape.stroke ? writer.stroke(shape.stroke) : ''}`;
}

function stepText(step: PathStep): string {
  switch (step.to) {
    case 'move':
      return `M${pair(step.at)}`;
    case 'line':
      return `L${pair(step.at)}`;
    case 'arc':
      return `A${number(step.radius)} ${number(step.radius)} 0 0 ${step.clockwise ? 1 : 0} ${pair(step.at)}`;
    case 'close':
      return 'Z';
  }
}

function textElement(text: TextShape, writer: Writer): string {
  const [x, y] = text.at;
  const cap = text.capHeight ?? capHeights[text.size];
  const turn = text.turned ? ` transform="rotate(${number(text.turned)} ${number(x)} ${number(y)})"` : '';
  const anchor = text.anchor === 'start' ? '' : ` text-anchor="${text.anchor}"`;
  const families = `${`'${fontFamilies[text.face]}'`},${fallbackFamilies}`;
  const colour = writer.colour(text.colour);
  // Letters keep their weight in proportion, so these strokes scale with the drawing.
  const weight = text.heavy
    ? ` stroke="${colour}" stroke-width="${number(cap * HEAVY_STROKE[text.face])}"`
    : text.halo
      ? ` stroke="${writer.colour('paper')}" stroke-width="0.9" paint-order="stroke"`
      : '';
  const struck = text.struck ? ' text-decoration="line-through"' : '';
  const length = text.width > 0 ? ` textLength="${number(text.width)}" lengthAdjust="spacingAndGlyphs"` : '';
  return (
    `<text x="${number(x)}" y="${number(y)}" font-family="${families}" font-size="${number(fontSize(cap, text.face))}"` +
    `${anchor}${length} fill="${colour}"${weight}${struck}${turn}>${escapeXml(unbroken(text.text))}</text>`
  );
}

/** Heavy lettering thickens its strokes by this share of the cap height. */
const HEAVY_STROKE: Readonly<Record<TextFace, number>> = { regular: 0.075, narrow: 0.055 };

/** Micrometres are finer than any printer; no trailing noughts, no minus before nothing. */
function number(value: number): string {
  const micrometres = Math.round(value * 1000);
  if (!(Math.abs(micrometres) <= MOST_BY_TABLE)) return String(micrometres / 1000);
  // A drawing is mostly numbers, and whole ones are written several times faster: half the time of a drawing.
  const whole = Math.trunc(micrometres / 1000);
  const rest = micrometres - whole * 1000;
  return rest < 0 && whole === 0 ? `-0${fractions[-rest]}` : `${whole === 0 ? 0 : whole}${fractions[Math.abs(rest)]}`;
}
const MOST_BY_TABLE = 1e9;
/** `''`, `.001` … `.999`. */
const fractions = Array.from({ length: 1000 }, (_, rest) => String(rest / 1000).slice(1));

const pair = ([x, y]: readonly [number, number]): string => `${number(x)} ${number(y)}`;

/** Spaces that stand together keep their number wherever the drawing is put. */
const unbroken = (text: string): string => text.replace(/ {2,}/g, (run) => '\u00a0'.repeat(run.length));

const attribute = (text: string): string => escapeXml(text).replace(/[\t\n\r]/g, ' ');

/**
 * The one place where text becomes XML. What XML 1.0 can't hold (controls, lone surrogates, U+FFFE, U+FFFF; section 2.2)
 * becomes the replacement character.
 */
function escapeXml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => entities[character] ?? character).replace(notInXml, '\ufffd');
}
const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML forbids
const notInXml = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff\p{Cs}]/gu;
