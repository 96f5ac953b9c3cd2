import { defineConfig } from 'vitest/config';
import type { Reporter, TestModule } from 'vitest/node';

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

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 120_000,
    // All cores: by itself the runner leaves one free, which on two cores doubles the time.
    maxWorkers: '100%',
    reporters: ['default', closingLine],
  },
});
