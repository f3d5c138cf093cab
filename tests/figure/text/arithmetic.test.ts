import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileArithmetic, parseArithmetic, tellUnits } from '../../../src/figure/text/arithmetic.js';
import { ArithmeticError } from '../../../src/figure/text/arithmetic-words.js';

const NAMES = ['height', 'b', 'höhe_2'];

function result(text: string, dims: readonly number[] = [40, 3, -2]): number {
  const { formula } = compileArithmetic(parseArithmetic(text), (name, at) => {
    if (!NAMES.includes(name)) throw new ArithmeticError(at, `'${name}'`, 'give a dim');
    return NAMES.indexOf(name);
  });
  return formula(Float64Array.from(dims));
}

function fault(text: string): ArithmeticError {
  try {
    result(text);
  } catch (error) {
    if (error instanceof ArithmeticError) return error;
    throw error;
  }
  throw new Error(`'${text}' was accepted`);
}

describe('arithmetic', () => {
  it.each([
    ['2 * height - 4', 76],
    ['2 × height − 4', 76],
    ['height ÷ 4 / 2', 5],
    ['height - b - 1', 36],
    ['-b * -2', 6],
    ['-(b + 1)', -4],
    ['--b', 3],
    ['2 + 3 * 4', 14],
    ['(2 + 3) * 4', 20],
    ['.5 + 1.5e1', 15.5],
    ['min(height, b, 7)', 3],
    ['max(1, höhe_2)', 1],
    ['abs(höhe_2)', 2],
    ['sqrt(9)', 3],
    ['  height  ', 40],
  ])('%s is %d', (text, value) => {
    expect(result(text)).toBe(value);
  });

  it('takes and gives angles in degrees', () => {
    expect(result('sin(30)')).toBeCloseTo(0.5, 15);
    expect(result('cos(60)')).toBeCloseTo(0.5, 15);
    expect(result('tan(45)')).toBeCloseTo(1, 15);
    expect(result('asin(1)')).toBe(90);
    expect(result('acos(0)')).toBe(90);
    expect(result('atan(1)')).toBe(45);
  });

  it.each([
    ['2 * heigth', 4, "'heigth'"],
    ['height + [1]', 9, "'['"],
    ['"a"', 0, `'"'`],
    ['height.length', 6, "'.'"],
    ['b = 3', 2, "'='"],
    ['b > 3 ? 1 : 2', 2, "'>'"],
    ['20mm', 2, "'mm'"],
    ['60°', 2, "'°'"],
    ['b ^ 2', 2, "'^'"],
    ['b ** 2', 2, "'**'"],
    ['2 b', 2, "'b'"],
    ['(1)(2)', 3, "'('"],
    ['1.2.3', 3, "'.3'"],
    ['random()', 0, "the function 'random'"],
    ['constructor(1)', 0, "the function 'constructor'"],
    ['sin(1, 2)', 0, 'sin of 2 values'],
    ['min()', 0, 'min of 0 values'],
    ['2 * (b + 1', 10, "the end of '2 * (b + 1'"],
    ['b +', 3, "the end of 'b +'"],
    ['', 0, "''"],
    ['   ', 0, "'   '"],
    ['1, 2', 0, "'1, 2'"],
    ['this', 0, "'this'"],
    ['true', 0, "'true'"],
    ['__proto__', 0, "'__proto__'"],
    ['constructor', 0, "'constructor'"],
  ])('refuses %j at place %d', (text, at, found) => {
    expect(fault(text)).toMatchObject({ at, found });
  });

  it('refuses what is too long to be meant', () => {
    expect(fault('1+'.repeat(250) + 1)).toMatchObject({ at: 0, found: '501 characters' });
    expect(result(`${'('.repeat(249)}1${')'.repeat(249)}`)).toBe(1);
  });

  it('never throws anything but an ArithmeticError', () => {
    const bits = fc.constantFrom(
      ...'()+-*/,.0123456789eE×÷− \t[]{}"\'`;:!=<>&|?@#$%^~\\',
      'min',
      'sin',
      'height',
      'this',
    );
    const text = fc.oneof(
      fc.array(bits, { maxLength: 12 }).map((all) => all.join('')),
      fc.string(),
    );
    fc.assert(
      fc.property(text, (written) => {
        try {
          expect(typeof result(written)).toBe('number');
        } catch (error) {
          if (!(error instanceof ArithmeticError)) throw error;
          expect(error.at).toBeGreaterThanOrEqual(0);
          expect(error.at).toBeLessThanOrEqual(written.length);
        }
      }),
      { numRuns: 5000 },
    );
  });
});

/** A tree and its value, worked out here without the parser; and text that has only the brackets it needs. */
interface Tree {
  readonly text: string;
  readonly value: (dims: readonly number[]) => number;
  /** 1 sums, 2 products, 3 signs, 4 numbers and brackets. */
  readonly binds: number;
}

const bracketed = (tree: Tree, binds: number) => (tree.binds < binds ? `(${tree.text})` : tree.text);

const { tree } = fc.letrec<{ tree: Tree }>((tie) => {
  const two = (signs: string[], binds: number, apply: (a: number, b: number) => number) =>
    fc.tuple(tie('tree'), tie('tree'), fc.constantFrom(...signs), fc.constantFrom('', ' ')).map(
      ([a, b, sign, gap]): Tree => ({
        text: `${bracketed(a, binds)}${gap}${sign}${gap}${bracketed(b, binds + 1)}`,
        value: (dims) => apply(a.value(dims), b.value(dims)),
        binds,
      }),
    );
  const call = (name: string, apply: (a: number, b: number) => number) =>
    fc.tuple(tie('tree'), tie('tree')).map(
      ([a, b]): Tree => ({
        text: `${name}(${a.text}, ${b.text})`,
        value: (dims) => apply(a.value(dims), b.value(dims)),
        binds: 4,
      }),
    );
  return {
    tree: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      fc.integer({ min: 0, max: 99 }).map((n): Tree => ({ text: String(n), value: () => n, binds: 4 })),
      fc.nat({ max: 2 }).map((i): Tree => ({ text: NAMES[i], value: (dims) => dims[i], binds: 4 })),
      two(['+'], 1, (a, b) => a + b),
      two(['-', '−'], 1, (a, b) => a - b),
      two(['*', '×'], 2, (a, b) => a * b),
      two(['/', '÷'], 2, (a, b) => a / b),
      tie('tree').map(
        (a): Tree => ({ text: `-${bracketed(a, 3)}`, value: (dims) => -a.value(dims), binds: 3 }),
      ),
      call('min', Math.min),
      call('max', Math.max),
    ),
  };
});
const dims = fc.tuple(
  fc.integer({ min: -50, max: 50 }),
  fc.double({ min: -9, max: 9, noNaN: true }),
  fc.nat(9),
);

describe('arithmetic of any shape', () => {
  it('agrees with a value worked out along the tree, without a parser', () => {
    fc.assert(
      fc.property(tree, dims, ({ text, value }, at) => {
        fc.pre(text.length <= 500);
        // Adding 0 makes -0 of 0: the sign of nothing means nothing.
        expect(result(text, at) + 0).toBe(value(at) + 0);
      }),
      { numRuns: 3000 },
    );
  });

  it('agrees with JavaScript, for the signs that JavaScript has', () => {
    fc.assert(
      fc.property(tree, dims, ({ text }, at) => {
        fc.pre(text.length <= 500);
        const script = text
          .replaceAll('×', '*')
          .replaceAll('÷', '/')
          .replaceAll('−', '-')
          .replaceAll('-', ' - ')
          .replace(/min|max/g, 'Math.$&');
        const byScript = new Function(...NAMES, `return ${script}`)(...at);
        expect(result(text, at) + 0).toBe(byScript + 0);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('the unit of a dim', () => {
  const told = (text: string) => {
    const units: Record<string, string> = {};
    tellUnits(parseArithmetic(text), 'mm', (name, unit) => {
      units[name] = unit;
    });
    return units;
  };

  it('follows from sums, from a number of times and from angles', () => {
    expect(told('a + 2 * b - c / 3')).toEqual({ a: 'mm', b: 'mm', c: 'mm' });
    expect(told('40 * sin(lean + 5)')).toEqual({ lean: 'degrees' });
    expect(told('max(a, -b)')).toEqual({ a: 'mm', b: 'mm' });
    expect(told('a - bar * cos(slant)')).toEqual({ a: 'mm', bar: 'mm', slant: 'degrees' });
    expect(told('up / tan(lean)')).toEqual({ up: 'mm', lean: 'degrees' });
  });

  it('is not guessed where it is not plain', () => {
    expect(told('a * b')).toEqual({});
    expect(told('30 / a')).toEqual({});
    expect(told('sqrt(a)')).toEqual({});
  });
});
