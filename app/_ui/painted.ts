/** A page that is not looked at is not painted: work does not wait for that. */
const UNSEEN_MS = 100;

/** Resolves once the browser has painted what was drawn last, so that the work that follows does not hold it back. */
export function painted(): Promise<void> {
  return new Promise((resolve) => {
    const unseen = setTimeout(resolve, UNSEEN_MS);
    requestAnimationFrame(() => {
      clearTimeout(unseen);
      // A frame is asked for before it is painted.
      setTimeout(resolve);
    });
  });
}
