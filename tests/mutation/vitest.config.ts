import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/unit/{water,surface}/**/*.test.ts'],
    environment: 'node',
    testTimeout: 30_000,
    isolate: false,
  },
});
