import temml from 'temml';

/** TeX to MathML, as every present browser shows it without help. A formula that is wrong is a defect of ours. */
export function typesetMath(tex: string): string {
  return temml.renderToString(tex, { throwOnError: true, strict: true, trust: false });
}
