/**
 * Attaches what is to be printed as a child of the page itself, so that nothing
 * it stood in cuts it, with its first button (or another) in focus; focus goes
 * back to where it was when it is taken away.
 */
export const onThePage =
  (focus = 'button') =>
  (node: HTMLElement) => {
    const before = document.activeElement;
    document.body.append(node);
    node.querySelector<HTMLElement>(focus)?.focus();
    return () => {
      node.remove();
      if (before instanceof HTMLElement) before.focus();
    };
  };
