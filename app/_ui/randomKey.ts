/** 128 random bits as hex. `crypto.randomUUID` is missing on plain http in a workshop's own network. */
export function randomKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
