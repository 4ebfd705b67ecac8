import { ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import type { Settings } from '../settings';

/** Some settings of the site changed. */
export type ChangeSettings = {
  readonly kind: 'change-settings';
  readonly settings: Partial<Settings>;
};

export const changeSettings = (
  site: DataPackage,
  { settings }: ChangeSettings,
): Result<DataPackage, never> => ok({ ...site, settings: { ...site.settings, ...settings } });
