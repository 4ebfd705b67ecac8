import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { preview } from 'vite';
import { ROOT } from '../serve';

export type ServedPage = { readonly address: string; readonly close: () => Promise<void> };

/**
 * Builds a page of the tests' own, a folder here with an index.html, as the app
 * is built, and serves it on a free port.
 */
export async function servePage(name: string): Promise<ServedPage> {
  const root = join(ROOT, 'tests', 'browser', 'pages', name);
  const folder = mkdtempSync(join(tmpdir(), `downgradient-${name}-`));
  const discard = () => rmSync(folder, { recursive: true, force: true });
  try {
    await build(root, folder);
    const server = await preview({
      configFile: false,
      root,
      logLevel: 'warn',
      build: { outDir: folder },
      preview: { host: '127.0.0.1', port: 0, open: false },
    });
    const [address] = server.resolvedUrls?.local ?? [];
    if (!address) throw new Error(`The page ${name} is served at no address.`);
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
}

/** In a process of its own: a test run sets variables the build heeds. */
function build(root: string, folder: string): Promise<void> {
  const environment = { ...process.env, NODE_ENV: 'production' };
  for (const name of Object.keys(environment))
    if (name.startsWith('VITEST')) delete environment[name as 'TZ'];
  const vite = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');
  const config = join(ROOT, 'vite.config.ts');
  const building = spawn(
    process.execPath,
    [vite, 'build', root, '--config', config, '--logLevel', 'warn', '--outDir', folder],
    { cwd: ROOT, env: environment, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let printed = '';
  building.stdout.on('data', (text: Buffer) => (printed += text.toString()));
  building.stderr.on('data', (text: Buffer) => (printed += text.toString()));
  return new Promise((resolve, reject) => {
    building.on('error', reject);
    building.on('close', (code) => {
      if (code === 0) resolve();
      else reject(new Error(`The page in ${root} does not build.\n${printed}`));
    });
  });
}
