/**
 * Attaches what is to be printed as a child of the page itself, so that nothing
 * it stood in cuts it, with its first button (or another) in focus; focus goes
 * back to where it was when it is taken away.
 * @param mark  a class the page has meanwhile, for its print styles
 */
export const onThePage =
  ({ mark, focus = 'button' }: { readonly mark?: string; readonly focus?: string } = {}) =>
  (node: HTMLElement) => {
    const before = document.activeElement;
    document.body.append(node);
    if (mark) document.body.classList.add(mark);
    node.querySelector<HTMLElement>(focus)?.focus();
    return () => {
      if (mark) document.body.classList.remove(mark);
      node.remove();
      if (before instanceof HTMLElement) before.focus();
    };
  };
