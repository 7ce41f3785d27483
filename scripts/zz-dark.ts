import { readFileSync, writeFileSync } from 'node:fs';
import { colourTokens, customProperty } from '../language/domain/drawing/tokens.ts';
const [,, svg, theme, out] = process.argv as any;
const vars = Object.entries(colourTokens).map(([t, row]: any) => { const v = row[theme]; return `${customProperty(t as any)}:${v==='none'?'transparent':v}`; }).join(';');
const fonts=['routed-gothic','routed-gothic-narrow'].map((f,i)=>`@font-face{font-family:'${i?'Routed Gothic Narrow':'Routed Gothic'}';src:url(file:///work/main/extension/webview/fonts/${f}.ttf)}`).join('');
writeFileSync(out, `<html><style>${fonts}body{margin:0;background:${(colourTokens.paper as any)[theme]};${vars}}svg{width:2200px;display:block}</style><body>${readFileSync(svg,'utf8')}</body></html>`);
