import { expect, it } from 'vitest';
import { parseFigure } from '../../../src/figure/text/source.js';
import { refusal } from '../support.js';

it.each([
  [
    'parts:\n  - name: a\n    kind: b\n   at: 3\n',
    /x:4:\d+ {2}found 'at: 3' indented by 3 blanks; line 3, 'kind: b', .* indented by 4/,
  ],
  [
    'parts:\n  - name: a\n  kind: b\n',
    /'kind: b' indented by 2 blanks; line 2, '- name: a', belongs to a list entry whose fields are indented by 4/,
  ],
  [
    'dims:\n  a: 1\n b: 2\n',
    /'b: 2' indented by 1 blanks; line 2, 'a: 1', belongs to fields that are indented by 2/,
  ],
  ['parts:\n  - name: a\n     kind: b\n', /'kind: b' indented by 5 blanks; line 2, .* indented by 4/],
])(
  'a line that is indented wrongly is told with the line above that it does not follow: %j',
  (text, told) => {
    expect(refusal(() => parseFigure(text, 'x'))).toMatch(told);
  },
);
