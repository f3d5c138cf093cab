import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { offersIn } from '../../src/desk/offers.js';
import { STALL } from '../edit/support.js';

it('a remedy is taken over without the remarks that were put before it, and with all of the file that are its own', () => {
  const results = mkdtempSync(join(tmpdir(), 'offers-'));
  mkdirSync(join(results, 'remedies'));
  const own = `# A stall of our own.\n${STALL}`;
  const remarks = ['# Remedy 1 for stall.yaml, by dummyrun tune: foot 30 → 28 mm.'];
  const costs = "# It costs: 'tent left' loses 5 mm².";
  const moves = '# In motion: it rises 20.00 mm (as before). Page: works, 0.2 N.';
  for (const heading of [
    [...remarks, costs, moves, '# Cut by hand, 97 of 100 dummies work.'],
    [...remarks, moves],
  ]) {
    writeFileSync(join(results, 'remedies', 'remedy-1.yaml'), `${heading.join('\n')}\n#\n${own}`);
    const [offer] = offersIn('tune', { file: '', results, kept: null });
    expect(offer.title).toBe('Remedy 1: foot 30 → 28 mm');
    expect(offer.text).toBe(own);
    expect(offer.about).toBe(
      heading
        .slice(1)
        .map((line) => line.slice(2))
        .join(' '),
    );
  }
});
