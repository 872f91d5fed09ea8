/**
 * Lets other requests have their turn. Between quotes that are computed one after another: each is bounded, many of them in one go
 * are not.
 */
export const turn = (): Promise<void> => new Promise((go) => setImmediate(go));
