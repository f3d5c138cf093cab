import fc from 'fast-check';
import { parseHTML } from 'linkedom';
import { expect, test } from 'vitest';
import { html, trusted } from '../../../src/report/pages/html.js';

test('whatever is put in comes back as text through a parser (linkedom), in content and in attributes', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      const { document } = parseHTML(html`<html><body><p title="${text}">${text}</p></body></html>`.text);
      const [p] = document.querySelectorAll('p');
      expect(document.body.children.length).toBe(1);
      expect(p.textContent).toBe(text);
      expect(p.getAttribute('title')).toBe(text);
    }),
  );
});

test.each(['<script>alert(1)</script>', '"><img src=x onerror=alert(1)>', "' onload='alert(1)", '</style>'])(
  '%s stays text',
  (text) => {
    expect(html`<p title="${text}">${text}</p>`.text).not.toMatch(/<(script|img)|="[^"]*" on|<\/style/);
  },
);

test('controls and marks that turn the direction of reading are replaced', () => {
  expect(html`${'a\u0000b\u202ec'}`.text).toBe('a\ufffdb\ufffdc');
});

test('what is HTML already is put in as it is, and lists one after the other', () => {
  expect(html`<ul>${['<', '>'].map((each) => html`<li>${each}</li>`)}</ul>${trusted('<hr>')}`.text).toBe(
    '<ul><li>&lt;</li><li>&gt;</li></ul><hr>',
  );
});
