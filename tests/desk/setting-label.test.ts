import { expect, it } from 'vitest';
import { settingLabel } from '../../src/desk/page/setting-label.js';

it('calls numbers of a part by sides, corners, ends, and how far along and up', () => {
  for (const [path, label] of [
    ['panels.0', 'panels left'],
    ['glue.1', 'glue right'],
    ['at', 'at'],
    ['at.0', 'at along'],
    ['tab.width', 'tab width'],
    ['size.1', 'size up'],
    ['outline.polygon.2.1', 'corner 3 up'],
    ['outline.5.far', 'corner 6 far'],
    ['outline.holes.0.3.0', 'hole 1 corner 4 along'],
    ['outlines.left.polygon.2.at.1', 'left corner 3 at up'],
    ['outlines.left.1.0', 'left corner 2 along'],
    ['supports.1.line.0.1', 'hinge 2 start up'],
    ['slit.line.1.far', 'slit end far'],
    ['slit.line.from.0', 'slit from along'],
    ['outline.around.1.at.0', 'around 2 at along'],
  ])
    expect([path, settingLabel(`man.${path}`, 'man')]).toEqual([path, label]);
  expect(settingLabel('far_at', '')).toBe('far_at');
});
