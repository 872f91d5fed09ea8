/** The first part of an address below which everything is of one shop. */
const OF_A_SHOP = /^\/+(?:api\/+)?(?:s|c|shut)\/+([a-z0-9-]+)/;

/** The shop that an address is of, by its name in it; null for all that is of none. */
export function shopOfPath(address: string): string | null {
  const path = address.split(/[?#]/, 1)[0] ?? "";
  return OF_A_SHOP.exec(path.includes("%") ? decoded(path) : path)?.[1] ?? null;
}

/** As Next.js reads it; one that cannot be decoded is no page of ours. */
function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch (cause) {
    if (cause instanceof URIError) return "";
    throw cause;
  }
}
