import jsep from 'jsep';
import { type Apply, ArithmeticError, FUNCTIONS } from './arithmetic-words.js';
import { quoted } from './input-error.js';
import { type AskedMeasure, takeMeasures } from './measures.js';
import { type ScannedWord, scan } from './scan.js';

/** Longest arithmetic, characters. It bounds the depth of brackets too. */
const LONGEST = 500;

/** Arithmetic over dims, as a tree. */
export type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'dim'; readonly name: string; readonly at: number }
  | { readonly kind: 'apply'; readonly of: string; readonly to: readonly Expression[] }
  | Measure;

/** Something measured on the figure as far as it is built. */
export interface Measure {
  readonly kind: 'measure';
  readonly of: string;
  readonly names: readonly string[];
  /** The page angle, degrees; open if left out. */
  readonly opened?: Expression;
  readonly at: number;
}

/** Works out arithmetic from the values of all dims. */
export type Formula = (dims: Float64Array) => number;

/**
 * Reads arithmetic: numbers, names of dims, + − × ÷ (also - * /), brackets, min, max, sqrt, abs, and sin, cos, tan,
 * asin, acos, atan in degrees; and what is measured on the figure, such as `distance(hip to knee)`. It can reach nothing else.
 * @throws ArithmeticError with the place in the text
 */
export function parseArithmetic(written: string): Expression {
  if (written.length > LONGEST)
    throw new ArithmeticError(
      0,
      `${written.length} characters`,
      `at most ${LONGEST}; use dims for its parts`,
    );
  const { text, asked } = takeMeasures(written);
  const words = scan(text);
  let tree: jsep.Expression;
  try {
    // One sign for one sign, so that places stay.
    tree = jsep(text.replaceAll('×', '*').replaceAll('÷', '/').replaceAll('−', '-'));
  } catch (error) {
    const at = Math.min(Number((error as { index?: unknown }).index) || 0, text.length);
    const rest = text.slice(at).trimStart();
    throw new ArithmeticError(
      at,
      rest === '' ? `the end of ${quoted(text)}` : quoted(rest),
      'a number, a dim or a bracket is missing',
    );
  }
  return asExpression(tree as jsep.CoreExpression, words.values(), written, asked);
}

/** Turns the parser's tree into ours. It meets words in the order in which they stand, and takes their places so. */
function asExpression(
  node: jsep.CoreExpression,
  words: Iterator<ScannedWord>,
  text: string,
  asked: readonly AskedMeasure[],
): Expression {
  const inner = (part: jsep.Expression) => asExpression(part as jsep.CoreExpression, words, text, asked);
  switch (node.type) {
    case 'Literal':
      if (typeof node.value === 'number') return { kind: 'number', value: node.value };
      break;
    case 'Identifier': {
      const at = words.next().value?.at ?? 0;
      const measure = asked.find((each) => each.at === at);
      if (measure === undefined) return { kind: 'dim', name: node.name, at };
      const { of, names, opened } = measure;
      return {
        kind: 'measure',
        of,
        names,
        at,
        ...(opened === '' ? {} : { opened: parseArithmetic(opened) }),
      };
    }
    case 'UnaryExpression':
      if (node.operator === '+' || node.operator === '-')
        return { kind: 'apply', of: node.operator, to: [inner(node.argument)] };
      break;
    case 'BinaryExpression':
      if (['+', '-', '*', '/'].includes(node.operator))
        return { kind: 'apply', of: node.operator, to: [inner(node.left), inner(node.right)] };
      break;
    case 'CallExpression': {
      const called = inner(node.callee);
      if (called.kind === 'dim')
        return { kind: 'apply', of: called.name, to: counted(called, node.arguments.map(inner)) };
    }
  }
  throw new ArithmeticError(0, quoted(text), 'give one number, dim or arithmetic over dims');
}

function counted(called: { name: string; at: number }, values: Expression[]): Expression[] {
  const { least, most } = FUNCTIONS[called.name];
  if (values.length >= least && values.length <= most) return values;
  throw new ArithmeticError(
    called.at,
    `${called.name} of ${values.length} values`,
    most === 1 ? `${called.name} takes one` : `${called.name} takes one or more, with commas between`,
  );
}

/**
 * A fast closure for arithmetic. `slotOf` gives the place of a dim's value, or throws what is wrong with its name;
 * `measure` likewise what measures something on the figure. Parts without either are worked out at once.
 */
export function compileArithmetic(
  expression: Expression,
  slotOf: (name: string, at: number) => number,
  measure: (asked: Measure, opened: Formula | undefined) => Formula = ({ of, at }) => {
    throw new ArithmeticError(at, quoted(of), 'there is no figure here to measure');
  },
): { readonly formula: Formula; readonly constant: boolean } {
  if (expression.kind === 'number') {
    const { value } = expression;
    return { formula: () => value, constant: true };
  }
  if (expression.kind === 'dim') {
    const slot = slotOf(expression.name, expression.at);
    return { formula: (dims) => dims[slot], constant: false };
  }
  const inner = (part: Expression) => compileArithmetic(part, slotOf, measure);
  if (expression.kind === 'measure') {
    const opened = expression.opened === undefined ? undefined : inner(expression.opened).formula;
    return { formula: measure(expression, opened), constant: false };
  }
  const parts = expression.to.map(inner);
  const formula = applied(
    expression.of,
    parts.map((part) => part.formula),
  );
  if (!parts.every((part) => part.constant)) return { formula, constant: false };
  const value = formula(new Float64Array(0));
  return { formula: () => value, constant: true };
}

function applied(of: string, to: readonly Formula[]): Formula {
  const [a, b] = to;
  if (of === '+') return b === undefined ? a : (dims) => a(dims) + b(dims);
  if (of === '-') return b === undefined ? (dims) => -a(dims) : (dims) => a(dims) - b(dims);
  if (of === '*') return (dims) => a(dims) * b(dims);
  if (of === '/') return (dims) => a(dims) / b(dims);
  const apply: Apply = FUNCTIONS[of].apply;
  if (b === undefined) return (dims) => apply(a(dims));
  if (to.length === 2) return (dims) => apply(a(dims), b(dims));
  return (dims) => apply(...to.map((part) => part(dims)));
}

export type Unit = 'mm' | 'degrees' | '';

/**
 * Tells the unit of each dim in arithmetic whose result has a given unit, where that is plain: sums, least and most
 * keep the unit, so does a number of times, and angles go into sin, cos and tan.
 */
export function tellUnits(
  expression: Expression,
  unit: Unit,
  tell: (name: string, unit: Unit) => void,
): void {
  if (expression.kind === 'number') return;
  if (expression.kind === 'measure') {
    if (expression.opened !== undefined) tellUnits(expression.opened, 'degrees', tell);
    return;
  }
  if (expression.kind === 'dim') {
    tell(expression.name, unit);
    return;
  }
  const { of, to } = expression;
  const all = (parts: readonly Expression[], inUnit: Unit) => {
    for (const part of parts) tellUnits(part, inUnit, tell);
  };
  if (['+', '-', 'min', 'max', 'abs'].includes(of)) all(to, unit);
  else if (isTrigonometric(of)) all(to, 'degrees');
  else if (of === '*' && to.filter(isShare).length >= to.length - 1) all(to, unit);
  else if (of === '/' && isShare(to[1])) all(to, unit);
  else if (of === '*' || of === '/') all(to.filter(isShare), unit);
}

const isTrigonometric = (of: string): boolean => ['sin', 'cos', 'tan'].includes(of);

/** Whether it is a bare number, or a sine, cosine or tangent: what it is multiplied by keeps its unit. */
const isShare = (expression: Expression): boolean =>
  expression.kind === 'number' || (expression.kind === 'apply' && isTrigonometric(expression.of));
