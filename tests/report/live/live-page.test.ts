import { createHash } from 'node:crypto';
import { DOMParser } from 'linkedom';
import { describe, expect, test } from 'vitest';
import { unpacked } from '../../../src/report/live/packed.js';
import { livePage } from '../../../src/report/pages/live-page.js';
import { pageData } from '../../../src/report/pages/page-data.js';
import { NOTHING_MADE, oarsman, smallPage, smallStudy } from './study.js';

const source = oarsman();

describe('the page', () => {
  const data = smallPage(source, 12);
  const page = livePage({
    ...data,
    title: '</script><img src=x onerror=alert(1)>',
    summary: ['<b>not bold</b>'],
  });
  const document = new DOMParser().parseFromString(page, 'text/html');

  test('names only itself: no address of anything else', () => {
    expect(document.querySelectorAll('[src], [href], [action], link, iframe, object, base')).toHaveLength(0);
    const style = document.querySelector('style')?.textContent ?? '';
    expect(/@import|url\(/.test(style)).toBe(false);
  });

  test('lets only its own script and style run, by hashes of just what stands there', () => {
    const policy = document.querySelector('meta[http-equiv]')?.getAttribute('content') ?? '';
    const hash = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
    const script = /<script>([\s\S]*?)<\/script>/.exec(page)?.[1] ?? '';
    const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? '';
    expect(policy).toBe(
      `default-src 'none'; script-src ${hash(script)}; style-src ${hash(style)}; base-uri 'none'; form-action 'none'`,
    );
    expect(script.length).toBeGreaterThan(100_000);
  });

  test('takes hostile words as words', () => {
    expect(document.querySelector('h1')?.textContent).toBe('</script><img src=x onerror=alert(1)>');
    expect(document.querySelectorAll('img, b')).toHaveLength(0);
    expect(document.querySelectorAll('script')).toHaveLength(2);
  });

  test('carries the figure file and every candidate', () => {
    const embedded = JSON.parse(document.querySelector('#data')?.textContent ?? '');
    expect(embedded.figure.text).toBe(source.text);
    expect(unpacked(embedded.candidates)).toEqual(data.candidates);
  });

  test('a figure file that closes the element does not', () => {
    const closing = { ...source, text: `${source.text}\n# </script><script>alert(1)</script><!--` };
    const closed = new DOMParser().parseFromString(livePage({ ...data, figure: closing }), 'text/html');
    expect(closed.querySelectorAll('script')).toHaveLength(2);
    expect(JSON.parse(closed.querySelector('#data')?.textContent ?? '').figure.text).toBe(closing.text);
  });
});

describe('with many candidates', () => {
  test('10,000 fit whole under 8 MB', () => {
    const data = smallPage(source, 10_000, 1_000);
    expect(data.candidates.count).toBe(10_000);
    expect(livePage(data).length).toBeLessThan(8_000_000);
  });

  test('of 25,000 the best are all kept, and the rest thinned evenly', () => {
    const report = smallStudy(source, 25_000, 2_500);
    const { candidates, scored } = pageData(report, source, NOTHING_MADE);
    expect(scored).toBe(25_000);
    expect(candidates.count).toBe(10_000);
    expect([...candidates.rank.subarray(0, 5000)]).toEqual(Array.from({ length: 5000 }, (_, i) => i + 1));
    expect(candidates.rank.at(-1)).toBeGreaterThan(24_900);
    const place = 7000;
    const candidate = candidates.number[place] - 1;
    expect(report.ranking[candidates.rank[place] - 1]).toBe(candidate);
    const dims = report.dims.length;
    expect(candidates.vectors.subarray(place * dims, (place + 1) * dims)).toEqual(
      report.table.vector(candidate),
    );
  });
});
