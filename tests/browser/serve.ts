import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export type ServedApp = { readonly address: string; readonly close: () => Promise<void> };

/** In a process of its own, as `npm start` does it: a test run sets variables the build heeds. */
const build = (root: string, folder: string): Promise<void> => {
  const environment = { ...process.env, NODE_ENV: 'production' };
  for (const name of Object.keys(environment)) {
    if (/^VITEST/.test(name)) delete environment[name as 'TZ'];
  }
  const building = spawn(
    process.execPath,
    [
      join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js'),
      'build',
      root,
      '--config',
      join(ROOT, 'vite.config.ts'),
      '--logLevel',
      'warn',
      '--outDir',
      folder,
    ],
    { cwd: ROOT, env: environment, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let printed = '';
  building.stdout.on('data', (text: Buffer) => (printed += text.toString()));
  building.stderr.on('data', (text: Buffer) => (printed += text.toString()));
  return new Promise((resolve, reject) => {
    building.on('error', reject);
    building.on('close', (code) => {
      if (code === 0) resolve();
      else reject(new Error(`${root} does not build.\n${printed}`));
    });
  });
};

/** Builds what stands in a folder as the app is built, into a temporary one, and serves it on a free port. */
export const serveBuilt = async (
  root: string,
  { configFile }: { readonly configFile?: false } = {},
): Promise<ServedApp> => {
  const folder = mkdtempSync(join(tmpdir(), 'downgradient-'));
  const discard = () => rmSync(folder, { recursive: true, force: true });
  try {
    await build(root, folder);
    const server = await preview({
      ...(configFile === undefined ? {} : { configFile }),
      root,
      logLevel: 'warn',
      build: { outDir: folder },
      preview: { host: '127.0.0.1', port: 0, open: false },
    });
    const [address] = server.resolvedUrls?.local ?? [];
    if (!address) throw new Error(`What was built of ${root} is served at no address.`);
    return {
      address,
      close: async () => {
        await server.close();
        discard();
      },
    };
  } catch (error) {
    discard();
    throw error;
  }
};

/** The app as it ships. */
export const serveBuiltApp = () => serveBuilt(ROOT);
