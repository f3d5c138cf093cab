import { expect, it } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
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
    /'b: 2' indented by 1 blank; line 2, 'a: 1', belongs to fields that are indented by 2/,
  ],
  ['parts:\n  - name: a\n     kind: b\n', /'kind: b' indented by 5 blanks; line 2, .* indented by 4/],
])(
  'a line that is indented wrongly is told with the line above that it does not follow: %j',
  (text, told) => {
    expect(refusal(() => parseFigure(text, 'x'))).toMatch(told);
  },
);

const MAN = 'parts:\n  - name: man\n    kind: v-fold\n';

it.each([
  [
    `${MAN} - name: far\n   twin of: man\n`,
    /x:4:2 {2}found '- name: far' indented by 1 blank; line 2, '- name: man', belongs to a list whose dashes are indented by 2: indent this one by 2/,
  ],
  [
    `${MAN}      at: 60\n`,
    /x:4:7 {2}found 'at: 60' indented by 6 blanks; line 3, 'kind: v-fold', .* indented by 4/,
  ],
  [
    'parts:\n  - name: man\n  kind: v-fold\n    at: 60\n',
    /x:3:3 {2}found 'kind: v-fold' indented by 2 blanks; line 2, '- name: man', belongs to a list entry whose fields are indented by 4/,
  ],
  [
    `${MAN}    at 60\n    feet: 30\n`,
    /x:4:5 {2}found 'at 60', which has no colon with a blank behind it; write it as 'at: …'/,
  ],
  [`${MAN}    at:60\n    feet: 30\n`, /x:4:5 {2}found 'at:60', which has no colon/],
  [
    'parts:\n  - { name: man, glue: [60, 60 }\n  - { name: far }\n',
    /x:2:32 {2}found '}' where the '\[' of line 2, column 24 is still open; close that with '\]' first/,
  ],
  [
    "parts:\n  - { name: 'm}an', # the one }\n      glue: [60, 60]\n  - { name: far }\n",
    /x:2:5 {2}found '{', which is not closed; close it with '}'/,
  ],
  [
    'dims:\n  a: from: 5, to: 9 } # a range\n',
    /x:2:21 {2}found '}', before which nothing was opened; open it with '{' before, or take it out/,
  ],
  [
    'dims:\n  a { from: 5, to: 9 }\n  b: 1\n',
    /x:2:3 {2}found 'a { from: 5, to: 9 }', which has no colon .* 'a: …'/,
  ],
  [
    'parts:\n- { name: a }\n  - { name: b }\n',
    /x:3:3 {2}found '- { name: b }' indented by 2 blanks; line 2, '- { name: a }', belongs to a list whose dashes are indented by 0: indent this one by 0/,
  ],
  // Any other slip is told as YAML has it.
  ['parts: "a\n', /what YAML cannot read/],
  [`${MAN}    at: 60: 7\n`, /put text that holds a colon in quotes/],
])('other slips are told where they are: %j', (text, told) => {
  expect(refusal(() => parseFigure(text, 'x'))).toMatch(told);
});

it('long lines and deep ones are looked at once', () => {
  for (const line of ['a {'.repeat(90_000), ' a'.repeat(90_000), 'a'.repeat(900_000), `- ${'- '.repeat(20)}`])
    expect(refusal(() => parseFigure(`dims:\n  a: 1\n ${line}\n`, 'x'))).toMatch(/found/);
});

it.each([
  [
    'page: A5\nplaces:\nhip: { on: man, at: [1, 2] }\nparts: []\n',
    /hip: found the field 'hip'; indent it more if it belongs to 'places', which has nothing yet; the fields are: figure/,
  ],
  [
    `page: A5\n${MAN}    at: 60\n    glue: 60\n    feet: 30\n    ridge: 40\n    outlines:\n    left: [[0, 0], [9, 0], [9, 9]]\n`,
    /found the field 'left'; indent it more if it belongs to 'outlines', which has nothing yet/,
  ],
  [
    'page: A5\nparts: [{ name: man, kind: v-fold, at: 60,5, glue: 60, feet: 30, ridge: 40 }]\n',
    /found the field '5'; write decimals with a point: 60\.5/,
  ],
  ['page: A5\nparts:\n  name: man\n  kind: v-fold\n', /give a list: each entry begins with '- name: …'/],
])('what can be read but stands in the wrong place is told as well: %j', (text, told) => {
  expect(refusal(() => compileFigure(parseFigure(text, 'x')))).toMatch(told);
});
