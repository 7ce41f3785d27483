import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Change, type PieceGroup, svgOf } from '../../language/protocol/picture.ts';
import {
  applyUpdate,
  type DrawingPart,
  mergeUpdates,
  type PreviewParts,
  type PreviewState,
  type PreviewUpdate,
  previewProtocol,
  readAnswerMessage,
  readShowMessage,
  readViewMessage,
} from '../../language/protocol/preview.ts';

const drawing: Omit<DrawingPart, 'picture'> = { empty: '', view: [0, 0, 1, 1], inch: 1 };
const picture: PieceGroup = { open: '<svg>', pieces: ['<path d="a"/>', '<path d="b"/>'] };
const parts = (house: string): PreviewParts => ({
  header: {
    ...{ house, wall: '', mark: '' },
    counts: { stops: 0, errors: 0, warnings: 0, infos: 0, accepted: 0, notChecked: 0, assumed: 0 },
    subjects: [],
  },
  notice: { text: undefined, stale: [], planIsDue: false },
  plan: { picture, ...drawing },
  elevation: { picture: null, ...drawing, wall: '', title: '', axis: null },
  focus: {
    ...{ wall: '', thing: '', line: 0, source: '', mark: '', station: '', summary: '' },
    ...{ facts: [], range: null, findings: [], more: 0 },
  },
  findings: { wall: '', revision: 1, lines: [] },
  schedule: { wall: '', title: '', sections: [] },
  footer: { always: '', rest: '', demo: false, stopped: false },
});
const full = (sequence: number, house: string): PreviewUpdate => ({
  ...{
    protocol: previewProtocol,
    uri: 'file:///a.sill',
    version: sequence,
    sequence,
    kind: 'full',
    base: sequence - 1,
  },
  parts: parts(house),
});
const patch = (sequence: number, house: string, version = sequence): PreviewUpdate => ({
  ...full(sequence, house),
  ...{ version, kind: 'patch', parts: { header: parts(house).header } },
});
/** The plan takes a piece more, before all others. */
const adds = (sequence: number, name: string): PreviewUpdate => ({
  ...patch(sequence, name),
  parts: { plan: { ...drawing, changes: [{ pieces: [`<path d="${name}"/>`, [0, 2]] }] } },
});
const planIn = (state: PreviewState | 'gap' | 'old'): string =>
  typeof state === 'object' && state.parts.plan.picture ? svgOf(state.parts.plan.picture) : String(state);
const house = (state: PreviewState | 'gap' | 'old' | undefined): string | undefined =>
  typeof state === 'object' ? state.parts.header.house : state;

describe('the state of the pane', () => {
  it('is that of a full update, and of each patch upon it', () => {
    const first = applyUpdate(undefined, full(1, 'one'));
    expect(house(first)).toBe('one');
    expect(house(applyUpdate(first as PreviewState, patch(2, 'two')))).toBe('two');
  });

  it('never goes back to an older update or an older text', () => {
    const state = applyUpdate(undefined, full(5, 'five')) as PreviewState;
    expect(applyUpdate(state, patch(5, 'again'))).toBe('old');
    expect(applyUpdate(state, patch(4, 'four'))).toBe('old');
    expect(applyUpdate(state, patch(6, 'six', 4))).toBe('old');
  });

  it('asks for everything where an update between is missing, or where there is nothing to patch', () => {
    const state = applyUpdate(undefined, full(1, 'one')) as PreviewState;
    expect(applyUpdate(state, patch(3, 'three'))).toBe('gap');
    expect(applyUpdate(undefined, patch(1, 'one'))).toBe('gap');
    expect(applyUpdate(undefined, { ...full(1, 'one'), parts: { header: parts('one').header } })).toBe('gap');
  });

  it('takes a change of a drawing upon the drawing that it was made for, and asks for everything where it fits none', () => {
    const state = applyUpdate(undefined, full(1, 'one')) as PreviewState;
    const next = applyUpdate(state, adds(2, 'c'));
    expect(planIn(next)).toBe('<svg>\n<path d="c"/>\n<path d="a"/>\n<path d="b"/>\n</svg>\n');
    expect(applyUpdate(state, adds(3, 'c'))).toBe('gap');
    const beyond: Change = { pieces: [[0, 7]] };
    const tooMuch = { ...patch(2, 'one'), parts: { plan: { ...drawing, changes: [beyond] } } };
    expect(applyUpdate(state, tooMuch)).toBe('gap');
    expect(applyUpdate(undefined, { ...full(1, 'one'), parts: { ...parts('one'), ...tooMuch.parts } })).toBe('gap');
    const ofNothing = { ...tooMuch, parts: { elevation: { ...parts('one').elevation, changes: [{ pieces: [] }] } } };
    expect(applyUpdate(state, ofNothing)).toBe('gap');
  });

  it('asks for everything where the change that waited fits no drawing', () => {
    const beyond = {
      ...patch(3, 'three'),
      base: 2,
      parts: { plan: { ...drawing, changes: [{ pieces: [[0, 7] as const] }] } },
    };
    const state = applyUpdate(undefined, full(1, 'one')) as PreviewState;
    const whole = { ...patch(2, 'two'), parts: { plan: { ...drawing, picture } } };
    expect(applyUpdate(state, mergeUpdates(whole, beyond))).toBe('gap');
  });

  it('is the same whether updates come one by one or merged while the pane was busy', () => {
    const names = fc.constantFrom('a', 'b', 'c', 'd');
    const kinds = fc.constantFrom(full, patch, adds, (sequence: number, name: string) => ({
      ...patch(sequence, name),
      parts: { plan: { ...drawing, picture: { ...picture, open: `<svg id="${name}">` } } },
    }));
    const updates = fc.array(fc.tuple(kinds, names), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(updates, (list) => {
        const start = applyUpdate(undefined, full(1, 'start')) as PreviewState;
        const sent = list.map(([update, name], at) => update(at + 2, name));
        const oneByOne = sent.reduce<PreviewState>(
          (state, update) => applyUpdate(state, update) as PreviewState,
          start,
        );
        const merged = sent.reduce<PreviewUpdate | undefined>(
          (waiting, update) => mergeUpdates(waiting, update),
          undefined,
        );
        expect(merged && applyUpdate(start, merged)).toEqual(oneByOne);
      }),
    );
  });
});

describe('messages that another window may have forged', () => {
  it('are ignored by the view unless they are updates of this protocol', () => {
    expect(readShowMessage({ type: 'update', update: full(1, 'one') })).toEqual({
      type: 'update',
      update: full(1, 'one'),
    });
    for (const forged of [
      undefined,
      null,
      'update',
      [],
      { type: 'update' },
      { type: 'other', update: full(1, 'one') },
      { type: 'update', update: { ...full(1, 'one'), protocol: previewProtocol + 1 } },
      { type: 'update', update: { ...full(1, 'one'), sequence: '1' } },
      { type: 'update', update: { ...full(1, 'one'), kind: 'script' } },
      { type: 'update', update: { ...full(1, 'one'), parts: { script: {} } } },
      { type: 'update', update: { ...full(1, 'one'), parts: { plan: 'svg' } } },
      ...[
        { ...drawing },
        { ...drawing, picture: '<svg/>' },
        { ...drawing, picture: { open: '<svg>', pieces: [1] } },
        { ...drawing, picture, changes: [] },
        { ...drawing, changes: [{ pieces: [[0]] }] },
        { ...drawing, picture, view: [0, 0, 1] },
        { ...drawing, picture, inch: '1' },
      ].map((plan) => ({ type: 'update', update: { ...full(1, 'one'), parts: { plan } } })),
      ...[{ axis: { zero: 1 } }, { wall: 1 }, { title: null }].map((wrong) => ({
        type: 'update',
        update: { ...full(1, 'one'), parts: { elevation: { ...parts('one').elevation, ...wrong } } },
      })),
      { type: 'update', update: { ...full(1, 'one'), parts: { findings: { wall: '', revision: 1 } } } },
      { type: 'update', update: { ...full(1, 'one'), parts: { findings: { wall: '', revision: 0.5, lines: [] } } } },
      { type: 'update', update: { ...full(1, 'one'), parts: { findings: { wall: '', revision: 1, lines: [{}] } } } },
    ]) {
      expect(readShowMessage(forged)).toBeUndefined();
    }
  });

  it('are ignored by the view unless they are answers to what a person did in it', () => {
    const found = { finding: 0, words: 'A-5 is missing', rule: 'anchorage/gap-too-wide', line: 7 };
    const fixes = { revision: 3, fixes: [{ ...found, fixes: [{ title: 'Add A-5', trust: 'review' }] }] };
    const done = { kind: 'done', words: 'A-2 moved' };
    const fixed = { kind: 'fixed', revision: 3, reason: 'it is installed', moves: null };
    for (const message of [
      { type: 'fixes', answer: fixes },
      { type: 'mended', answer: done },
      { type: 'moved', thing: 'A/anchor:A-2', answer: { kind: 'refused', reason: 'the text was changed' } },
      { type: 'moves', thing: 'A/anchor:A-2', answer: fixed },
    ]) {
      expect(readAnswerMessage({ ...message, more: 1 })).toEqual(message);
    }
    for (const forged of [
      undefined,
      { type: 'mended' },
      { type: 'mended', answer: { kind: 'done' } },
      { type: 'moved', thing: 7, answer: done },
      { type: 'moves', answer: fixed },
      { type: 'moves', thing: 'x'.repeat(501), answer: fixed },
      { type: 'moves', thing: 'a', answer: { ...fixed, kind: 'moves' } },
      { type: 'fixes', answer: { ...fixes, revision: '3' } },
      { type: 'fixes', answer: { revision: 3, fixes: [{ ...found, fixes: [{ title: 'Add', trust: 'blind' }] }] } },
      { type: 'fixes', answer: { revision: 3, fixes: [{ ...found, fixes: [{ title: 7, trust: 'safe' }] }] } },
      ...[{ words: 7 }, { rule: undefined }, { line: '7' }, { finding: 0.5 }].map((wrong) => ({
        ...{ type: 'fixes', answer: { revision: 3, fixes: [{ ...found, fixes: [], ...wrong }] } },
      })),
      { type: 'run', answer: done },
    ]) {
      expect(readAnswerMessage(forged)).toBeUndefined();
    }
  });

  it('are ignored by the extension unless the view can say them', () => {
    expect(readViewMessage({ type: 'select', thing: 'F/anchor:F-1', more: 1 })).toEqual({
      type: 'select',
      thing: 'F/anchor:F-1',
    });
    expect(readViewMessage({ type: 'shown', sequence: 3 })).toEqual({ type: 'shown', sequence: 3 });
    expect(readViewMessage({ type: 'resync' })).toEqual({ type: 'resync' });
    for (const said of [
      { type: 'moves', thing: 'A/anchor:A-2' },
      { type: 'move', thing: 'A/anchor:A-2', station: 1_625_600_000, revision: 3 },
      { type: 'fixes', revision: 3, findings: [0, 4] },
      { type: 'mend', revision: 3, finding: 4, fix: 0 },
    ]) {
      expect(readViewMessage({ ...said, more: 1 })).toEqual(said);
    }
    for (const forged of [
      undefined,
      { type: 'command', command: 'rm' },
      { type: 'select' },
      { type: 'select', thing: 7 },
      { type: 'select', thing: 'x'.repeat(501) },
      { type: 'shown', sequence: 0.5 },
      { type: 'moves', thing: 7 },
      { type: 'move', thing: 'A/anchor:A-2', station: 0.5, revision: 3 },
      { type: 'move', thing: 'A/anchor:A-2', station: '5 ft', revision: 3 },
      { type: 'move', thing: 'A/anchor:A-2', station: 5 },
      { type: 'move', station: 5, revision: 3 },
      { type: 'fixes', revision: 3, findings: ['0'] },
      { type: 'fixes', revision: 3, findings: Array(25).fill(0) },
      { type: 'fixes', revision: 3 },
      { type: 'mend', revision: 3, finding: 4 },
      { type: 'mend', revision: 3, finding: 4, fix: Number.NaN },
    ]) {
      expect(readViewMessage(forged)).toBeUndefined();
    }
  });

  it('never make the reader fail, whatever they are', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        readShowMessage(value);
        readViewMessage(value);
        readAnswerMessage(value);
      }),
    );
  });
});
