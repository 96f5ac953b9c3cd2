import { defineConfig } from 'vitest/config';
import type { Reporter, TestModule, TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/** Closes the run with one plain line that any reader of the log can count on. */
const closingLine: Reporter = {
  onTestRunEnd(modules: readonly TestModule[]) {
    let passed = 0;
    let failed = 0;
    for (const module of modules)
      for (const test of module.children.allTests()) {
        if (test.result().state === 'passed') passed += 1;
        if (test.result().state === 'failed') failed += 1;
      }
    process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
  },
};

/** Tests of several minutes: by itself the runner starts the shortest files last, and these are short to read. */
const LONG = /every-fault-[a-z]+-true|walks-any-step|telegram-kill/;

/** The long tests first: one that starts last keeps the other cores idle. */
class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isLong = ({ moduleId }: TestSpecification): boolean => LONG.test(moduleId);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 120_000,
    // All cores: by itself the runner leaves one free, which on two cores doubles the time.
    maxWorkers: '100%',
    sequence: { sequencer: LongFirst },
    reporters: ['default', closingLine],
  },
});
