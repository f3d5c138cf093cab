import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { COMPILE_LATE } from './tests/support/compile-late.js';

/** Those that take longest, longest first: begun last, they would go on alone when all others are done. */
const LONGEST = [
  'browser/desk',
  'tune/broken-figures',
  'docs/commands',
  'cli/tune',
  'cli/tolerance',
  'sheets/fold-back',
];

class LongestFirst extends BaseSequencer {
  async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const found = LONGEST.findIndex((name) => moduleId.includes(`/tests/${name}.`));
      return found < 0 ? LONGEST.length : found;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}

export default defineConfig({
  test: {
    setupFiles: ['tests/seed.ts'],
    // No test is timed: the limits only end what hangs, on however slow and busy a machine.
    testTimeout: 240_000,
    hookTimeout: 240_000,
    expect: { poll: { timeout: 60_000 } },
    // Nothing here keeps a state of its own, so that test files can share what has been loaded.
    isolate: false,
    sequence: { sequencer: LongestFirst },
    maxWorkers: 4,
    // Much garbage is made between two scores: a larger heap for what is young is swept less often, 5 % less processor time.
    execArgv: [COMPILE_LATE, '--max-semi-space-size=64'],
  },
});
