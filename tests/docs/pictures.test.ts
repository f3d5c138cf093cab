import { expect, it } from 'vitest';
import { patterns } from '../../src/figure/patterns/index.js';
import { partKinds } from '../../src/parts/index.js';
import { partPictures } from './part-pictures.js';
import { pictureFor, type Shown } from './picture.js';

// The pictures of the docs, drawn anew by the kernel: `npx vitest run tests/docs/pictures.test.ts -u` writes them.

it.each(Object.entries(partPictures))(
  'the picture of %s is as the figure file has it',
  async (name, shown) => {
    await expect(pictureFor(name.replaceAll('-', ' '), shown)).toMatchFileSnapshot(
      `../../docs/pictures/${name}.svg`,
    );
  },
);

it('there is one for each kind of part', () => {
  const shown = Object.values(partPictures)
    .map(({ text }) => text)
    .join('\n');
  for (const kind of Object.keys(partKinds)) {
    expect(
      Object.keys(partPictures).some((name) => name === kind || name.startsWith(`${kind}-`)),
      kind,
    ).toBe(true);
    expect(shown).toContain(`kind: ${kind}`);
  }
});

/** Patterns of which more is seen from elsewhere than the usual place. */
const SEEN: Readonly<Record<string, Pick<Shown, 'pageAngle' | 'eye'>>> = {
  'arm-on-counter-fold': { pageAngle: 130, eye: { aside: 0.15, down: 0.2 } },
  'arm-through-slot': { pageAngle: 100, eye: { aside: -0.2, down: 0.6 } },
  'limb-on-hubs': { pageAngle: 140, eye: { aside: 0.15, down: 1 } },
  'toes-in-a-slit': { pageAngle: 140, eye: { aside: 0.15, down: 1 } },
  'cover-over-hub': { pageAngle: 140, eye: { aside: 0.15, down: 1 } },
};

it.each(patterns)('the picture of the pattern $name is how it stands', async ({ name, about, text }) => {
  const picture = pictureFor(about, { text, ...SEEN[name] });
  await expect(picture).toMatchFileSnapshot(`../../docs/pictures/pattern-${name}.svg`);
});
