/** A network that can be cut, between the app and where it is served. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import { onTestFinished } from 'vitest';

export type Cable = {
  readonly address: string;
  /** Nothing comes through any more. */
  readonly cut: () => void;
  /** From now on the app's files come changed. */
  readonly change: (change: (path: string, text: string) => string) => void;
};

/** A server before another one, as a network is before a server. */
export async function cableTo(target: string): Promise<Cable> {
  let isCut = false;
  let change = (_: string, text: string) => text;
  const server: Server = createServer((request, response) => {
    if (isCut) return void request.socket.destroy();
    const path = request.url ?? '/';
    void fetch(new URL(path.slice(1), target)).then(async (answer) => {
      const type = answer.headers.get('content-type') ?? '';
      const bytes = Buffer.from(await answer.arrayBuffer());
      response.writeHead(answer.status, { 'content-type': type });
      response.end(/html|javascript/.test(type) ? change(path, bytes.toString()) : bytes);
    });
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    cut: () => {
      isCut = true;
      server.closeAllConnections();
    },
    change: (next) => {
      change = next;
    },
  };
}

/** The service worker has all of the app's files and answers for them. */
export const isOnDevice = (page: Page) =>
  page.waitForFunction(async () => {
    await navigator.serviceWorker.ready;
    return navigator.serviceWorker.controller?.state === 'activated';
  });
