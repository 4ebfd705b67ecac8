/** Whether a path stays inside its folder. */
export const staysInside = (path: string) =>
  !path.startsWith('/') &&
  !/^[a-z]:/i.test(path) &&
  !path.includes('\\') &&
  !path.split('/').includes('..');
