/** A whole new version is looked for this often while the page is open, in ms. */
const LOOK_EVERY = 3_600_000;

/**
 * The app's own files on this machine: once they are, the page opens without a
 * network. A newer version waits until the person takes it, because that
 * reloads the page.
 */
class AppOnDevice {
  #registration: ServiceWorkerRegistration | null = null;
  #opensOffline = $state(false);
  #isUpdateReady = $state(false);

  /** Whether the app would open now with the network cut. */
  get opensOffline(): boolean {
    return this.#opensOffline;
  }

  /** Whether a newer version is on the machine and waits to be taken. */
  get isUpdateReady(): boolean {
    return this.#isUpdateReady;
  }

  /**
   * Put the app on this machine, in the background. Does nothing in development,
   * from a file, or where the browser has no service workers.
   */
  async start(): Promise<void> {
    const workers = serviceWorkers();
    if (!workers || !import.meta.env.PROD || !location.protocol.startsWith('http')) return;
    await loaded(); // the page comes first
    try {
      const registration = await workers.register('./service-worker.js', {
        updateViaCache: 'none',
      });
      this.#registration = registration;
      this.#watch(registration);
      registration.addEventListener('updatefound', () => this.#watch(registration));
      setInterval(() => void registration.update().catch(() => undefined), LOOK_EVERY);
      await workers.ready;
      this.#opensOffline = true;
    } catch {
      // Refused by the browser or its owner: the app works, with a network.
      this.#opensOffline = false;
    }
  }

  /** Reload the page as the newer version. Only when all is saved. */
  takeUpdate(): void {
    const waiting = this.#registration?.waiting;
    if (!waiting) return;
    serviceWorkers()?.addEventListener('controllerchange', () => location.reload(), {
      once: true,
    });
    waiting.postMessage('take over');
  }

  #watch(registration: ServiceWorkerRegistration): void {
    const look = () => {
      // Without a controller this is the first version, not a newer one.
      if (registration.waiting && serviceWorkers()?.controller) this.#isUpdateReady = true;
    };
    look();
    registration.installing?.addEventListener('statechange', look);
  }
}

const loaded = () =>
  new Promise<void>((resolve) => {
    if (document.readyState === 'complete') resolve();
    else addEventListener('load', () => resolve(), { once: true });
  });

/** Absent on pages opened over an unsafe connection. */
const serviceWorkers = () =>
  typeof navigator === 'undefined'
    ? undefined
    : (navigator.serviceWorker as ServiceWorkerContainer | undefined);

/** The one app in this window. */
export const appOnDevice = new AppOnDevice();
