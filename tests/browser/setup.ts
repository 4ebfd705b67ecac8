import type { TestProject } from 'vitest/node';
import { startChromium } from './chromium';
import { serveBuiltApp } from './serve';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, with a slash at the end. */
    address: string;
    /** Where the one Chromium of the run is reached. */
    chromium: string;
  }
}

/** Without the stack: whoever lacks a Chromium needs the sentence, not the way to it. */
const onlyTheSentence = (error: unknown) => {
  if (error instanceof Error) error.stack = '';
  return error;
};

/** Once for all browser tests: one Chromium, one build, one server. */
export default async function setUp(project: TestProject) {
  const chromium = await startChromium().catch((error: unknown) => {
    throw onlyTheSentence(error);
  });
  try {
    const app = await serveBuiltApp();
    project.provide('address', app.address);
    project.provide('chromium', chromium.wsEndpoint());
    return async () => {
      await chromium.close();
      await app.close();
    };
  } catch (error) {
    await chromium.close();
    throw onlyTheSentence(error);
  }
}
