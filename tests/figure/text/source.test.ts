import { describe, expect, it } from 'vitest';
import { parseFigure } from '../../../src/figure/text/source.js';
import { refusal } from '../support.js';

const read = (text: string) => parseFigure(text, 'x.yaml');
const refused = (text: string) => refusal(() => read(text));

describe('the YAML of a figure file', () => {
  it('becomes plain data with the place of every value', () => {
    const source = read('# Boat\na: 1\nb:\n  - [x, "y"]\n  - c: no\n');
    expect(source.data).toEqual({ a: 1, b: [['x', 'y'], { c: 'no' }] });
    expect(source.marks).toMatchObject({
      a: [2, 4, 2, 1],
      'b.0.0': [4, 6, 4, 6],
      // In quotes: the text begins behind the mark.
      'b.0.1': [4, 10, 4, 9],
      'b.1.c': [5, 8, 5, 5],
    });
  });

  it('can be cloned into a worker thread and written as JSON', () => {
    const source = read('a: 1\nb: [x, { c: 2 }]');
    expect(structuredClone(source)).toEqual(source);
    expect(JSON.parse(JSON.stringify(source))).toEqual(source);
  });

  it('takes lines that end in any way, and a byte order mark', () => {
    expect(read('a: 1\r\nb: 2\r\n').data).toEqual({ a: 1, b: 2 });
  });

  it.each([
    ['a: [1, 2', "x.yaml:1:4  found '[', which is not closed; close it with ']'"],
    ['a: 1\n b: 2', "found 'b: 2' indented by 1 blank;"],
    ['dims:\n  a: b: c', 'put text that holds a colon in quotes'],
    ['a: "x', 'found what YAML cannot read'],
    ['a: b: c', 'put text that holds a colon in quotes'],
    ['a: 1\n\tb: 2', 'indent with spaces'],
    ['a: 1\na: 2', "x.yaml:2:1  a: found the field 'a' twice; keep one"],
    ['b: { a: 1, a: 2 }', "x.yaml:1:12  b.a: found the field 'a' twice"],
    ['a: &x 1\nb: *x', "x.yaml:2:4  b: found the alias '*x'; write the value out, or make it a dim"],
    ['a: { b: &x 1 }', "x.yaml:1:12  a.b: found the anchor '&x'; leave it out"],
    ['a: !!str 5', "x.yaml:1:10  a: found the tag '!!str'; leave it out"],
    ['!!str a: 5', "x.yaml:1:7  found the tag '!!str'; leave it out"],
    ['a: !!binary aGk=', 'found what YAML cannot read (Unresolved tag'],
    ['a: !mine 3', 'found what YAML cannot read (Unresolved tag'],
    ['%YAML 1.1\n---\na: yes', "x.yaml:1:1  found '%YAML 1.1'; leave out lines that begin with %"],
    ['a: 1\n---\nb: 1', 'x.yaml:2:1  found a second document; keep one figure in a file'],
    ['[1]: 2', 'x.yaml:1:1  found a field without a plain name'],
    [': 2', 'found a field without a plain name'],
    ['__proto__: { parts: [] }', "x.yaml:1:1  __proto__: found '__proto__'; give the field another name"],
    ['a: .nan', "x.yaml:1:4  a: found '.nan'; give a finite number"],
    ['a: 1e999', "a: found '1e999'; give a finite number"],
    ['a: 1\nb\u0000: 2', 'x.yaml:2:2  found the control character U+0000; take it out'],
    ['a: \ud800', 'x.yaml:1:4  found the control character U+D800'],
  ])('is refused when it is %j', (text, message) => {
    expect(refused(text)).toContain(message);
  });

  it('may be empty, and then lacks a page', () => {
    expect(read('').data).toBe(null);
    expect(read('# nothing').data).toBe(null);
  });
});

describe('a file made to do harm', () => {
  it.each([
    ['lists in lists', '['.repeat(60_000)],
    ['closed lists in lists', '['.repeat(5000) + ']'.repeat(5000)],
    ['dashes', '- '.repeat(50_000)],
    ['question marks', '? '.repeat(50_000)],
    ['fields in fields', '{a: '.repeat(30_000)],
    ['steps', Array.from({ length: 300 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  ])('of %s is refused before it is taken apart', (_, text) => {
    expect(refused(text)).toMatch(
      /found (nesting deeper than 30; write the figure flatter|what YAML cannot read)/,
    );
  });

  it.each([
    ['a million signs', '}'.repeat(999_999)],
    ['a hundred thousand fields', Array.from({ length: 60_000 }, (_, i) => `k${i}: 1`).join('\n')],
    ['anchors', '&a '.repeat(300_000)],
    ['numbers', `a: [${'1,'.repeat(300_000)}]`],
  ])('of %s is refused', (_, text) => {
    expect(refused(text)).toMatch(/^x\.yaml {2}found more than 200000 words and signs; split the figure/);
  });

  it('of more than a million characters is refused', () => {
    expect(refused(' '.repeat(1_000_001))).toBe('x.yaml  found 1000001 characters; keep it under 1000000');
  });

  it('of many fields that fit is read', () => {
    const text = Array.from({ length: 20_000 }, (_, i) => `k${i}: 1`).join('\n');
    expect(Object.keys(read(text).data ?? {})).toHaveLength(20_000);
  });
});
