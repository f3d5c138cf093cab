import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldsOf, figureOf, postOf, refusal } from './support.js';

describe('a dim', () => {
  const figure = postOf(
    'high: height, turn: lean, way: way, count: number',
    'top: 2 × height + base, height: { from: 20, to: 40, start: 25, step: 0.5 }, base: 4, ' +
      'lean: { from: 10, to: 30 }, way: { choose: [up, down] }, number: { choose: [3, 5] }',
  );

  it('is free when it is a range or a choice, in the order of the file', () => {
    expect(figure.free).toEqual([
      { name: 'height', kind: 'real', unit: 'mm', min: 20, max: 40, step: 0.5, start: 25 },
      { name: 'lean', kind: 'real', unit: 'degrees', min: 10, max: 30, start: 20 },
      { name: 'way', kind: 'choice', unit: '', options: ['up', 'down'] },
      { name: 'number', kind: 'choice', unit: '', options: [3, 5] },
    ]);
    expect(figure.dims.map(({ name, kind }) => `${name} ${kind}`)).toEqual([
      'top arithmetic',
      'height range',
      'base number',
      'lean range',
      'way choice',
      'number choice',
    ]);
  });

  it('starts at its start value, a range without one at its middle, a choice at its first', () => {
    expect([...figure.start]).toEqual([25, 20, 0, 0]);
  });

  it('reaches the parts and the values of a candidate', () => {
    const vector = Float64Array.of(30, 12, 1, 1);
    expect(fieldsOf(figure, vector)).toEqual({ on: 'left page', high: 30, turn: 12, way: 'down', count: 5 });
    expect([...figure.values(vector)]).toEqual([
      ['top', 64],
      ['height', 30],
      ['base', 4],
      ['lean', 12],
      ['way', 'down'],
      ['number', 5],
    ]);
  });

  it('keeps the unit that it is given, and takes it else from where it is used', () => {
    const units = postOf(
      'high: a + b, turn: d',
      'a: 2 * c, b: { from: 1, to: 2 }, c: { from: 1, to: 2 }, d: { from: 1, to: 2, unit: mm }, e: { from: 1, to: 2 }',
    ).dims.map(({ name, unit }) => `${name} ${unit}`);
    expect(units).toEqual(['a mm', 'b mm', 'c mm', 'd mm', 'e ']);
  });

  it('may be a choice of one, which is not free', () => {
    const figure = postOf('high: h, way: w', 'w: { choose: [down] }, h: { choose: [7] }');
    expect(figure.free).toEqual([]);
    expect(fieldsOf(figure)).toMatchObject({ way: 'down', high: 7 });
  });

  it('may be worked out from dims that come later', () => {
    expect(postOf('high: a', 'a: b + 1, b: c + 1, c: 1').values(new Float64Array(0)).get('a')).toBe(3);
  });

  it.each([
    ['a: b, b: c + 1, c: 2 * a', 'found a circle: a → b → c → a; break the circle'],
    ['a: a', 'found a circle: a → a'],
    ['a: { from: 3, to: 3 }', 'dims.a.to: found 3; give a number above 3, where the range begins'],
    ['a: { from: 3, to: 9, start: 10 }', 'dims.a.start: found 10; give a number from 3 to 9'],
    ['a: { from: 3, to: 9, step: 0 }', 'dims.a.step: found 0; give a number above 0'],
    ['a: { from: 3, to: 9, step: 7 }', 'dims.a.step: found 7; give at most 6, the length of the range'],
    ['a: { from: 3 }', 'dims.a.to: found nothing; give a number'],
    ['a: { from: 3, too: 9 }', "dims.a.too: found the field 'too'; did you mean 'to'?"],
    ['a: { choose: [] }', 'dims.a.choose: found a list of 0; give a list of at least 1'],
    ['a: { choose: [1, up] }', 'dims.a.choose: found a list of 2; give words only, or numbers only'],
    ['a: { choose: [up, ""] }', "dims.a.choose.1: found ''; give a name of 1 to 60 characters"],
    ['a: { choose: [up, [1]] }', 'dims.a.choose.1: found a list of 1; give a word or a number'],
    ['a: { choose: [1, 1] }', 'dims.a.choose: found a list of 2; give each word or number once'],
    ['a: [1, 2]', 'dims.a: found a list of 2; give a number, { from: …, to: … }'],
    ['a: ', 'dims.a: found nothing; give a number, { from: …, to: … }'],
    ['a: 1e9', 'dims.a: found 1000000000; give a number at most 1000000'],
    ['a: .inf', "dims.a: found '.inf'; give a finite number"],
    ['a: 1 / 0', "dims.a: found '1 / 0'; give arithmetic whose result is a number"],
    ['a: 2 * bb, bbb: 1', "dims.a: found 'bb'; did you mean 'bbb'? the dims are: a, bbb"],
    [
      'a: w + 1, w: { choose: [up, down] }',
      "dims.a: found 'w', a choice of words; use a dim that is a number",
    ],
    [
      'boat-height: 1',
      "dims.boat-height: found the field 'boat-height'; name a dim with letters, digits and _",
    ],
    ['sin: 1', "dims.sin: found the field 'sin'; the word has a meaning in arithmetic"],
    ['a: 1, a: 2', "dims.a: found the field 'a' twice; keep one"],
  ])('is refused when it is %s', (dims, message) => {
    expect(refusal(() => postOf('high: 3', dims))).toContain(message);
  });

  it('is refused with line and column, also within arithmetic', () => {
    const yaml = ['dims:', '  tall: 30', '  wide: 2 * tal', 'parts: [{ name: a, kind: post, high: 3 }]'];
    expect(refusal(() => figureOf(yaml.join('\n')))).toBe(
      "posts.yaml:4:13  dims.wide: found 'tal'; did you mean 'tall'? the dims are: tall, wide",
    );
    const quotedText = yaml.join('\n').replace('2 * tal', '"2 * tal"');
    expect(refusal(() => figureOf(quotedText))).toContain('posts.yaml:4:14 ');
  });
});

describe('dims set by hand', () => {
  const figure = postOf(
    'high: height, way: way, turn: turn',
    'height: { from: 20, to: 40 }, twice: 2 * height, turn: 5, way: { choose: [up, down] }, n: { choose: [1, 2] }, one: { choose: [x] }',
  );
  const set = (settings: Record<string, string>) => figure.vectorFrom(new Map(Object.entries(settings)));

  it('change the start vector', () => {
    expect([...set({ height: '31.5', way: 'down', n: '2' })]).toEqual([31.5, 1, 1]);
    expect([...set({ height: '20', one: 'x' })]).toEqual([20, 0, 0]);
    expect(set({})).toEqual(figure.start);
  });

  it('override plain numbers of the file', () => {
    const vector = set({ turn: '7', height: '22' });
    expect(figure.values(vector).get('turn')).toBe(7);
    expect(fieldsOf(figure, vector)).toMatchObject({ turn: 7, high: 22 });
    expect(fieldsOf(figure)).toMatchObject({ turn: 5, high: 30 });
  });

  it.each([
    [{ height: '41' }, "--set  height: found '41'; give a number from 20 to 40"],
    [{ height: '' }, "height: found ''; give a number from 20 to 40"],
    [{ height: 'tall' }, "height: found 'tall'; give a number from 20 to 40"],
    [{ way: 'sideways' }, "way: found 'sideways'; give one of up, down"],
    [{ n: '1.5' }, "n: found '1.5'; give one of 1, 2"],
    [{ one: 'y' }, "one: found 'y'; give one of x"],
    [{ turn: 'Infinity' }, "turn: found 'Infinity'; give a number"],
    [{ twice: '50' }, "twice: found '50'; it follows from other dims; set those"],
    [{ hight: '30' }, "hight: found 'hight'; did you mean 'height'?"],
  ])('are refused when they are %j', (settings, message) => {
    expect(refusal(() => set(settings as Record<string, string>))).toContain(message);
  });
});

describe('the figure file with its dims fixed', () => {
  const yaml = `# Two posts
dims:
  height: { from: 20, to: 40 } # how tall
  # the way it turns
  way:
    choose: # of two
      - up
      - down

  lean:
    from: 10
    to: 30   # no more
  base:   4 # stays
parts:
  - { name: post,   kind: post, high: height + base, way: way, turn: lean }
`;
  const figure = figureOf(yaml);

  it('keeps every other letter', () => {
    expect(figure.toYaml(Float64Array.of(31.25, 1, 12))).toBe(`page: A5
# Two posts
dims:
  height: 31.25 # how tall
  # the way it turns
  way: { choose: ["down"] }

  lean: 12   # no more
  base:   4 # stays
parts:
  - { name: post,   kind: post, high: height + base, way: way, turn: lean }
`);
  });

  it('overrides plain numbers too, where they were set', () => {
    const vector = figure.vectorFrom(new Map([['base', '-1.5']]));
    expect(figure.toYaml(vector)).toContain('  base:   -1.5 # stays');
  });

  it('builds the same candidate when it is read again', () => {
    const free = fc.tuple(
      fc.double({ min: 20, max: 40, noNaN: true }),
      fc.nat(1),
      fc.double({ min: 10, max: 30, noNaN: true }),
    );
    fc.assert(
      fc.property(free, (values) => {
        const vector = Float64Array.from(values);
        const again = figureOf(figure.toYaml(vector));
        expect(again.free).toEqual([]);
        expect([...again.values(again.start)]).toEqual([...figure.values(vector)]);
      }),
    );
  });
});
