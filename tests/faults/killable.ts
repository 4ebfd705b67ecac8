/** A browser that can be killed as by a battery pulled, and started again on the same profile. */
import { spawn, type ChildProcess } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { chromium, type Browser, type Page } from 'playwright-core';
import type { Program } from '../browser/chromium';

export type Running = {
  readonly process: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
};

const READY = /DevTools listening on (ws:\/\/\S+)/;
const STARTS_WITHIN = 30_000;

/** A browser of our own, so that its processes can be killed; it keeps its profile in a folder. */
export async function startOn(
  program: Program,
  profile: string,
  address: string,
): Promise<Running> {
  const environment = { ...process.env, ...program.environment };
  const child = spawn(
    program.path,
    [
      '--headless',
      '--no-sandbox',
      '--no-first-run',
      '--disable-gpu',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank',
    ],
    { env: environment, stdio: ['ignore', 'ignore', 'pipe'], detached: true },
  );
  const endpoint = await new Promise<string>((resolve, reject) => {
    let said = '';
    const late = setTimeout(() => reject(new Error(`The browser said:\n${said}`)), STARTS_WITHIN);
    child.stderr?.on('data', (text: Buffer) => {
      said += text.toString();
      const found = READY.exec(said)?.[1];
      if (found === undefined) return;
      clearTimeout(late);
      resolve(found);
    });
    child.on('error', reject);
    child.on('exit', () => reject(new Error(`The browser ended:\n${said}`)));
  });
  const browser = await chromium.connectOverCDP(endpoint);
  const [context] = browser.contexts();
  const page = await context?.newPage();
  if (!page) throw new Error('The browser opens no page.');
  await page.goto(address);
  return { process: child, browser, page };
}

/** All processes of a browser at once; some of them leave its group, where /proc tells of them. */
export async function kill({ process: child, browser }: Running, profile: string): Promise<void> {
  const gone = new Promise((resolve) => child.once('exit', resolve));
  if (process.platform === 'win32') child.kill('SIGKILL');
  else if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  for (const pid of processesNaming(profile)) {
    try {
      process.kill(pid, 'SIGKILL');
    } catch {
      // it was of the group
    }
  }
  if (child.exitCode === null && child.signalCode === null) await gone;
  await browser.close().catch(() => undefined);
}

function processesNaming(profile: string): number[] {
  if (process.platform !== 'linux') return [];
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((name) => {
      try {
        return readFileSync(`/proc/${name}/cmdline`, 'utf8').includes(profile);
      } catch {
        return false; // it has ended
      }
    })
    .map(Number);
}
