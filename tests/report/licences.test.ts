import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const read = (file: string) => readFileSync(join(ROOT, file), 'utf8');

/** Heads of the page's sections: package and version. */
const listed = [...read('THIRD-PARTY.md').matchAll(/^## (\S+) (\S+) \((.+)\)$/gm)];

test('the page of licences names what is installed, each with words of its licence', () => {
  expect(listed.length).toBeGreaterThan(20);
  const installed = JSON.parse(read('package-lock.json')).packages;
  for (const [, name, version] of listed) {
    const versions = Object.keys(installed)
      .filter((folder) => folder.endsWith(`node_modules/${name}`))
      .map((folder) => installed[folder].version);
    expect(versions, name).toContain(version);
  }
  // The licences of MIT, ISC, BSD and Boost, by the words with which each begins what it permits.
  const texts = read('THIRD-PARTY.md');
  for (const words of [
    'Permission is hereby granted',
    'Permission to use, copy',
    'Redistribution and use',
    'Boost Software',
  ])
    expect(texts).toContain(words);
});

test('the script of a report carries the licences of what it holds, in a remark at its end', () => {
  const script = read('dist/live.js');
  const [, remark] = /\/\*!\nCode of others in this script:(.*)\n\*\/\n$/s.exec(script) ?? [];
  expect(remark).toBeDefined();
  expect(remark).not.toContain('*/');
  // Trims polygons; reads the figure; draws it.
  for (const name of ['clipper2-ts', 'yaml', 'three']) {
    const [, , version] = listed.find(([, each]) => each === name) ?? [];
    expect(remark).toContain(`\n${name} ${version}\n`);
  }
  expect(remark).toContain('three.js authors');
});
