/** Licences of the packages whose code a bundle holds: they ask that their notices travel with the code. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const PACKAGE = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/;

/**
 * The packages of which bundles hold code, by name and version.
 * @param root where the package of the program lies
 * @param metafiles what esbuild tells of each bundle, with paths from `root`
 * @returns `{ name, version, license, text }` each; a package without a file of its licence has what its package.json says
 */
export function packagesIn(root, metafiles) {
  const folders = new Set(
    metafiles
      .flatMap(({ outputs }) => Object.values(outputs))
      .flatMap(({ inputs }) => Object.entries(inputs))
      .filter(([file, { bytesInOutput }]) => bytesInOutput > 0 && PACKAGE.test(file))
      .map(([file]) => PACKAGE.exec(file)[0]),
  );
  const packages = new Map();
  for (const folder of folders) {
    const { name, version, license, author } = JSON.parse(readFileSync(join(root, folder, 'package.json')));
    const files = readdirSync(join(root, folder)).filter((file) =>
      /^(licen[cs]e|notice|copying)/i.test(file),
    );
    const text = files.map((file) => readFileSync(join(root, folder, file), 'utf8').trim()).join('\n\n');
    const by = typeof author === 'object' ? author.name : author;
    packages.set(`${name} ${version}`, {
      name,
      version,
      license,
      text:
        text || `It has no file of its licence. Its package.json says: ${license}${by ? `, by ${by}` : ''}.`,
    });
  }
  return [...packages.values()].sort((a, b) => compare(a.name, b.name) || compare(a.version, b.version));
}

const compare = (a, b) => (a < b ? -1 : a > b ? 1 : 0);

/** All of them as a page. */
export function asPage(packages) {
  return `# Code of others

\`npm run build\` puts code of these packages into \`dist/\`, and writes this page. What \`live.js\` holds of them goes into every
report that the program makes, with the licences as a remark at its end.

${packages
  .map(({ name, version, license, text }) => `## ${name} ${version} (${license})\n\n${quoted(text)}\n`)
  .join('\n')}`;
}

const quoted = (text) => text.replace(/^/gm, '    ').replace(/ +$/gm, '');

/** All of them as a remark at the end of a script, which nothing in them can end. */
export function asRemark(packages) {
  const texts = packages.map(({ name, version, text }) => `${name} ${version}\n\n${text}`);
  return `/*!\nCode of others in this script:\n\n${texts.join('\n\n----\n\n').replaceAll('*/', '* /')}\n*/`;
}
