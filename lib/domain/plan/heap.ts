interface Entry<T> {
  readonly item: T;
  readonly rank: number;
  readonly tie: number;
  readonly age: number;
}

/** A binary heap: lowest rank first, then lowest tie, then first in; so that equal inputs always give equal output. */
export class Heap<T> {
  private readonly entries: Entry<T>[] = [];
  private age = 0;

  push(item: T, rank: number, tie: number): void {
    const entry = { item, rank, tie, age: this.age++ };
    let at = this.entries.length;
    while (at > 0) {
      const parentAt = (at - 1) >> 1;
      const parent = this.entries[parentAt];
      if (!parent || !sooner(entry, parent)) break;
      this.entries[at] = parent;
      at = parentAt;
    }
    this.entries[at] = entry;
  }

  pop(): Entry<T> | undefined {
    const top = this.entries[0];
    const last = this.entries.pop();
    if (!top || !last || top === last) return top;
    const length = this.entries.length;
    let at = 0;
    for (let childAt = 1; childAt < length; childAt = 2 * at + 1) {
      let child = this.entries[childAt];
      const right = this.entries[childAt + 1];
      if (child && right && sooner(right, child)) {
        child = right;
        childAt++;
      }
      if (!child || !sooner(child, last)) break;
      this.entries[at] = child;
      at = childAt;
    }
    this.entries[at] = last;
    return top;
  }
}

function sooner<T>(a: Entry<T>, b: Entry<T>): boolean {
  if (a.rank !== b.rank) return a.rank < b.rank;
  return a.tie !== b.tie ? a.tie < b.tie : a.age < b.age;
}
