import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { partKinds } from '../../src/parts/index.js';
import { fieldsOf, figureOf, postOf, refusal } from './support.js';

const POST = 'parts: [{ name: a, kind: post, high: 3 }]';

function noBuild(make: () => unknown): CannotBuild {
  try {
    make();
  } catch (error) {
    if (error instanceof CannotBuild) return error;
    throw error;
  }
  throw new Error('it was built');
}

describe('the fields of a part', () => {
  it('are worked out, with defaults, at any depth', () => {
    const figure = postOf(
      'high: h, corner: { at: [h + 1, -2], more: [[1, h], [2, 3]] }',
      'h: { from: 10, to: 20 }',
    );
    expect(fieldsOf(figure, Float64Array.of(12))).toEqual({
      on: 'left page',
      high: 12,
      turn: 0,
      way: 'up',
      corner: {
        at: [13, -2],
        more: [
          [1, 12],
          [2, 3],
        ],
      },
    });
  });

  it('that no dim changes are worked out once, and cannot be changed by a part', () => {
    const figure = postOf('high: h, corner: { at: [1, 2] }', 'h: { from: 10, to: 20 }');
    const { corner } = fieldsOf(figure, Float64Array.of(12)) as { corner: object };
    expect(fieldsOf(figure, Float64Array.of(13))).toHaveProperty('corner', corner);
    expect(Object.isFrozen(corner)).toBe(true);
  });

  it('may name panels by a dim that chooses between names', () => {
    const yaml = `dims: { where: { choose: [left page, a] } }
parts:
  - { name: a, kind: post, high: 3 }
  - { name: b, kind: post, on: where, high: 3 }`;
    const figure = figureOf(yaml);
    expect(fieldsOf(figure, Float64Array.of(1))).toHaveProperty('on', 'a');
    expect(refusal(() => figureOf(yaml.replace('page, a]', 'page, c]')))).toBe(
      "posts.yaml:5:32  parts.1.on: found 'where'; b: no panel is named 'c' so far; there are: left page, right page, a",
    );
  });

  it.each([
    ['high: seventy', "parts.0.high: found 'seventy'; there are no dims"],
    ['high: 0', 'parts.0.high: found 0; give from 0.01 to 10000 mm'],
    ['high: 3 - 3', "parts.0.high: found '3 - 3', which is 0; give from 0.01 to 10000 mm"],
    ['high: 0 / 0', "parts.0.high: found '0 / 0', which gives no number; give from 0.01"],
    ['high: [3]', 'parts.0.high: found a list of 1; give a number, a dim or arithmetic over dims'],
    ['hihg: 3', "parts.0.hihg: found the field 'hihg'; did you mean 'high'? the fields are: on, high,"],
    ['turn: 3', 'parts.0.high: found nothing; give a number, a dim or arithmetic over dims'],
    ['high: 3, turn: 90.5', 'parts.0.turn: found 90.5; give from 0 to 90 degrees'],
    ['high: 3, way: upp', "parts.0.way: found 'upp'; did you mean 'up'? the words are: up, down"],
    ['high: 3, way: 4', 'parts.0.way: found 4; give one of up, down, or a dim that chooses between them'],
    ['high: 3, corner: { at: [1] }', 'parts.0.corner.at: found a list of 1; give a point [x, y] in mm'],
    [
      'high: 3, corner: { at: [1, x y] }',
      "parts.0.corner.at.1: found 'y'; after 'x', put a sign between them",
    ],
    ['high: 3 mm', "parts.0.high: found 'mm'; leave the unit out: lengths are mm, angles degrees"],
    ['high: 3..5', "parts.0.high: found '.5'; for a range, write { from: …, to: … }"],
    ['high: 3, corner: 4', 'parts.0.corner: found 4; give { … } with the fields: at, more'],
    ['high: 3, on: lft page', "parts.0.on: found 'lft page'; post: no panel is named 'lft page' so far"],
  ])('are refused when they are %s', (fields, message) => {
    expect(refusal(() => postOf(fields))).toContain(message);
  });

  it('are refused when one word of a choice would not do', () => {
    const make = () => postOf('high: 3, way: w', 'w: { choose: [up, left] }');
    expect(refusal(make)).toContain(
      "parts.0.way: found 'left', a choice of dim 'w'; the words are: up, down",
    );
  });

  it('are refused with the place of what is wrong, in a list too', () => {
    const yaml = `dims: { h: 3 }
parts:
  - name: a
    kind: post
    high: h
    corner:
      at: [2, 2 * hh]`;
    expect(refusal(() => figureOf(yaml))).toBe(
      "posts.yaml:8:19  parts.0.corner.at.1: found 'hh'; did you mean 'h'? the dims are: h",
    );
  });
});

describe('a candidate that cannot be built', () => {
  const figure = postOf(
    'high: 100 / h, turn: t',
    'h: { from: -1, to: 1, start: 1 }, t: { from: 0, to: 180, start: 0 }',
  );

  it('says which part, which field and why', () => {
    expect(noBuild(() => figure.build(Float64Array.of(1, 120)))).toMatchObject({
      message: "post: 't' is 120 here, and should be from 0 to 90 degrees",
      field: 'parts.0.turn',
      structural: false,
    });
    expect(noBuild(() => figure.build(Float64Array.of(0, 0))).message).toBe(
      "post: '100 / h' gives no number here, and should be from 0.01 to 10000 mm",
    );
    expect(noBuild(() => figure.build(Float64Array.of(0.01, 0)))).toMatchObject({
      message: 'post: too high for any page',
      field: 'parts.0.high',
    });
  });

  it('is no fault of the file, even if it is the first', () => {
    expect(() => postOf('high: 100 / h', 'h: { from: -1, to: 1 }')).not.toThrow();
  });

  it('says so too where the arithmetic of a dim gives no number', () => {
    const figure = postOf('high: 3', 'a: sqrt(b), b: { from: -4, to: 9, start: 9 }');
    const vector = Float64Array.of(-1);
    expect(noBuild(() => figure.build(vector))).toMatchObject({
      message: "the arithmetic of dim 'a' gives no number here",
      field: 'dims.a',
    });
    expect(noBuild(() => figure.values(vector)).field).toBe('dims.a');
  });
});

describe('what no maker would write', () => {
  it('is refused in a bounded time', () => {
    const points = Array(5001).fill('[1, 2]').join(',');
    const post = (name: string) =>
      `{ name: ${name}, kind: post, high: 3, corner: { at: [1, 2], more: [${points}] } }`;
    expect(refusal(() => figureOf(`parts: [${post('a')}, ${post('b')}]`))).toContain(
      'parts: found 10004 points; give at most 10000 in all',
    );
    const dims = Array.from({ length: 201 }, (_, i) => `d${i}: ${i}`).join(', ');
    expect(refusal(() => postOf('high: 3', dims))).toContain('dims: found 201 dims; give at most 200');
    const choices = (n: number) =>
      `w: { choose: [${Array.from({ length: n }, (_, i) => `w${i}`).join(', ')}] }`;
    expect(refusal(() => postOf('high: 3', choices(51)))).toContain(
      'dims.w.choose: found a list of 51; give a list of at most 50',
    );
  });

  it('is shown on one short line', () => {
    const message = refusal(() => postOf(`"a\nbe[31m${'x'.repeat(5000)}": 3`));
    expect(message).not.toMatch(/\p{C}/u);
    expect(message.length).toBeLessThan(1200);
  });
});

describe('the list of parts', () => {
  it.each([
    ['', 'parts: found nothing; give a list of one part or more'],
    ['parts: []', 'parts: found a list of 0; give a list of one part or more'],
    [
      'parts: { a: 1 }',
      "parts: found fields 'a'; give a list: each entry begins with '- name: …', and has a kind",
    ],
    ['parts: [post]', "parts.0: found 'post'; give fields, beginning with 'name: …' and 'kind: …'"],
    ['parts: [{ kind: post, high: 3 }]', 'parts.0.name: found nothing; give a name'],
    [
      'parts: [{ name: " a", kind: post, high: 3 }]',
      "parts.0.name: found ' a'; give a name of 1 to 60 characters",
    ],
    ['parts: [{ name: "a\\u0007", kind: post, high: 3 }]', 'give a name without control characters'],
    [
      'parts: [{ name: a, kind: pst, high: 3 }]',
      "parts.0.kind: found 'pst'; did you mean 'post'? the kinds are: post",
    ],
    ['parts: [{ name: a, kind: toString }]', "parts.0.kind: found 'toString'; the kinds are: post"],
    ['parts: [{ name: a, high: 3 }]', 'parts.0.kind: found nothing; the kinds are: post'],
    [
      'parts: [{ name: a, kind: post, high: 3 }, { name: a, kind: post, high: 3 }]',
      "parts.1.name: found 'a' twice; give each a name of its own",
    ],
    [
      `parts: [${Array(201).fill('{ name: a, kind: post }').join(',')}]`,
      'parts: found a list of 201; give at most 200',
    ],
    [
      'dims: { a: { choose: [x, y] } }\nparts: [{ name: a, kind: post, high: 3 }]',
      "parts.0.name: found 'a', also the name of a dim that chooses between words",
    ],
    ['part: []', "part: found the field 'part'; did you mean 'parts'? the fields are: figure, page, card"],
  ])('is refused when it is %s', (yaml, message) => {
    expect(refusal(() => figureOf(yaml))).toContain(message);
  });
});

describe('the figure as a whole', () => {
  it('has the name that it gives itself, else that of its file', () => {
    expect(figureOf(`figure: The Ferry-man 2\n${POST}`).name).toBe('The Ferry-man 2');
    expect(figureOf(POST).name).toBe('posts');
    const named = (file: string) => compileFigure(parseFigure(FERRY, file)).name;
    expect(named('a/b/old boat.yml')).toBe('old boat');
    expect(named('../..')).toBe('figure');
    expect(refusal(() => figureOf(`figure: ../up\n${POST}`))).toContain(
      "figure: found '../up'; give a name of 1 to 60",
    );
  });

  it('may be written as one of its real kinds of parts', () => {
    const figure = compileFigure(parseFigure(FERRY, 'ferry.yaml'));
    const { panels } = figure.build(figure.start);
    expect(panels.map(({ name }) => name)).toEqual(expect.arrayContaining(['boat left', 'boat right']));
    expect(panels.find(({ name }) => name === 'boat left')?.thickness).toBe(0.5);
    expect(panels[0].thickness).toBe(0.3);
  });

  it('knows every field of every real kind well enough to name a wrong one', () => {
    for (const [kind, { fields }] of Object.entries(partKinds)) {
      expect(kind).toMatch(/^[a-z-]+$/);
      const yaml = `page: A5\nparts: [{ name: x, kind: ${kind}, wrongly: 1 }]`;
      expect(refusal(() => compileFigure(parseFigure(yaml, 'x.yaml')))).toMatch(
        /^x\.yaml:2:\d+ {2}parts\.0\.wrongly: found the field 'wrongly'; .*the fields are: /,
      );
      expect(fields.safeParse({}).success).toBe(false);
    }
  });
});

const FERRY = `page: { width: 120, height: 160 }
card: { pieces: { boat: { thickness: 0.5 } } }
dims: { width: { from: 30, to: 50 } }
parts: [{ name: boat, kind: parallel-fold, at: 40, length: 60, glue: [20, 20], widths: [width, width] }]`;

describe('the page', () => {
  it('is a leaf in mm, or a sheet of ISO 216', () => {
    expect(figureOf(`page: { width: 120, height: 80 }\n${POST}`).page).toEqual({ width: 120, height: 80 });
    expect(figureOf(`page: A5 landscape\n${POST}`).page).toEqual({ width: 210, height: 148 });
  });

  it.each([
    ['page: A11', "page: found 'A11'; give { width: …, height: … } in mm for one leaf, or a sheet"],
    ['page: 20', 'page: found 20; give { width'],
    ['page:', 'page: found nothing; give { width'],
    ['page: { width: 120 }', 'page.height: found nothing; give a number'],
    ['page: { width: 120, height: 3 }', 'page.height: found 3; give a number at least 10'],
  ])('is refused when it is %s', (page, message) => {
    expect(refusal(() => figureOf(`${page}\n${POST}`))).toContain(message);
  });
});

describe('card', () => {
  const cardOf = (card: string) => figureOf(`card: ${card}\n${POST}`).card;

  it('is as thick as grammage times bulk over 1000 (ISO 534: bulk is volume by mass)', () => {
    // 250 g/m² at 1.4 cm³/g: 250 × 1.4 = 350 cm³/m² = 350 µm.
    expect(cardOf('{ grammage: 250, bulk: 1.4 }').thickness).toBeCloseTo(0.35, 12);
    expect(cardOf('{ thickness: 0.42 }').thickness).toBe(0.42);
    expect(cardOf('').thickness).toBeCloseTo(0.3, 12);
  });

  it('may differ from piece to piece', () => {
    const card = cardOf(
      '{ grammage: 200, bulk: 1.5, grain: along, pieces: { a: { grammage: 400, grain: across } } }',
    );
    expect(card.of('a')).toMatchObject({ thickness: 0.6, grammage: 400, grain: 'across' });
    expect(card.of('page')).toMatchObject({ thickness: 0.3, grain: 'along' });
  });

  it.each([
    ['{ thickness: 0.3, bulk: 1 }', 'card: found thickness beside grammage or bulk'],
    ['{ grain: sideways }', "card.grain: found 'sideways'; give one of along, across, any"],
    [
      '{ pieces: { b: { thickness: 1 } } }',
      "card.pieces.b: found 'b'; did you mean 'a'? the pieces are: page, a",
    ],
    [
      '{ pieces: { a: 1 } }',
      'card.pieces.a: found 1; give { … } with the fields: thickness, grammage, bulk, grain',
    ],
  ])('is refused when it is %s', (card, message) => {
    expect(refusal(() => cardOf(card))).toContain(message);
  });
});

describe('the opening', () => {
  it('runs from 180° to 0° in steps of 2° or less that divide it', () => {
    expect(figureOf(POST).opening).toEqual({ from: 180, to: 0, step: 2 });
    expect(figureOf(`opening: { step: 0.5 }\n${POST}`).opening.step).toBe(0.5);
    expect(refusal(() => figureOf(`opening: { step: 0.7 }\n${POST}`))).toContain(
      'give a step that divides 180',
    );
    expect(refusal(() => figureOf(`opening: { step: 3 }\n${POST}`))).toContain('give a number at most 2');
    expect(refusal(() => figureOf(`opening: { from: 120 }\n${POST}`))).toContain(
      'opening.from: found 120; give 180',
    );
  });
});

describe('limits', () => {
  it('have the defaults that the docs state', () => {
    expect(figureOf(POST).limits).toEqual({
      catch: 0,
      press: 0.3,
      rub: 0.5,
      overhang: 0,
      coveredBelow: 0,
      outside: 1,
      pile: 3,
      glue: 25,
      glueArea: 25,
      glueBreadth: 3,
      cardBreadth: 1.5,
      creaseOnCard: 80,
      foldLength: 25,
      glueShare: 4,
      slotRoom: 0.5,
      give: 0.5,
      force: 15,
      easyForce: 5,
      shutTo: 2,
      strain: 2,
      easyStrain: 1,
      easyBend: 1,
      tilt: 20,
      jump: 0,
      residue: 0.3,
      flatWhenOpen: 'any',
    });
  });

  it('may be set, and yes or no may be written in any way of YAML', () => {
    const limits = (text: string) => figureOf(`limits: ${text}\n${POST}`).limits;
    expect(limits('{ pile: 5, flatWhenOpen: yes }')).toMatchObject({
      pile: 5,
      flatWhenOpen: 'yes',
      give: 0.5,
    });
    expect(limits('{ flatWhenOpen: false }').flatWhenOpen).toBe('no');
    expect(refusal(() => limits('{ pile: -1 }'))).toContain(
      'limits.pile: found -1; give a number at least 0',
    );
    expect(refusal(() => limits('{ flatWhenOpen: maybe }'))).toContain("found 'maybe'; give yes, no or any");
    expect(refusal(() => limits('{ catches: 1 }'))).toContain("did you mean 'catch'?");
  });
});

describe('keep-clear boxes', () => {
  const boxes = (text: string) => figureOf(`keepClear: [${text}]\n${POST}`).keepClear;

  it('stand on a page, their corners in any order', () => {
    expect(boxes('{ name: candle, on: right page, from: [60, 20, 30], to: [40, 60, 0] }')).toEqual([
      { name: 'candle', on: 'right page', least: [40, 20, 0], most: [60, 60, 30] },
    ]);
  });

  it('begin at their page, and are refused when they lie behind it', () => {
    expect(boxes('{ name: candle, from: [-60, 20, -2], to: [-40, 60, 30] }')).toMatchObject([
      { least: [-60, 20, 0], most: [-40, 60, 30] },
    ]);
    expect(refusal(() => boxes('{ name: candle, from: [-60, 20, -9], to: [-40, 60, 0] }'))).toContain(
      'keepClear.0.to: found a box behind its page; give a z above 0',
    );
  });

  it('are refused when they are flat', () => {
    expect(refusal(() => boxes('{ name: candle, from: [1, 2, 3], to: [2, 3, 3] }'))).toContain(
      'keepClear.0.to: found',
    );
  });
});

describe('trims', () => {
  it('name a panel that there is', () => {
    const trims = (panel: string) =>
      figureOf(`trims: [{ panel: ${panel}, region: [[0, 0], [5, 0], [0, 5]] }]\n${POST}`).trims;
    expect(trims('a')).toEqual([
      {
        panel: 'a',
        region: [
          [0, 0],
          [5, 0],
          [0, 5],
        ],
      },
    ]);
    expect(refusal(() => trims('b'))).toContain("trims.0.panel: found 'b'; no panel is named 'b' so far");
  });
});
