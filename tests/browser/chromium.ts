/**
 * A Chromium for the browser tests, in this order: the one named by $CHROMIUM,
 * one installed on the machine, on Linux the one in the npm package
 * @sparticuz/chromium, and the browser library's own download. The first that
 * starts is used; a machine that has none is told what to install.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type BrowserServer } from 'playwright-core';

type Environment = Readonly<Record<string, string | undefined>>;

/** A browser's program file and the environment it needs beside the usual one. */
export type Program = { readonly path: string; readonly environment: Environment };

/** What the search asks of the machine. */
export type Machine = {
  readonly platform: NodeJS.Platform;
  readonly environment: Environment;
  readonly exists: (path: string) => boolean;
  /** The browser inside the npm package, unpacked, or null where there is none. */
  readonly packaged: () => Promise<Program | null>;
  /** The browser library's own download, fetched when it is not there yet; null if it cannot be. */
  readonly downloaded: () => Promise<Program | null>;
};

export const NO_CHROMIUM =
  'The browser tests need a Chromium: install Chromium, Chrome or Edge (on Debian or Ubuntu: apt-get install chromium), or put the path of one in the environment variable CHROMIUM.';

const NAMES_ON_LINUX = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
];

const installedPaths = ({ platform, environment }: Machine): string[] => {
  if (platform === 'darwin') {
    const names = ['Google Chrome', 'Chromium', 'Microsoft Edge'];
    return ['', environment.HOME ?? ''].flatMap((home) =>
      names.map((name) => `${home}/Applications/${name}.app/Contents/MacOS/${name}`),
    );
  }
  if (platform === 'win32') {
    const homes = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'];
    const programs = [
      'Google\\Chrome\\Application\\chrome.exe',
      'Chromium\\Application\\chrome.exe',
      'Microsoft\\Edge\\Application\\msedge.exe',
    ];
    return homes
      .map((home) => environment[home])
      .filter((home) => home !== undefined)
      .flatMap((home) => programs.map((program) => `${home}\\${program}`));
  }
  const onPath = (environment.PATH ?? '').split(':').filter(Boolean);
  const folders = [...new Set([...onPath, '/usr/local/bin', '/usr/bin', '/snap/bin'])];
  return NAMES_ON_LINUX.flatMap((name) => folders.map((folder) => `${folder}/${name}`));
};

/** Tries each Chromium in order and returns what `start` makes of the first that starts. */
export async function firstThatStarts<Started>(
  machine: Machine,
  start: (program: Program) => Promise<Started>,
): Promise<Started> {
  const named = machine.environment.CHROMIUM;
  if (named) {
    if (!machine.exists(named)) {
      throw new Error(`The environment variable CHROMIUM names ${named}, which is not there.`);
    }
    return start({ path: named, environment: {} });
  }
  const failures: string[] = [];
  const attempt = async (program: Program): Promise<Started | null> => {
    try {
      return await start(program);
    } catch (error) {
      const [firstLine] = String(error).split('\n');
      failures.push(`${program.path} did not start (${firstLine}).`);
      return null;
    }
  };
  for (const path of installedPaths(machine).filter(machine.exists)) {
    const started = await attempt({ path, environment: {} });
    if (started) return started;
  }
  const packaged = machine.platform === 'linux' ? [machine.packaged] : [];
  for (const obtain of [...packaged, machine.downloaded]) {
    const program = await obtain();
    const started = program && (await attempt(program));
    if (started) return started;
  }
  throw new Error([NO_CHROMIUM, ...failures].join('\n'));
}

const PACKAGES = fileURLToPath(new URL('../../node_modules', import.meta.url));
const packageFolder = (name: string) => join(PACKAGES, ...name.split('/'));

/** Letters for machines without fonts, and the same letters on all of them. */
const ourFonts = (): Environment => {
  const folder = join(tmpdir(), 'downgradient-fonts');
  mkdirSync(folder, { recursive: true });
  const file = join(folder, `fonts-${process.pid}.conf`);
  writeFileSync(
    file,
    `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${join(packageFolder('dejavu-fonts-ttf'), 'ttf')}</dir>
  <cachedir>${join(folder, 'cache')}</cachedir>
  <alias><family>sans-serif</family><prefer><family>DejaVu Sans</family></prefer></alias>
  <alias><family>serif</family><prefer><family>DejaVu Serif</family></prefer></alias>
  <alias><family>monospace</family><prefer><family>DejaVu Sans Mono</family></prefer></alias>
</fontconfig>
`,
  );
  return { FONTCONFIG_FILE: file };
};

/**
 * Unpacks the packaged Chromium once, beside the installed packages. The
 * package unpacks into the temporary folder and trusts whatever "chromium" it
 * finds there, so it is given an empty one, renamed when complete.
 */
const unpackedChromium = async (): Promise<Program | null> => {
  if (process.arch !== 'x64') return null; // the package holds no other
  const packaged = packageFolder('@sparticuz/chromium');
  const { version } = JSON.parse(readFileSync(join(packaged, 'package.json'), 'utf8')) as {
    version: string;
  };
  const kept = join(PACKAGES, '.cache', `chromium-${version}`);
  if (!existsSync(kept)) {
    const unpacking = `${kept}-unpacking-${process.pid}`;
    mkdirSync(unpacking, { recursive: true });
    const before = { ...process.env };
    try {
      process.env.TMPDIR = unpacking;
      // Without this it leaves out the system libraries a bare machine lacks.
      process.env.AWS_LAMBDA_JS_RUNTIME = 'nodejs20.x';
      const { default: packagedChromium } = await import('@sparticuz/chromium');
      await packagedChromium.executablePath();
    } finally {
      for (const name of Object.keys(process.env)) {
        if (!(name in before)) delete process.env[name];
      }
      Object.assign(process.env, before);
    }
    try {
      renameSync(unpacking, kept);
    } catch (error) {
      rmSync(unpacking, { recursive: true, force: true });
      if (!existsSync(kept)) throw error; // another run was faster
    }
  }
  const libraries = [join(kept, 'al2023', 'lib'), process.env.LD_LIBRARY_PATH];
  return {
    path: join(kept, 'chromium'),
    environment: { LD_LIBRARY_PATH: libraries.filter(Boolean).join(':') },
  };
};

const ownDownload = (): Program | null => {
  const path = chromium.executablePath();
  if (!existsSync(path)) {
    const cli = join(packageFolder('playwright-core'), 'cli.js');
    console.log('No Chromium on this machine: fetching one.');
    spawnSync(process.execPath, [cli, 'install', '--no-shell', 'chromium'], {
      stdio: 'inherit',
      timeout: 300_000,
    });
  }
  return existsSync(path) ? { path, environment: {} } : null;
};

export const thisMachine: Machine = {
  platform: process.platform,
  environment: process.env,
  exists: existsSync,
  packaged: unpackedChromium,
  downloaded: () => Promise.resolve(ownDownload()),
};

const FLAGS = [
  '--no-sandbox', // Chromium refuses to run as root with it
  '--use-angle=swiftshader', // WebGL drawn in software: the same pixels on every machine
  '--enable-unsafe-swiftshader',
  '--font-render-hinting=none',
  // A test that reaches for the network fails the same way with and without one.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1',
];

const clean = (environment: Environment): Record<string, string> =>
  Object.fromEntries(
    Object.entries(environment).filter((entry): entry is [string, string] => Boolean(entry[1])),
  );

/** Starts a Chromium that tests connect to at its `wsEndpoint()`. */
export const startChromium = (machine: Machine = thisMachine): Promise<BrowserServer> =>
  firstThatStarts(machine, async (program) => {
    const fonts = machine.platform === 'linux' ? ourFonts() : {};
    const server = await chromium.launchServer({
      executablePath: program.path,
      args: FLAGS,
      headless: true,
      env: clean({ ...process.env, ...fonts, ...program.environment }),
    });
    // A program that starts but draws no page is no Chromium to test with.
    try {
      const browser = await chromium.connect(server.wsEndpoint());
      await browser.newPage();
      await browser.close();
      return server;
    } catch (error) {
      await server.close();
      throw error;
    }
  });
