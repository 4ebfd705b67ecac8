import { mount, unmount, type Component } from 'svelte';

/** A window beside the walk, of the same page, so that the two hold one walk. */
export type SpeakerWindow = { readonly close: () => void };

/**
 * Opens a component in a window of its own, in the styles of this page, for a
 * second screen. It closes with the page. Null where the browser refuses windows.
 */
export function openSpeakerWindow<Props extends Record<string, unknown>>(
  title: string,
  component: Component<Props>,
  props: Props,
  onclosed: () => void,
): SpeakerWindow | null {
  const opened = window.open('', '', 'popup,width=900,height=700');
  if (!opened) return null;
  const { document: page } = opened;
  page.title = title;
  page.documentElement.lang = document.documentElement.lang;
  for (const style of document.head.querySelectorAll('link[rel="stylesheet"], style'))
    page.head.append(copied(style, page));
  const shown = mount(component, { target: page.body, props });
  const closeIt = () => opened.close();
  window.addEventListener('pagehide', closeIt);
  // A window that a person closes tells nobody else.
  const watch = setInterval(() => opened.closed && end(), 500);
  function end() {
    clearInterval(watch);
    window.removeEventListener('pagehide', closeIt);
    void unmount(shown);
    onclosed();
  }
  return {
    close: () => {
      closeIt();
      end();
    },
  };
}

function copied(style: Element, page: Document): Element {
  const copy = page.importNode(style, true);
  // An address is of this page, not of an empty one.
  if (style instanceof HTMLLinkElement) copy.setAttribute('href', style.href);
  return copy;
}
