import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { partKinds } from '../../src/parts/index.js';
import { Scorer } from '../../src/score/scorer.js';

const docs = readFileSync(new URL('../../docs/figure-file.md', import.meta.url), 'utf8');
const examples = [...docs.matchAll(/^```yaml\n(.*?)^```$/gms)].map(([, yaml]) => yaml);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'docs-'));
  writeFileSync(
    join(folder, 'keel.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60">
      <path id="keel" d="M 10 40 c 10 10 30 10 40 0 v -20 h -40 z"/></svg>`,
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('the first figure', () => {
  const page = readFileSync(new URL('../../docs/first-figure.md', import.meta.url), 'utf8');
  const steps = [...page.matchAll(/^```yaml\n(.*?)^```$/gms)].map(([, yaml]) => yaml);

  it.each(steps.map((yaml, i) => [i + 1, yaml] as const))('works at step %d', (_, yaml) => {
    const figure = compileFigure(parseFigure(yaml, 'mine.yaml'));
    expect(new Scorer(figure).score(figure.start).works).toBe(true);
  });

  it('cannot open with less card than its glue lines need, as the page says', () => {
    const figure = compileFigure(parseFigure(steps[0].replace('panels: 70', 'panels: 50'), 'mine.yaml'));
    expect(new Scorer(figure).score(figure.start).works).toBe(false);
  });
});

describe('the docs of the figure file', () => {
  it.each(examples.map((yaml, i) => [i + 1, yaml] as const))(
    'have an example %d that can be built',
    (i, yaml) => {
      const path = join(folder, `example-${i}.yaml`);
      writeFileSync(path, yaml);
      const figure = compileFigure(readFigure(path));
      expect(figure.build(figure.start).panels.length).toBeGreaterThan(2);
      expect(figure.wantsOf(figure.start)).toHaveLength(figure.wants.length);
    },
  );

  it('have an example of an error that is what comes out', () => {
    const path = join(folder, 'ferry.yaml');
    writeFileSync(path, examples[0].replace('glue: [lean, lean]', 'glue: [laen, lean]'));
    const shown = /^ferry\.yaml:.*$/m.exec(docs)?.[0] ?? 'nothing';
    expect(() => compileFigure(readFigure(path))).toThrow(shown);
  });

  it('tell every field of every kind of part', () => {
    for (const { kind, fields } of Object.values(partKinds)) {
      const section = docs.split(`### ${kind}\n`)[1]?.split(/^##/m)[0] ?? '';
      const told = [...section.matchAll(/^\| (`.*?) \|/gm)].flatMap(([, cell]) => [
        ...cell.matchAll(/`(\w+)`/g),
      ]);
      expect(fields).toBeInstanceOf(z.ZodObject);
      if (fields instanceof z.ZodObject)
        expect(told.map(([, name]) => name).sort(), kind).toEqual(Object.keys(fields.shape).sort());
    }
  });

  it('tell every limit with its default', () => {
    const figure = compileFigure(parseFigure(examples[1], 'x.yaml'));
    const section = docs.split('## Limits\n')[1].split(/^##/m)[0];
    for (const [name, value] of Object.entries(figure.limits))
      expect(section).toMatch(new RegExp(`^\\| \`${name}\` \\|.*\\| ${value}( mm²?|°| N| %)? \\|$`, 'm'));
  });
});
