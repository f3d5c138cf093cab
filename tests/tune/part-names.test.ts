import { expect, test } from 'vitest';
import { partsNamedIn } from '../../src/tune/part-names.js';

const PARTS = ['boat', 'boat sail', "jay's wing", 'wing: tip'];

test.each([
  ["'boat left' sticks out", ['boat']],
  ["'boat sail left' is glued where 'boat' slides", ['boat sail', 'boat']],
  ["'jay's wing left' and 'wing: tip' do not meet", ["jay's wing", 'wing: tip']],
  ["'boathouse' lies on the boat's page", []],
])('parts are found in %j by their names, quotes within these and all', (sentence, parts) => {
  expect(partsNamedIn(sentence, PARTS)).toEqual(parts);
});
