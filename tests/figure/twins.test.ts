import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { settingsOf } from '../../src/tune/settings.js';
import { refusal } from './support.js';

const TEXT = `page: A5
parts:
  - { name: near, kind: v-fold, at: 60, glue: 60, panels: 64, feet: 30, ridge: 40 }
  - { name: far, twin of: near, at: 120 }
`;

describe('a twin', () => {
  it('has all of the other part but for what it gives itself', () => {
    const figure = compileFigure(parseFigure(TEXT, 'x.yaml'));
    const { panels, open } = figure.build(figure.start);
    const at = (name: string) => panels.findIndex((panel) => panel.name === name);
    expect(panels[at('far left')].outline).toEqual(panels[at('near left')].outline);
    expect(open[12 * at('far left') + 7] - open[12 * at('near left') + 7]).toBe(60);
  });

  it('is changed with the other part by tune, but for what it gives itself', () => {
    const source = parseFigure(TEXT, 'x.yaml');
    const names = settingsOf(source, compileFigure(source)).map(({ name }) => name);
    expect(names.filter((name) => name.startsWith('far.'))).toEqual(['far.at']);
    expect(names).toContain('near.ridge');
  });

  it('of a part that comes later, or of another kind, is refused', () => {
    const read = (text: string) => () => compileFigure(parseFigure(text, 'x.yaml'));
    expect(refusal(read(TEXT.replace('of: near', 'of: nera')))).toMatch(
      /parts\.1\.twin of: found 'nera'; name a part before it; did you mean 'near'\?/,
    );
    expect(refusal(read(TEXT.replace('at: 120', 'kind: plate')))).toMatch(
      /leave it out: a twin is of the same kind/,
    );
  });
});
