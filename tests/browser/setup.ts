import type { BrowserServer } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { startChromium } from './chromium';
import { serveBuiltApp } from './serve';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, with a slash at the end. */
    address: string;
    /** Where the Chromiums of the run are reached, one for each worker. */
    chromiums: readonly string[];
  }
}

/** Without the stack: whoever lacks a Chromium needs the sentence, not the way to it. */
const onlyTheSentence = (error: unknown) => {
  if (error instanceof Error) error.stack = '';
  return error;
};

/** Once for all browser tests: one build, one server, and a Chromium for each worker. */
export default async function setUp(project: TestProject) {
  const chromiums: BrowserServer[] = [];
  const closeAll = () => Promise.all(chromiums.map((chromium) => chromium.close()));
  try {
    // One after the other: the first may have to be unpacked.
    for (let worker = 0; worker < project.config.maxWorkers; worker++) {
      chromiums.push(await startChromium());
    }
    const app = await serveBuiltApp();
    project.provide('address', app.address);
    project.provide(
      'chromiums',
      chromiums.map((chromium) => chromium.wsEndpoint()),
    );
    return async () => {
      await closeAll();
      await app.close();
    };
  } catch (error) {
    await closeAll();
    throw onlyTheSentence(error);
  }
}
