import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { partKinds } from '../../src/parts/index.js';
import { codeIn, rowsOf, section, textOf } from './documents.js';

const PAGE = 'docs/figure-file.md';

/** What is said of a figure file that cannot be used. */
function refusal(yaml: string): string {
  try {
    compileFigure(parseFigure(yaml, 'x.yaml'));
  } catch (error) {
    return String(error);
  }
  return 'nothing';
}

/** The fields that the program knows at a place, as it lists them when it finds one there that it does not know. */
function known(yaml: string): string[] {
  const [, list] = /the fields are: (.*)$/m.exec(refusal(yaml)) ?? [];
  if (list === undefined) throw new Error(`no field is refused in ${yaml}: ${refusal(yaml)}`);
  return list.split(', ').sort();
}

const figure = (rest: string, more = ''): string => `page: A5
parts: [{ name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [30, 30], ridge: 40 }${more}]
${rest}
`;
const want = (kind: string, fields: string): string =>
  figure(
    `wants: [{ name: w, kind: ${kind}, least: 1, ${fields} }]`,
    ', { name: gap, kind: slot, on: v left, outline: [[8, 2], [12, 2], [12, 4]], passes: v right }',
  );
const part = (kind: string, fields: string): string =>
  `page: A5\nparts: [{ name: p, kind: ${kind}, ${fields} }]\n`;

const inTable = (heading: string): string[] =>
  rowsOf(section(PAGE, heading))
    .slice(1)
    .flatMap(([cell]) => codeIn(cell))
    .sort();

describe('the docs list the fields that there are', () => {
  it('in the figure file', () => {
    const [first] = section(PAGE, '# The figure file').split('\n## ');
    expect(
      rowsOf(first)
        .slice(1)
        .flatMap(([cell]) => codeIn(cell))
        .sort(),
    ).toEqual(known(figure('colour: red')));
  });

  it('of limits', () => {
    expect(inTable('## Limits')).toEqual(known(figure('limits: { colour: 3 }')));
  });

  it.each([
    ['## Page, card, opening', 'card: { colour: red }'],
    ['## Page, card, opening', 'opening: { colour: red }'],
    ['## Dims', 'dims: { d: { from: 1, to: 2, colour: red } }'],
    ['## Keep clear, trims', 'keepClear: [{ name: box, colour: red }]'],
    ['## Keep clear, trims', 'trims: [{ colour: red }]'],
  ])('%s: %s', (heading, yaml) => {
    const text = section(PAGE, heading);
    for (const field of known(figure(yaml)))
      expect(text, field).toMatch(new RegExp(`\`${field}\`|\\b${field}:|\`\\w+ \\* ${field}`));
  });

  it('of tabs', () => {
    const fields = known(part('v-fold', 'at: 60, tab: { colour: red }'));
    expect(textOf(PAGE)).toContain(`\`tab: { ${['width', 'side', 'mitre'].join(', ')} }\``);
    expect(fields).toEqual(['mitre', 'side', 'width']);
  });
});

describe('the docs say which fields must be given', () => {
  it.each(Object.values(partKinds).map(({ kind, fields }) => [kind, fields] as const))(
    'of a %s',
    (kind, fields) => {
      expect(fields).toBeInstanceOf(z.ZodObject);
      if (!(fields instanceof z.ZodObject)) return;
      const needed = Object.entries<z.ZodType>(fields.shape)
        .filter(([, field]) => !field.safeParse(undefined).success)
        .map(([name]) => name);
      const starred = rowsOf(section(PAGE, `### ${kind}`))
        .flatMap(([cell]) => [...cell.matchAll(/`(\w+)` \*/g)])
        .map(([, name]) => name);
      expect(starred.sort()).toEqual(needed.sort());
    },
  );

  it.each(rowsOf(section(PAGE, '## Wants')).slice(1))('of the want %s', (kind, cell) => {
    const name = codeIn(kind)[0];
    const told = codeIn(cell);
    const common = ['name', 'kind', 'least', 'most', 'target', 'tolerance', 'weight', 'from', 'to'];
    // A field that is not known is told before one that is missing.
    const fields = known(want(name, 'colour: red')).filter((field) => !common.includes(field));
    expect(told.toSorted()).toEqual(fields);

    const values: Record<string, string> = {
      panel: 'v left',
      panels: '[v left, v right]',
      point: '[1, 1]',
      line: '45',
      at: '[[90, 20]]',
      reference: 'left page',
      slot: 'gap',
    };
    const given = (names: string[]) => names.map((field) => `${field}: ${values[field]}`).join(', ');
    const starred = [...cell.matchAll(/`(\w+)` \*/g)].map(([, field]) => field);
    expect(refusal(want(name, given(starred)))).toBe('nothing');
    for (const field of starred)
      expect(refusal(want(name, given(starred.filter((other) => other !== field)))), field).toContain(
        `wants.0.${field}: found nothing`,
      );
  });
});

describe('the docs list what there is', () => {
  it('every kind of part in the README', () => {
    const told = rowsOf(section('README.md', '### The figure file'))
      .slice(1)
      .flatMap(([cell]) => codeIn(cell));
    expect(told.sort()).toEqual(Object.keys(partKinds).sort());
  });

  it('every pattern of a new figure', () => {
    const [, list = ''] = /The patterns are ([^.]*)\./.exec(textOf('docs/tuning.md')) ?? [];
    expect(codeIn(list).sort()).toEqual(patterns.map(({ name }) => name).sort());
  });

  it('every panel and crease that a part makes', () => {
    const made: Record<string, string[]> = {};
    const folds = figure(`dims: { x: 1 }`).replace(
      'parts: [',
      `parts: [
  { name: t, kind: parallel-fold, at: 100, length: 30, glue: [20, 20], widths: [25, 25] },
  { name: b, kind: parallel-fold, shape: box, at: 140, length: 20, glue: [20, 15] },
  { name: l, kind: parallel-fold, shape: layer, at: 165, length: 30, glue: [10, 10], widths: [25, 25], layers: [20, 20] },
  { name: s, kind: strut, foot: { panel: right page, line: [[6, 142], [6, 150]] }, top: { panel: b left, line: [[2, 6], [10, 6]] } },
  { name: c, kind: counter-fold, on: t ridge, at: 5, diagonal: 30, side: 8, length: 8 },
  `,
    );
    const assembly = (() => {
      const compiled = compileFigure(parseFigure(folds, 'x.yaml'));
      return compiled.build(compiled.start);
    })();
    for (const { part: name, name: panel, role } of assembly.panels)
      if (role !== 'tab') made[name] = [...(made[name] ?? []), panel];
    const kinds = {
      v: 'v-fold',
      t: 'parallel-fold',
      b: 'parallel-fold',
      l: 'parallel-fold',
      s: 'strut',
      c: 'counter-fold',
    };
    for (const [name, kind] of Object.entries(kinds)) {
      const told = codeIn(section(PAGE, `### ${kind}`).split('\n| ')[0]).map((word) =>
        word.replace('NAME', name),
      );
      // `NAME wall left` and `right`: the second is said by its last word.
      const said = (panel: string) => told.includes(panel) || told.includes(panel.replace(/right$/, 'left'));
      expect(made[name].length, name).toBeGreaterThan(0);
      for (const panel of made[name]) expect(said(panel), panel).toBe(true);
    }
  });
});
