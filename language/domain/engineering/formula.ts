import { formatNumber } from './format-number.ts';

/**
 * A formula is written once, as an engineer writes it (`D * l_m * F_em / R_d`), and the same text is evaluated,
 * printed, typeset and shown with its numbers put in: what a calculation sheet prints is what was computed.
 */
export interface Formula {
  readonly tree: Expression;
  /** The symbols that it needs, each once, in order of appearance. */
  readonly symbols: readonly string[];
}

type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'symbol'; readonly name: string }
  | { readonly kind: 'negate'; readonly operand: Expression }
  | { readonly kind: 'binary'; readonly operator: Operator; readonly left: Expression; readonly right: Expression }
  | { readonly kind: 'call'; readonly callee: FunctionName; readonly operands: readonly Expression[] };
type Operator = '+' | '-' | '*' | '/' | '^';
type FunctionName = keyof typeof functions;

/**
 * Reads `+ - * / ^`, parentheses, numbers, symbols (`K_theta`, `f'_c`) and `sqrt min max abs sin cos ceil round(x, step)`.
 * @throws SyntaxError for a malformed formula: they are constants of this code, never user input.
 */
export function formula(text: string): Formula {
  const tokens = text.match(/\d+(?:\.\d+)?|[A-Za-z][A-Za-z0-9_']*|[-+*/^(),]/g) ?? [];
  if (tokens.join('') !== text.replace(/\s+/g, '')) throw new SyntaxError(`formula: ${text}`);
  let at = 0;
  const symbols = new Set<string>();
  const tree = sum();
  if (at !== tokens.length) throw new SyntaxError(`formula, at "${tokens[at]}": ${text}`);
  return { tree, symbols: [...symbols] };

  function take(...wanted: readonly string[]): string | undefined {
    const token = tokens[at];
    if (token === undefined || !wanted.includes(token)) return undefined;
    at += 1;
    return token;
  }
  function expect(wanted: string): void {
    if (!take(wanted)) throw new SyntaxError(`formula, "${wanted}" wanted: ${text}`);
  }
  function chain(operators: readonly Operator[], next: () => Expression): Expression {
    let left = next();
    for (;;) {
      const operator = take(...operators) as Operator | undefined;
      if (!operator) return left;
      left = { kind: 'binary', operator, left, right: next() };
    }
  }
  function sum(): Expression {
    return chain(['+', '-'], product);
  }
  function product(): Expression {
    return chain(['*', '/'], signed);
  }
  function signed(): Expression {
    return take('-') ? { kind: 'negate', operand: signed() } : power();
  }
  function power(): Expression {
    const base = atom();
    return take('^') ? { kind: 'binary', operator: '^', left: base, right: signed() } : base;
  }
  function atom(): Expression {
    if (take('(')) {
      const inner = sum();
      expect(')');
      return inner;
    }
    const token = tokens[at];
    if (token === undefined || /^[-+*/^(),]$/.test(token)) throw new SyntaxError(`formula ends early: ${text}`);
    at += 1;
    if (/^\d/.test(token)) return { kind: 'number', value: Number(token) };
    if (!take('(')) {
      symbols.add(token);
      return { kind: 'symbol', name: token };
    }
    if (!Object.hasOwn(functions, token)) throw new SyntaxError(`formula, no function "${token}": ${text}`);
    const operands = [sum()];
    while (take(',')) operands.push(sum());
    expect(')');
    return { kind: 'call', callee: token as FunctionName, operands };
  }
}

const functions = {
  sqrt: (x: number) => Math.sqrt(x),
  min: (...x: number[]) => Math.min(...x),
  max: (...x: number[]) => Math.max(...x),
  abs: (x: number) => Math.abs(x),
  /** Of an angle in degrees, as all angles here. */
  sin: (degrees: number) => Math.sin((degrees * Math.PI) / 180),
  cos: (degrees: number) => Math.cos((degrees * Math.PI) / 180),
  /** Half a billionth is forgiven: 28 / 4 bolts are 7, whatever the floating point says. */
  ceil: (x: number) => Math.ceil(x - 1e-9),
  /** The nearest multiple of a step; half a step goes up. */
  round: (x: number, step = 1) => Math.floor(x / step + 0.5 + 1e-9) * step,
} as const satisfies Record<string, (...x: number[]) => number>;

/** @throws ReferenceError where a symbol has no value: a mistake in this code, never in the user's text. */
export function evaluate(formula: Formula, values: ReadonlyMap<string, number>): number {
  return visit(formula.tree);

  function visit(node: Expression): number {
    switch (node.kind) {
      case 'number':
        return node.value;
      case 'symbol': {
        const value = values.get(node.name);
        if (value === undefined) throw new ReferenceError(`no value for ${node.name}`);
        return value;
      }
      case 'negate':
        return -visit(node.operand);
      case 'call':
        return (functions[node.callee] as (...x: number[]) => number)(...node.operands.map(visit));
      case 'binary': {
        const left = visit(node.left);
        const right = visit(node.right);
        switch (node.operator) {
          case '+':
            return left + right;
          case '-':
            return left - right;
          case '*':
            return left * right;
          case '/':
            return left / right;
          case '^':
            return left ** right;
        }
      }
    }
  }
}

/** `D × l_m × F_em / R_d`, or with values: `0.625 × 6 × 7,500 / 4`. */
export function formulaText(formula: Formula, values?: ReadonlyMap<string, number>): string {
  return printed(formula.tree, 0);

  function printed(node: Expression, outer: number): string {
    switch (node.kind) {
      case 'number':
        return formatNumber(node.value);
      case 'symbol':
        return inserted(values?.get(node.name), outer) ?? symbolText(node.name);
      case 'negate':
        return bracketed(`-${printed(node.operand, strengths['*'])}`, strengths['+'], outer);
      case 'call':
        return `${node.callee}(${node.operands.map((operand) => printed(operand, 0)).join(', ')})`;
      case 'binary': {
        const strength = strengths[node.operator];
        const left = printed(node.left, node.operator === '^' ? strength + 1 : strength);
        const right = printed(node.right, strength + (node.operator === '+' || node.operator === '*' ? 0 : 1));
        const text =
          node.operator === '^'
            ? `${left}^${right}`
            : `${left} ${node.operator === '*' ? '×' : node.operator} ${right}`;
        return bracketed(text, strength, outer);
      }
    }
  }
}

/** The same as TeX: `\frac{D\,l_{m}\,F_{\mathrm{em}}}{R_{d}}`. */
export function formulaTex(formula: Formula, values?: ReadonlyMap<string, number>): string {
  const times = values ? ' \\times ' : '\\,';
  return printed(formula.tree, 0);

  function printed(node: Expression, outer: number): string {
    switch (node.kind) {
      case 'number':
        return texNumber(formatNumber(node.value));
      case 'symbol': {
        const value = inserted(values?.get(node.name), outer);
        return value === undefined ? symbolTex(node.name) : texNumber(value);
      }
      case 'negate':
        return bracketed(`-${printed(node.operand, strengths['*'])}`, strengths['+'], outer);
      case 'call': {
        const operands = node.operands.map((operand) => printed(operand, 0));
        return texCall(node.callee, operands);
      }
      case 'binary': {
        const strength = strengths[node.operator];
        if (node.operator === '/') return `\\frac{${printed(node.left, 0)}}{${printed(node.right, 0)}}`;
        if (node.operator === '^') {
          const base = node.left.kind === 'binary' && node.left.operator === '/' ? 0 : strength + 1;
          const text = printed(node.left, base);
          return `${base === 0 ? `\\left(${text}\\right)` : text}^{${printed(node.right, 0)}}`;
        }
        const left = printed(node.left, strength);
        const right = printed(node.right, strength + (node.operator === '-' ? 1 : 0));
        const sign = node.operator !== '*' ? ` ${node.operator} ` : /^[\d-]/.test(right) ? ' \\times ' : times;
        return bracketed(`${left}${sign}${right}`, strength, outer);
      }
    }
  }
}

function texCall(callee: FunctionName, operands: readonly string[]): string {
  const [first = '', second] = operands;
  switch (callee) {
    case 'sqrt':
      return `\\sqrt{${first}}`;
    case 'abs':
      return `\\left|${first}\\right|`;
    case 'ceil':
      return `\\left\\lceil ${first}\\right\\rceil`;
    case 'round':
      return `\\operatorname{round}${second === undefined ? '' : `_{${second}}`}\\left(${first}\\right)`;
    default:
      return `\\${callee}\\left(${operands.join(', ')}\\right)`;
  }
}
const texNumber = (text: string): string => text.replaceAll(',', '{,}').replace('∞', '\\infty ');
/** How tightly an operator holds its operands; what stands in a tighter place gets brackets. */
const strengths: Readonly<Record<Operator, number>> = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 3 };
const bracketed = (text: string, strength: number, outer: number): string => (strength < outer ? `(${text})` : text);
const inserted = (value: number | undefined, outer: number): string | undefined => {
  if (value === undefined) return undefined;
  const text = formatNumber(value);
  return value < 0 && outer > 0 ? `(${text})` : text;
};

/** `K_theta` as `K_θ`. */
export function symbolText(name: string): string {
  const special = specialSymbols.get(name);
  if (special) return special.text;
  if (phiTimes.test(name)) return `φ${symbolText(name.slice(3))}`;
  return name
    .split('_')
    .map((part) => greek.get(part) ?? part)
    .join('_');
}

/** `K_theta` as `K_{\theta}`, `F_em` as `F_{\mathrm{em}}`. */
export function symbolTex(name: string): string {
  const special = specialSymbols.get(name);
  if (special) return special.tex;
  if (phiTimes.test(name)) return `\\phi ${symbolTex(name.slice(3))}`;
  const [base = '', ...below] = name.split('_');
  if (below.length === 0) return greek.has(base) ? `\\${base}` : base.length === 1 ? base : `\\mathrm{${base}}`;
  const subscripts = below.map((part) =>
    greek.has(part) ? `\\${part}` : part.length === 1 ? part : `\\mathrm{${part}}`,
  );
  return `${greek.has(base) ? `\\${base}` : base}_{${subscripts.join(',')}}`;
}

/** `phiN_cb`: a resistance factor already multiplied in. */
const phiTimes = /^phi(?=[A-Z])/;
const greek: ReadonlyMap<string, string> = new Map([
  ['alpha', 'α'],
  ['gamma', 'γ'],
  ['theta', 'θ'],
  ['lambda', 'λ'],
  ['rho', 'ρ'],
  ['phi', 'φ'],
  ['psi', 'ψ'],
  ['tau', 'τ'],
  ['Delta', 'Δ'],
  ['Omega', 'Ω'],
]);
const specialSymbols: ReadonlyMap<string, { readonly text: string; readonly tex: string }> = new Map([
  ['F_epar', { text: 'F_e∥', tex: 'F_{e\\parallel}' }],
  ['F_eperp', { text: 'F_e⊥', tex: 'F_{e\\perp}' }],
  ['sumL', { text: 'ΣL', tex: '\\sum L_{i}' }],
  ['sumWh', { text: 'Σwh^k', tex: '\\sum w_{i}\\,h_{i}^{k}' }],
  ['sumPx', { text: 'ΣPx', tex: '\\sum P_{i}\\,x_{i}' }],
  ['sumP', { text: 'ΣP', tex: '\\sum P_{i}' }],
]);
