import { describe, expect, it } from 'vitest';
import { addPart, duplicatePart, twinPart } from '../../src/edit/add-part.js';
import { begun, edited, redone, textNow, undone } from '../../src/edit/history.js';
import { fixDim, makeDim, makeRange, writeOut } from '../../src/edit/make-range.js';
import { moveNumber, withNumbers } from '../../src/edit/move-number.js';
import { goingWith, removePart } from '../../src/edit/remove.js';
import { renameDim, renamePart } from '../../src/edit/rename.js';
import { moveTied, tiesNow, tiesOf } from '../../src/edit/tied.js';
import { withValue } from '../../src/figure/text/yaml-write.js';
import { moveInWords } from '../../src/report/words/move-words.js';
import { data, difference, expectSameParts, read, STALL } from './support.js';

const source = read(STALL);

describe('a part that is added', () => {
  const tent = { name: 'roof', kind: 'parallel-fold', at: 10, length: 20, glue: [15, 15], widths: [18, 18] };

  it('stands after all others, and nothing else changes', () => {
    const text = addPart(source, tent);
    expect(difference(STALL, text)).toEqual([
      '+  - { name: roof, kind: parallel-fold, at: 10, length: 20, glue: [15, 15], widths: [18, 18] }',
    ]);
    expectSameParts(STALL, text, ['roof']);
  });

  it('is written a line to a field where one line would be long', () => {
    const long = {
      ...tent,
      on: 'gutter',
      points: 'in',
      tab: { width: 6, side: 'outer', mitre: 60 },
      piece: 'a roof',
    };
    expect(difference(STALL, addPart(source, long))).toContain(
      '+    tab: { width: 6, side: outer, mitre: 60 }',
    );
    expectSameParts(STALL, addPart(source, long), ['roof']);
  });

  it('goes into a list in braces, and into a file without an end of its last line', () => {
    const flow = `page: A5\nparts: [{ name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [35, 35] }]`;
    expect((data(addPart(read(flow), tent)).parts as object[]).length).toBe(2);
    const block = flow.replace('[{', '\n  - {').replace('}]', '}');
    expect((data(addPart(read(block), tent)).parts as object[]).length).toBe(2);
  });

  it('keeps line ends as they are', () => {
    const text = addPart(read(STALL.replaceAll('\n', '\r\n')), tent);
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
    expectSameParts(STALL, text.replaceAll('\r\n', '\n'), ['roof']);
  });

  it('has a name of its own', () => {
    expect(() => addPart(source, { ...tent, name: 'sail' })).toThrow("'sail' is taken");
    expect(() => addPart(source, { ...tent, name: ' ' })).toThrow('a name of 1 to 60 characters');
  });
});

it('writes a name of a field so that it is read as that', () => {
  const text = withValue('faces: { a: back }\n', ['faces', 'b: [1'], 'front');
  expect(read(text).data).toEqual({ faces: { a: 'back', 'b: [1': 'front' } });
});

it('finds a field whose name YAML takes for a number', () => {
  const text = 'card: { pieces: { 1: { grammage: 300 } } }\n';
  expect(withValue(text, ['card', 'pieces', '1', 'grammage'], 200)).toBe(text.replace('300', '200'));
});

describe('a part that is removed', () => {
  it('takes with it what stands on it, which is named first', () => {
    expect(goingWith(source, 'swing')).toEqual({
      parts: ['swing', 'arm'],
      places: [],
      wants: ['the arm turns'],
      trims: 0,
      art: 0,
    });
    expect(goingWith(source, 'sail')).toMatchObject({ parts: ['sail'], wants: ['the sail rises'], trims: 1 });
  });

  it('leaves every other letter', () => {
    expect(difference(STALL, removePart(source, 'swing'))).toEqual([
      '-  - { name: swing, kind: counter-fold, on: tent ridge, at: slack * 4, diagonal: 30, side: 14, length: 18 } # turns',
      '-  - { name: arm, kind: glued-piece, on: swing left, at: [2, 1], turn: 10, outline: { polygon: [[2, -1], [30, -3], [30, 3], [2, 1]] } }',
      '-  - { name: the arm turns, kind: turn, panel: arm, least: 10 }',
    ]);
    const text = removePart(source, 'sail');
    expectSameParts(STALL, text, ['sail']);
    expect(text).not.toContain('trims');
    expect(text).toContain('# A pole in front of it.\n  - { name: swing');
  });

  it('takes the card of its piece with it', () => {
    const text = removePart(source, 'flag');
    expect(text).toContain('card: { grammage: 240, bulk: 1.25 }');
    expectSameParts(STALL, text, ['flag']);
  });

  it('leaves art on what stays', () => {
    const text = `${STALL}art:
  - { on: [tent left, sail left, flag], drawing: red.svg }
  - { on: [sail left, sail right], drawing: blue.svg }
`;
    expect(goingWith(read(text), 'sail').art).toBe(1);
    const rest = removePart(read(text), 'sail');
    expect(rest).toContain('on: [tent left, flag], drawing: red.svg');
    expect(rest).not.toContain('blue.svg');
    expect(renamePart(read(text), 'sail', 'jib')).toContain('on: [tent left, jib left, flag]');
  });

  it('is never the last one', () => {
    const one =
      'page: A5\nparts:\n  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [35, 35] }\n';
    expect(() => removePart(read(one), 'tent')).toThrow('one part or more');
    expect(() => removePart(source, 'mast')).toThrow('the parts are tent, sail, swing, flag, arm');
  });
});

describe('a name that is changed', () => {
  it('changes wherever the part or something of it is named', () => {
    expect(
      difference(STALL, renamePart(source, 'tent', 'big tent')).filter((line) => line.startsWith('+')),
    ).toEqual([
      '+  where: { choose: [big tent left, big tent right] }',
      '+  - name: big tent',
      '+  - { name: swing, kind: counter-fold, on: big tent ridge, at: slack * 4, diagonal: 30, side: 14, length: 18 } # turns',
    ]);
    data(renamePart(source, 'tent', 'big tent'));
    expect(renamePart(source, 'flag', 'pennant')).toContain('pieces: { pennant: { grammage: 300 } }');
    data(renamePart(source, 'flag', 'pennant'));
  });

  it('leaves what only begins alike: arm is no part of arm rest', () => {
    const text = STALL.replace('name: arm,', 'name: swing left hand,').replace(
      'panel: arm',
      'panel: swing left hand',
    );
    const renamed = renamePart(read(text), 'swing', 'turner');
    expect(renamed).toContain('panel: swing left hand');
    expect(renamed).toContain('on: turner left');
    data(renamed);
  });

  it('goes back to the same bytes', () => {
    expect(renamePart(read(renamePart(source, 'sail', 'jib')), 'jib', 'sail')).toBe(STALL);
    expect(renameDim(read(renameDim(source, 'slack', 'more')), 'more', 'slack')).toBe(STALL);
  });

  it('changes for a dim in arithmetic, and not for a part of the same name', () => {
    const text = renameDim(source, 'slack', 'wider');
    expect(text).toContain('side: foot + wider');
    expect(text).toContain('at: wider * 4');
    data(text);
    expect(() => renameDim(source, 'slack', 'foot')).toThrow("'foot' is taken");
    expect(() => renameDim(source, 'slack', 'two words')).toThrow('letters, digits');
    // No field of a figure file is called so.
    expect(() => renameDim(source, 'slack', '__proto__')).toThrow("'__proto__' can't be used");
    expect(() => renamePart(source, 'flag', '__proto__')).toThrow("'__proto__' can't be used");
    data(renameDim(source, 'where', 'place'));
  });
});

describe('a copy', () => {
  it('stands right after the part, a little farther along', () => {
    expect(difference(STALL, duplicatePart(source, 'sail'))).toEqual([
      '+  - { name: sail 2, kind: v-fold, at: 30, glue: [60, 60], panels: [68, 68], feet: [25, 25], ridge: 30 }',
    ]);
    expect(duplicatePart(source, 'swing')).toContain('    at: slack * 4 + 10\n');
    for (const name of ['tent', 'sail', 'swing', 'flag', 'arm']) data(duplicatePart(source, name));
  });

  it('is a mirror image where a twin is asked for', () => {
    expect(difference(STALL, twinPart(source, 'arm'))).toContain('+    on: swing right');
    const odd = read(STALL.replace('glue: [60, 60], panels: [68, 68]', 'glue: [60, 50], panels: [68, 58]'));
    expect(twinPart(odd, 'sail')).toContain(
      'name: sail twin, kind: v-fold, at: 20, glue: [50, 60], panels: [58, 68]',
    );
    for (const name of ['tent', 'sail', 'swing', 'arm']) data(twinPart(source, name));
    const paged = read(
      STALL.replace('on: swing left, at: [2, 1], turn: 10', 'on: left page, at: [-50, 20], turn: 10'),
    );
    expect(twinPart(paged, 'arm')).toContain(
      'outline: { polygon: [[-2, -1], [-30, -3], [-30, 3], [-2, 1]] }',
    );
    expect(twinPart(paged, 'arm')).toContain('at: [50, 20]');
  });
});

describe('a number, a dim, a range', () => {
  it('of a part becomes a range by a new dim', () => {
    const { text, dim } = makeRange(source, [['parts', 1, 'ridge']], { from: 20, to: 50 });
    expect(dim).toBe('sail_ridge');
    expect(difference(STALL, text)).toEqual([
      '+  sail_ridge: { from: 20, to: 50, start: 30 }',
      '-  - { name: sail, kind: v-fold, at: 20, glue: [60, 60], panels: [68, 68], feet: [25, 25], ridge: 30 }',
      '+  - { name: sail, kind: v-fold, at: 20, glue: [60, 60], panels: [68, 68], feet: [25, 25], ridge: sail_ridge }',
    ]);
    data(text);
  });

  it('of both sides becomes one dim', () => {
    const { text } = makeDim(source, [
      ['parts', 1, 'feet', 0],
      ['parts', 1, 'feet', 1],
    ]);
    expect(text).toContain('feet: [sail_feet, sail_feet]');
    expect(text).toContain('  sail_feet: 25\n');
    data(text);
  });

  it('of a dim becomes a range in its place, and a range a number', () => {
    const ranged = makeRange(source, [['dims', 'slack']], { from: 5, to: 20 }).text;
    expect(difference(STALL, ranged)).toEqual([
      '-  slack: 12      # how much wider',
      '+  slack: { from: 5, to: 20, start: 12 }      # how much wider',
    ]);
    expect(fixDim(read(ranged), 'slack', 12)).toBe(STALL);
    expect(() => makeRange(source, [['dims', 'slack']], { from: 20, to: 30 })).toThrow(
      'a range that holds 12',
    );
  });

  it('is written out where it was used', () => {
    const text = writeOut(source, 'slack');
    expect(text).toContain('side: foot + 12');
    expect(text).toContain('at: 12 * 4');
    expect(text).not.toContain('how much wider');
    data(text);
    expect(
      writeOut(read(STALL.replace('slack: 12', 'slack: -2').replace('slack * 4', '40')), 'slack'),
    ).toContain('side: foot + (-2)');
    const { text: made } = makeDim(source, [['parts', 1, 'ridge']]);
    expect(writeOut(read(made), 'sail_ridge')).toBe(STALL);
  });

  it('makes a section of dims where there is none', () => {
    const plain =
      '# No dims.\npage: A5\nparts:\n  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [35, 35] }\n';
    const { text } = makeDim(read(plain), [['parts', 0, 'length']]);
    expect(text).toBe(
      plain
        .replace('length: 60', 'length: tent_length')
        .replace('parts:', 'dims:\n  tent_length: 60\n\nparts:'),
    );
    data(text);
  });
});

describe('what is dragged', () => {
  const moved = (path: (string | number)[], value: number) =>
    withNumbers(source, moveNumber(source, path, value).changes);

  it('is the number that is written', () => {
    expect(moved(['parts', 0, 'at'], 44)).toBe(STALL.replace('at: 40 ', 'at: 44 '));
    expect(moved(['parts', 3, 'outline', 'polygon', 2, 1], 11)).toBe(STALL.replace('12.5', '11'));
  });

  it('is the dim where a dim is written, and no farther than its range goes', () => {
    expect(moved(['parts', 0, 'glue', 0], 33)).toBe(STALL.replace('start: 30', 'start: 33'));
    expect(moveNumber(source, ['parts', 0, 'glue', 0], 50)).toEqual({
      changes: [{ path: ['dims', 'foot'], value: 40 }],
      findings: [{ kind: 'range ends', dim: 'foot', from: 20, to: 40 }],
    });
  });

  it('is a dim in the arithmetic, solved for', () => {
    expect(moved(['parts', 2, 'at'], 56)).toBe(STALL.replace('slack: 12', 'slack: 14'));
    expect(() => moved(['parts', 2, 'at'], Number.NaN)).toThrow('no dim in it');
  });

  it('takes along what a fold needs to shut, and says so', () => {
    const ties = tiesOf(source);
    const { changes, findings } = moveTied(ties, source, ['parts', 1, 'glue', 0], 64);
    expect(changes).toEqual([
      { path: ['parts', 1, 'glue', 0], value: 64 },
      { path: ['parts', 1, 'glue', 1], value: 64 },
    ]);
    expect(findings.map(moveInWords).join()).toContain('else it would not shut');
    data(withNumbers(source, changes));
    expect(moveTied(ties, source, ['parts', 1, 'ridge'], 35)).toEqual({
      changes: [{ path: ['parts', 1, 'ridge'], value: 35 }],
      findings: [],
    });
  });

  it('takes it along as far as before from other numbers of the same parts', () => {
    const ties = tiesOf(source);
    const other = read(withNumbers(source, moveTied(ties, source, ['parts', 1, 'glue', 0], 64).changes));
    const now = tiesNow(ties, source, other);
    expect(now && moveTied(now, other, ['parts', 1, 'glue', 0], 63).changes).toEqual([
      { path: ['parts', 1, 'glue', 0], value: 63 },
      { path: ['parts', 1, 'glue', 1], value: 63 },
    ]);
    expect(tiesNow(ties, source, read(removePart(source, 'sail')))).toBeNull();
  });
});

describe('undo', () => {
  it('gives the same bytes after edits of every kind, and redo those again', () => {
    const edits = [
      (text: string) =>
        addPart(read(text), {
          name: 'lamp',
          kind: 'glued-piece',
          on: 'sail left',
          at: [5, 5],
          outline: {
            polygon: [
              [0, 0],
              [4, 0],
              [4, 4],
            ],
          },
        }),
      (text: string) => renamePart(read(text), 'lamp', 'lantern'),
      (text: string) => duplicatePart(read(text), 'lantern'),
      (text: string) => twinPart(read(text), 'lantern'),
      (text: string) => makeRange(read(text), [['parts', 1, 'ridge']], { from: 20, to: 40 }).text,
      (text: string) => renameDim(read(text), 'sail_ridge', 'tall'),
      (text: string) => fixDim(read(text), 'tall', 32),
      (text: string) => writeOut(read(text), 'tall'),
      (text: string) => removePart(read(text), 'sail'),
    ];
    let history = begun(STALL);
    const texts = [STALL];
    for (const edit of edits) {
      const text = edit(textNow(history));
      data(text);
      texts.push(text);
      history = edited(history, text);
    }
    for (const text of texts.slice(0, -1).reverse()) {
      history = undone(history);
      expect(textNow(history)).toBe(text);
    }
    expect(textNow(undone(history))).toBe(STALL);
    for (const text of texts.slice(1)) {
      history = redone(history);
      expect(textNow(history)).toBe(text);
    }
    expect(redone(history)).toEqual(history);
    expect(edited(undone(history), 'else').texts.at(-1)).toBe('else');
  });
});

describe('what is measured on the figure', () => {
  const MEASURED = `page: A5
dims: { low: 20 }
places:
  tip: { on: sail ridge, at: end }
  mid: { on: sail left, at: [low, 5] }
parts:
  - { name: sail, kind: v-fold, at: 60, glue: [60, 60], panels: [68, 68], feet: [30, 30], ridge: 40 }
  - { name: flag, kind: glued-piece, on: sail left, at: mid, outline: [[0, 0], [length(sail ridge) / 8, 0], [0, 4]] }
faces: { sail: back }
`;

  it('follows when a part or a dim is renamed', () => {
    const renamed = renamePart(read(MEASURED), 'sail', 'jib');
    expect(renamed).not.toContain('sail');
    data(renamed);
    const dim = renameDim(read(MEASURED), 'low', 'deep');
    expect(dim).toContain('at: [deep, 5]');
    data(dim);
  });
});
