import { fail, ok, type Result } from '../domain/result';
import type { DataPackage } from '../domain/site/data-package';
import { sentenceOf } from '../domain/site/problem';
import { NEW_SITE } from '../domain/site/settings-draft';
import type { KeptSite } from '../io/keeping/database';
import { NO_FILES, openWhole, type WholeSite } from '../io/keeping/whole-site';
import type { Files } from '../io/package/files';
import { demoFiles } from './demo-sites';
import { fileStem } from './file-stem';
import { importOf } from './import/import-view.svelte';
import { kindOf } from './import/kind-of';
import { FolderDesk } from './keeping/folder-desk.svelte';
import { showEventOf, takeEventInHand, takeInHand } from './keeping/in-hand';
import { Keeping } from './keeping/keeping.svelte';
import { zipped } from './keeping/pack';
import { openAway, type OpenedAway } from './open-away';
import { readInSteps, type RowsRead } from './open-in-steps';
import { OpenSite } from './open-site.svelte';
import { placesOf } from './places/places-view.svelte';
import { settingsViewOf } from './places/settings-view.svelte';

const EMPTY_SITE: DataPackage = {
  settings: NEW_SITE,
  tables: {},
  paths: {},
  columnUnits: {},
  descriptor: {},
};

/**
 * The desk a person works at: which site is open, and the sites kept in this
 * browser. Opening another lets the last one go once all of it is saved.
 */
export class Desk {
  readonly keeping = new Keeping();
  readonly folders = new FolderDesk(this.keeping);
  #site: OpenSite | null = $state.raw(null);
  /** Why there is no site to show; null when there is one or one is being opened. */
  trouble: string | null = $state(null);
  /** How far the site has got that is being opened; null while none is. */
  opening: RowsRead | null = $state.raw(null);
  /** A site of the name of the one just opened that this browser kept before; null where there is none, or once it was read. */
  namesake: KeptSite | null = $state.raw(null);
  /** The last opening asked for: an earlier one that is done later is dropped. */
  #turn = 0;
  /** The rest of the folder of a site that nobody keeps yet. */
  #whole: WholeSite | null = null;

  get site(): OpenSite | null {
    return this.#site;
  }

  /** The site an address names, else the one last worked on, else a demo. */
  async start(asked: string | null, usual: string): Promise<void> {
    await this.keeping.refresh();
    void this.keeping.sweep();
    const last = this.keeping.sites[0];
    if (asked !== null || !last) await this.openDemo(asked ?? usual);
    else await this.openKept(last.id, takeInHand);
  }

  /** A demo is looked at; it is kept as a site of its own from its first edit. */
  async openDemo(name: string): Promise<void> {
    this.#take(await demoFiles(name), 'from its first edit');
  }

  /** A site with nothing in it yet, kept from the start. Its settings are asked for first. */
  newSite(): void {
    void this.#letGo();
    const whole = { package: EMPTY_SITE, carried: NO_FILES, lines: [] };
    this.#whole = whole;
    const site = new OpenSite({
      package: EMPTY_SITE,
      problems: [],
      keeper: this.keeping.begin(whole),
    });
    settingsViewOf(site).open = true;
    this.#show(site);
  }

  /** Open a folder of this device, and save into it from now on. Call it from a click. */
  async openFolder(): Promise<void> {
    // An opening under way goes on till a folder has been chosen.
    let turn: number | null = null;
    const picked = await this.folders.pick((rows) => this.#tell((turn ??= ++this.#turn), rows));
    if (turn !== null && turn !== this.#turn) return;
    if (!picked.ok) return this.#refuse(picked.problem);
    if (!picked.value) return;
    const { site: whole, problems } = picked.value;
    void this.#letGo();
    this.#whole = whole;
    const namesake = this.#namesakeOf(whole);
    const keeper = this.keeping.begin(whole);
    this.#show(new OpenSite({ package: whole.package, problems, keeper }), namesake);
    await this.folders.use(keeper, picked.value);
  }

  /** Files dropped on the page: a whole site is opened, anything else goes into the open one. */
  async drop(dropped: readonly File[]): Promise<void> {
    const kinds = await Promise.all(dropped.map(kindOf));
    const isSite = kinds.some(({ kind }) => kind === 'site' || kind === 'descriptor');
    if (isSite || !this.#site) return this.openPicked(dropped);
    const isForTables = (at: number) => !['image', 'tiles'].includes(kinds[at]?.kind ?? '');
    const drawn = dropped.filter((_, at) => !isForTables(at));
    if (drawn.length > 0) await placesOf(this.#site).openFiles(drawn);
    const tables = dropped.filter((_, at) => isForTables(at));
    if (tables.length > 0) await importOf(this.#site).openFiles(tables);
  }

  /** Files picked or dropped: a folder or a zip of one. Kept from the start. */
  async openPicked(picked: readonly File[]): Promise<void> {
    const turn = ++this.#turn;
    this.#tell(turn, { done: 0, of: 0 });
    const opened = await openAway(picked, (rows) => this.#tell(turn, rows));
    if (turn !== this.#turn) return;
    if (opened.ok) this.#begin(opened.value, 'at once');
    else this.#refuse(opened.problem);
  }

  /** How far an opening has got, unless another was asked for since. */
  #tell(turn: number, rows: RowsRead) {
    if (turn === this.#turn) this.opening = rows;
  }

  /** @param ready  done to the site before it is shown */
  async openKept(id: string, ready: (site: OpenSite) => void = () => {}): Promise<void> {
    await this.#letGo();
    const opened = await this.keeping.open(id, (changed) => this.#site?.follow(changed));
    if (!opened.ok) return this.#refuse(opened.problem);
    const keeper = opened.value;
    await readInSteps(keeper.site, (rows) => (this.opening = rows));
    const site = new OpenSite({ package: keeper.site, problems: [], keeper });
    takeEventInHand(site);
    ready(site);
    this.#show(site);
  }

  /** The open site as a zip of its folder, and the name to save it under. */
  async zip(): Promise<Result<{ readonly name: string; readonly bytes: Uint8Array }, string>> {
    const site = this.#site;
    if (!site) return fail('No site is open.');
    const whole = site.keeper?.whole ??
      this.#whole ?? { package: site.package, carried: NO_FILES, lines: [] };
    return ok({ name: `${fileStem(site.site.settings.title)}.zip`, bytes: await zipped(whole) });
  }

  #take(files: Files, kept: 'at once' | 'from its first edit') {
    const opened = openWhole(files);
    if (opened.ok) this.#begin(opened.value, kept);
    else this.#refuse(sentenceOf(opened.problem));
  }

  #begin(
    { site: whole, problems }: Omit<OpenedAway, 'digests'>,
    kept: 'at once' | 'from its first edit',
  ) {
    void this.#letGo();
    this.#whole = whole;
    const namesake = kept === 'at once' ? this.#namesakeOf(whole) : null;
    const beginKeeping = () => this.keeping.begin(whole);
    this.#show(
      new OpenSite({
        package: whole.package,
        problems,
        files: whole.carried,
        ...(kept === 'at once' ? { keeper: beginKeeping() } : { beginKeeping }),
      }),
      namesake,
    );
  }

  /** The site of the same title that this browser keeps, the last changed; null where there is none. */
  #namesakeOf({ package: { settings } }: WholeSite): KeptSite | null {
    return this.keeping.sites.find(({ title }) => title === settings.title) ?? null;
  }

  #show(site: OpenSite, namesake: KeptSite | null = null) {
    this.namesake = namesake;
    // The same site from its zip is looked at in the event the kept one was left in.
    if (namesake) showEventOf(namesake.id, site);
    this.#turn++;
    this.opening = null;
    this.trouble = null;
    this.#site = site;
  }

  #refuse(trouble: string) {
    this.#turn++;
    this.opening = null;
    this.trouble = trouble;
    this.#site = null;
  }

  async #letGo(): Promise<void> {
    const keeper = this.#site?.keeper;
    this.#whole = null;
    if (keeper) await keeper.close();
  }
}
