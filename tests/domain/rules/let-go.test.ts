import v8 from 'node:v8';
import vm from 'node:vm';
import { expect, it } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';
import { houseOf } from '../../support/houses/house.ts';

/** Findings are kept over edits. One that held on to the house that it was found in would keep the text of every edit. */

it('a layout is let go once every wall was edited after it, though findings of it still hold', async () => {
  let { text } = houseOf(1, { design: true, untidy: true });
  const analyser = createAnalyser({ read: () => ({ text }), resolve: () => ({ refused: 'alone' }) });
  const layouts: WeakRef<object>[] = [];
  const stations = [...text.matchAll(/(?<=^\s+anchor \S+ +\S+ +at )\d/gm)].map(({ index }) => index);
  expect(stations.length).toBeGreaterThan(8);
  let findings = 0;
  for (const at of stations) {
    const before = text;
    text = `${before.slice(0, at)}1${before.slice(at)}`;
    const { layout, checked } = analyser.analyse('house.sill');
    findings += checked.findings.length;
    layouts.push(new WeakRef(layout));
    text = before;
  }
  analyser.analyse('house.sill');
  expect(findings).toBeGreaterThan(0);
  await new Promise((resolve) => setTimeout(resolve, 0));
  v8.setFlagsFromString('--expose-gc');
  (vm.runInNewContext('gc') as () => void)();
  expect(layouts.filter((layout) => layout.deref() !== undefined).length).toBeLessThanOrEqual(1);
});
