/** A set of the keys that were added or asked for last: at most `most` of them. */
export class Remembered {
  readonly #keys = new Set<string>();

  constructor(readonly most: number) {}

  /** Whether a key is remembered; it then counts as used just now. */
  has(key: string): boolean {
    const found = this.#keys.delete(key);
    if (found) this.#keys.add(key);
    return found;
  }

  add(key: string): void {
    this.#keys.delete(key);
    this.#keys.add(key);
    const [oldest] = this.#keys;
    if (this.#keys.size > this.most && oldest !== undefined) this.#keys.delete(oldest);
  }

  get size(): number {
    return this.#keys.size;
  }
}
