import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { readFigure } from '../../../src/figure/read.js';
import { refusal } from '../support.js';

let home: string;
let folder: string;
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'figure-'));
  folder = join(home, 'figures');
  mkdirSync(join(folder, 'art'), { recursive: true });
  write('art/boat.svg', BOAT);
  writeFileSync(join(home, 'secret.svg'), BOAT);
  symlinkSync(join(home, 'secret.svg'), join(folder, 'link.svg'));
  symlinkSync(home, join(folder, 'up'));
  symlinkSync(join(folder, 'art'), join(folder, 'same'));
});
afterAll(() => rmSync(home, { recursive: true }));

const BOAT = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50">
  <path id="hull" d="M 10 40 h 40 v -30 h -40 z M 20 30 h 4 v -4 h -4 z"/>
  <path id="saw" d="M 0 0 ${'l 0.1 1 l 0.1 -1 '.repeat(450)} v -5 h -90 z"/>
  <path id="bad" d="M 10 40 L 50 10 L 50 40 L 10 10 L 0 0 Z"/>
</svg>`;

function write(name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const withOutline = (outline: string) => `page: A5
parts:
  - name: sail
    kind: glued-piece
    on: right page
    at: [20, 20]
    outline: ${outline}
`;
const read = (outline: string) => readFigure(write('sail.yaml', withOutline(outline)));

describe('an outline drawn in an SVG file', () => {
  it('takes the place of its name, with its holes, and the figure can be built', () => {
    const source = read('{ svg: art/boat.svg, path: hull }');
    const figure = compileFigure(structuredClone(source));
    const sail = figure.build(figure.start).panels.find(({ name }) => name === 'sail');
    expect([...(sail?.outline ?? [])].sort()).toEqual([0, 0, 0, 0, 30, 30, 40, 40].sort());
    expect(sail?.holes).toHaveLength(1);
    expect(figure.toYaml(figure.start)).toBe(withOutline('{ svg: art/boat.svg, path: hull }'));
  });

  it('is looked for among the parts alone: a dim may be called svg', () => {
    const text = withOutline('{ polygon: [[0, 0], [svg, 0], [0, 20]] }').replace(
      'parts:',
      'dims: { svg: 30 }\nparts:',
    );
    const figure = compileFigure(readFigure(write('called.yaml', text)));
    expect(figure.values(figure.start).get('svg')).toBe(30);
  });

  it('may be placed by a point of the drawing', () => {
    const { data } = read('{ svg: same/boat.svg, path: hull, zero: [30, 40] }');
    expect(data).toHaveProperty('parts.0.outline.polygon.0', [-20, 0]);
  });

  it.each([
    [
      '{ svg: art/boat.svg, path: keel }',
      "sail.yaml:7:21  parts.0.outline.svg: found no path with the id 'keel' in 'art/boat.svg'",
    ],
    ['{ svg: art/boat.svg, path: bad }', 'mm: the outline meets itself'],
    ['{ svg: art/boat.svg }', 'parts.0.outline.path: found nothing; give the id of a path in that file'],
    [
      '{ svg: 3, path: hull }',
      'parts.0.outline.svg: found 3; give the name of an SVG file beside the figure file',
    ],
    [
      '{ svg: art/boat.svg, path: hull, zro: [1, 2] }',
      "parts.0.outline.zro: found the field 'zro'; did you mean 'zero'?",
    ],
    ['{ svg: art/boat.svg, path: hull, zero: [1] }', 'parts.0.outline.zero: found a list of 1; give a point'],
    ['{ svg: boat.svg, path: hull }', "found 'boat.svg', no such file; give the name of an SVG file beside"],
    ['{ svg: art, path: hull }', "found 'art', what is not a file"],
    [
      '{ svg: ../secret.svg, path: hull }',
      "found '../secret.svg', which lies elsewhere; put the drawing in the folder",
    ],
    ['{ svg: link.svg, path: hull }', "found 'link.svg', which lies elsewhere"],
    ['{ svg: up/secret.svg, path: hull }', "found 'up/secret.svg', which lies elsewhere"],
    ['{ svg: /etc/passwd, path: hull }', "found '/etc/passwd', which lies elsewhere"],
    ['{ svg: "C:\\\\boat.svg", path: hull }', "found 'C:\\boat.svg', which lies elsewhere"],
    ['{ svg: "art/boat.svg\\0", path: hull }', 'a file that cannot be read'],
    ['{ svg: "http://example.com/boat.svg", path: hull }', 'no such file'],
  ])('is refused when it is %s', (outline, message) => {
    expect(refusal(() => read(outline))).toContain(message);
  });

  it('is refused when its file is too large or no text', () => {
    write('large.svg', new Uint8Array(4_000_001));
    expect(refusal(() => read('{ svg: large.svg, path: hull }'))).toContain(
      'more than 4000000 bytes; keep it under 4000000',
    );
    write('no.svg', Uint8Array.of(0xff, 0xd8, 0xff));
    expect(refusal(() => read('{ svg: no.svg, path: hull }'))).toContain('bytes that are not UTF-8 text');
  });

  it('counts among the corners of the figure', () => {
    const parts = Array.from(
      { length: 12 },
      (_, i) =>
        `{ name: s${i}, kind: glued-piece, on: left page, at: [0, 0], outline: { svg: art/boat.svg, path: saw } }`,
    );
    const path = write('many.yaml', `page: A5\nparts: [${parts.join(', ')}]`);
    expect(refusal(() => readFigure(path))).toMatch(
      /parts\.\d+\.outline\.svg: found more corners than may be in 'art\/boat\.svg'; at most 10000 in one figure/,
    );
  });
});

describe('a figure file', () => {
  it.each([
    ['missing.yaml', 'found no such file; give the name of a file that can be read'],
    ['art', 'found what is not a file; give the name of a file'],
    ['art/boat.svg/x', 'found no such file'],
  ])('named %s is refused', (name, message) => {
    const path = join(folder, name);
    expect(refusal(() => readFigure(path))).toBe(
      `${path}  ${message}${message.includes(';') ? '' : '; give the name of a file that can be read'}`,
    );
  });

  it('is refused when it is a pipe or a device, without waiting for it', () => {
    const pipe = join(folder, 'pipe.yaml');
    execFileSync('mkfifo', [pipe]);
    expect(refusal(() => readFigure(pipe))).toContain('found what is not a file');
    expect(refusal(() => readFigure('/dev/zero'))).toContain('found what is not a file');
  });

  it('is refused when it is too large', () => {
    const path = write('large.yaml', new Uint8Array(1_000_001).fill(32));
    expect(refusal(() => readFigure(path))).toBe(
      `${path}  found more than 1000000 bytes; keep it under 1000000`,
    );
  });

  it.each([
    ['Latin-1', Uint8Array.from(Buffer.from('figure: Fähre', 'latin1'))],
    ['UTF-16', Uint8Array.from(Buffer.from('\uFEFFfigure: Ferry', 'utf16le'))],
  ])('is refused when it is %s', (_, bytes) => {
    expect(refusal(() => readFigure(write('code.yaml', bytes)))).toContain(
      'found bytes that are not UTF-8 text, on line 1; save it with the encoding UTF-8',
    );
  });

  it('may begin with a byte order mark', () => {
    const path = write('mark.yaml', `\uFEFF${withOutline('{ svg: art/boat.svg, path: hull }')}`);
    expect(readFigure(path).marks.page).toEqual([1, 7, 1, 1]);
  });
});
