import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { EarlyPage } from '../../src/cli/early-page.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { beginStudy } from '../../src/study/explore.js';
import { inFolder } from '../../src/study/folder.js';
import { Layout } from '../../src/study/row.js';
import { StudyTable } from '../../src/study/table.js';
import { folderWith, TENT } from './support.js';

const source = parseFigure(TENT, 'tent.yaml');
const figure = compileFigure(source);

test('a study that goes on has a page that says what is there and what is missing, and is written again', async () => {
  const path = join(folderWith({}), 'out');
  await inFolder(path, async (folder) => {
    const study = await beginStudy(folder, source, figure, { samples: 40, search: 'samples' }, false);
    if ('works' in study) throw new Error('it has only begun');
    const scorer = new Scorer(figure);
    const layout = new Layout(scorer.score(figure.start));
    const table = new StudyTable(figure.free.length, layout);
    const add = (...vector: number[]) =>
      table.add({
        stage: 'sample',
        vector: Float64Array.from(vector),
        row: layout.rowOf(scorer.score(Float64Array.from(vector))),
      });
    const words = () => readFileSync(join(path, 'report.html'), 'utf8').replace(/\s+/g, ' ');

    let firsts = 0;
    const page = new EarlyPage(study, () => firsts++, 0);

    add(35, 80, 0);
    add(40, 60, 1);
    page.scoring(table, layout);
    expect(words()).toContain('Under way, with 2 of 40 dummies scored so far');
    expect(words()).toContain('"underWay":true');
    expect(words()).toContain('Not measured yet.');

    // Not again at once: the threads that score wait for it.
    rmSync(join(path, 'report.html'));
    page.scoring(table, layout);
    expect(() => words()).toThrow('ENOENT');

    page.measuring(table, layout);
    expect(words()).toContain('all 2 dummies are scored and ranked');
    const works = { share: 0.5, low: 0.3, high: 0.7, count: 5, of: 10 };
    page.measuring(table, layout, [{ candidate: 1, works, sound: works, expected: 0.9 }]);
    expect(words()).toContain('the best ranked by how they come out when cut by hand');
    expect(words()).toMatch(/<th scope="row">1<\/th><td>2<\/td><td>[\d.]+<\/td><td>50<\/td>/);
    expect(firsts).toBe(1);
    study.log.close();
  });
});

test('where the page cannot be written, the study goes on', async () => {
  const path = join(folderWith({}), 'out');
  await inFolder(path, async (folder) => {
    const study = await beginStudy(folder, source, figure, { samples: 40 }, false);
    if ('works' in study) throw new Error('it has only begun');
    mkdirSync(join(path, 'report.html'));
    const scorer = new Scorer(figure);
    const layout = new Layout(scorer.score(figure.start));
    const table = new StudyTable(figure.free.length, layout);
    table.add({ stage: 'sample', vector: figure.start, row: layout.rowOf(scorer.score(figure.start)) });
    new EarlyPage(study, () => expect.unreachable(), 0).scoring(table, layout);
    study.log.close();
  });
});

test('a study that is over within seconds has none', async () => {
  const path = join(folderWith({}), 'out');
  await inFolder(path, async (folder) => {
    const study = await beginStudy(folder, source, figure, { samples: 40 }, false);
    if ('works' in study) throw new Error('it has only begun');
    const layout = new Layout(new Scorer(figure).score(figure.start));
    const page = new EarlyPage(study, () => expect.unreachable());
    page.scoring(new StudyTable(figure.free.length, layout), layout);
    page.measuring(new StudyTable(figure.free.length, layout), layout);
    study.log.close();
  });
});
