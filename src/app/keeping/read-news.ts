import type { DataPackage } from '../../domain/site/data-package';
import { readKept, readOn } from '../../io/keeping/read-kept';
import type { SiteStore } from '../../io/keeping/site-store';
import type { Files } from '../../io/package/files';
import type { State } from './snapshots';

/** What another window did to a site. */
export type ReadNews = {
  readonly package: DataPackage;
  readonly n: number;
  /** The journal's lines; null where they could not be read. */
  readonly lines: string[] | null;
  /** The files beside its tables; null where they are the same, or could not be read. */
  readonly carried: Files | null;
};

/** The site as another window left it, from the state known here; null where it can't be read. */
export async function readNews(
  store: SiteStore,
  id: string,
  from: State,
): Promise<ReadNews | null> {
  const on = await readOn(store, id, from);
  const anew = on.ok && on.value ? on : await readKept(store, id);
  if (!anew.ok || !anew.value) return null;
  const { package: now, site } = anew.value;
  const lines = await store.lines(id);
  // The descriptor names the pictures of the folder.
  const isSame = now.descriptor === from.package.descriptor;
  const files = isSame ? null : await store.files(id);
  return {
    package: now,
    n: site.last,
    lines: lines.ok ? lines.value : null,
    carried: files?.ok ? files.value : null,
  };
}
