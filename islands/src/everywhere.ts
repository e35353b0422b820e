// Islands come and go with the parts of a page that are swapped: each is made once, and dropped.

type Drop = () => void;

/** Make something of every element that fits, now and whenever the page changes. */
export function everywhere(selector: string, make: (one: HTMLElement) => Drop | undefined): void {
  const made = new Map<HTMLElement, Drop | undefined>();
  const look = (): void => {
    for (const [one, drop] of made) {
      if (one.isConnected) continue;
      made.delete(one);
      drop?.();
    }
    for (const one of document.querySelectorAll<HTMLElement>(selector)) {
      if (made.has(one)) continue;
      made.set(one, undefined);
      try {
        made.set(one, make(one));
      } catch (fault) {
        console.error(fault); // the drawing stays
      }
    }
  };
  look();
  new MutationObserver(look).observe(document.body, { childList: true, subtree: true });
}
