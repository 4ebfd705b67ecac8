import { expect, test } from 'vitest';
import { firstThatStarts, NO_CHROMIUM, type Machine, type Program } from '../../browser/chromium';

type Told = {
  readonly platform?: NodeJS.Platform;
  readonly environment?: Record<string, string>;
  readonly files?: readonly string[];
  readonly packaged?: string;
  readonly downloaded?: string;
  /** Programs that are there and do not start. */
  readonly broken?: readonly string[];
};

/** Looks for a Chromium on a machine told of, and says which started and which were tried. */
const search = async (told: Told) => {
  const tried: string[] = [];
  const program = (path: string | undefined): Promise<Program | null> =>
    Promise.resolve(path ? { path, environment: {} } : null);
  const machine: Machine = {
    platform: told.platform ?? 'linux',
    environment: { PATH: '/usr/local/bin:/usr/bin', ...told.environment },
    exists: (path) => (told.files ?? []).includes(path),
    packaged: () => program(told.packaged),
    downloaded: () => program(told.downloaded),
  };
  const started = await firstThatStarts(machine, ({ path }) => {
    tried.push(path);
    return told.broken?.includes(path)
      ? Promise.reject(new Error('Target closed\ncall log'))
      : Promise.resolve(path);
  });
  return { started, tried };
};

const everything = {
  environment: { CHROMIUM: '/opt/mine/chrome' },
  files: ['/opt/mine/chrome', '/usr/bin/chromium', '/usr/bin/google-chrome'],
  packaged: '/packages/chromium',
  downloaded: '/downloads/chrome',
};

test('the Chromium named in the environment goes before all others', async () => {
  expect((await search(everything)).tried).toEqual(['/opt/mine/chrome']);
});

test('a name in the environment that is not there is said, not passed over', async () => {
  await expect(search({ ...everything, files: ['/usr/bin/chromium'] })).rejects.toThrow(
    'The environment variable CHROMIUM names /opt/mine/chrome, which is not there.',
  );
});

test('then an installed one, found on the path', async () => {
  expect((await search({ ...everything, environment: {} })).started).toBe('/usr/bin/chromium');
  const files = ['/opt/google/google-chrome'];
  const environment = { PATH: '/opt/google' };
  expect((await search({ ...everything, environment, files })).started).toBe(files[0]);
});

test('then the packaged one, on Linux only', async () => {
  const bare = { ...everything, environment: {}, files: [] };
  expect((await search(bare)).started).toBe('/packages/chromium');
  for (const platform of ['darwin', 'win32'] as const) {
    expect((await search({ ...bare, platform })).started).toBe('/downloads/chrome');
  }
});

test('then the browser library’s own download', async () => {
  expect((await search({ downloaded: '/downloads/chrome' })).started).toBe('/downloads/chrome');
});

test('one that is there and does not start is passed over for the next', async () => {
  const found = await search({
    files: ['/usr/bin/chromium-browser'],
    packaged: '/packages/chromium',
    downloaded: '/downloads/chrome',
    broken: ['/usr/bin/chromium-browser', '/packages/chromium'],
  });
  expect(found.tried).toEqual([
    '/usr/bin/chromium-browser',
    '/packages/chromium',
    '/downloads/chrome',
  ]);
});

test('with none at all, one sentence says what to install', async () => {
  await expect(search({})).rejects.toThrow(new Error(NO_CHROMIUM));
  expect(NO_CHROMIUM).toMatch(/^[^.]*apt-get install chromium[^.]*CHROMIUM\.$/);
});

test('one that would not start is named after that sentence', async () => {
  await expect(search({ packaged: '/p/chromium', broken: ['/p/chromium'] })).rejects.toThrow(
    `${NO_CHROMIUM}\n/p/chromium did not start (Error: Target closed).`,
  );
});

test.each([
  ['darwin', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'],
  ['darwin', '/Users/crew/Applications/Chromium.app/Contents/MacOS/Chromium'],
  ['darwin', '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge'],
  ['win32', 'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe'],
  ['win32', 'C:\\Users\\crew\\AppData\\Local\\Chromium\\Application\\chrome.exe'],
  ['win32', 'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe'],
  ['linux', '/usr/bin/google-chrome-stable'],
  ['linux', '/usr/bin/microsoft-edge'],
  ['linux', '/snap/bin/chromium'],
] as const)('the usual places on %s include %s', async (platform, path) => {
  const environment: Record<string, string> =
    platform === 'win32'
      ? {
          PROGRAMFILES: 'C:\\Program Files',
          'PROGRAMFILES(X86)': 'C:\\Program Files (x86)',
          LOCALAPPDATA: 'C:\\Users\\crew\\AppData\\Local',
        }
      : { HOME: '/Users/crew' };
  expect((await search({ platform, environment, files: [path] })).started).toBe(path);
});
