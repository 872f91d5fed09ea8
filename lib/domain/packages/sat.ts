/** What a search may still spend, counted in clauses looked at. Shared by searches, so that many of them are bounded together. */
export interface Steps {
  left: number;
}

/** `null`: the steps ran out first. Where it cannot be, `core` are assumptions that already rule it out. */
export type Found =
  | { readonly can: true; readonly on: ReadonlySet<number> }
  | { readonly can: false; readonly core: readonly number[] }
  | { readonly can: null };

/** Literals: 2v says that variable v is true, 2v + 1 that it is false. */
export const yes = (variable: number): number => 2 * variable;
export const no = (variable: number): number => 2 * variable + 1;

const LEVEL = 6;
const DECAY = 1.05;
const TOO_HOT = 1e100;

/**
 * Boolean satisfiability by unit propagation over two watched literals, clauses learned from conflicts and jumping back over
 * choices that had no part in them (Marques-Silva and Sakallah 1999; Moskewicz and others 2001). Variables below `open` are
 * chosen, false first unless preferred; those above only follow or are assumed. What one search learns helps the next.
 */
export class Sat {
  private readonly watched: number[][][];
  private readonly value: Int8Array;
  private readonly levelOf: Int32Array;
  private readonly reason: (readonly number[] | null)[];
  private readonly heat: Float64Array;
  private readonly trail: number[] = [];
  private readonly levels: number[] = [];
  private head = 0;
  private warmth = 1;
  private broken = false;
  private steps: Steps = { left: 0 };

  constructor(
    count: number,
    private readonly open: number,
  ) {
    this.watched = Array.from({ length: 2 * count }, () => []);
    this.value = new Int8Array(2 * count);
    this.levelOf = new Int32Array(count);
    this.reason = new Array(count).fill(null);
    this.heat = new Float64Array(count);
  }

  /** Demands that one of these literals holds. */
  add(literals: readonly number[]): void {
    this.back(0);
    const clause = [...new Set(literals)].filter((literal) => this.value[literal] !== -1);
    if (clause.some((literal) => this.value[literal] === 1 || clause.includes(literal ^ 1))) return;
    const [first] = clause;
    if (first === undefined) this.broken = true;
    else if (clause.length === 1) this.put(first, null);
    else this.watch(clause);
  }

  /**
   * Whether all that was added can hold with these literals. `further` is asked of each complete answer: a clause that it breaks,
   * or null. Stops once `steps` are spent.
   */
  solve(
    assumed: readonly number[],
    steps: Steps,
    further: (isOn: (variable: number) => boolean) => readonly number[] | null = () => null,
    preferred: ReadonlySet<number> = new Set(),
  ): Found {
    this.steps = steps;
    const isOn = (variable: number) => this.value[yes(variable)] === 1;
    this.back(0);
    while (!this.broken) {
      const conflict = this.propagate();
      if (steps.left <= 0) return { can: null };
      if (conflict) {
        this.learn(conflict);
        continue;
      }
      // A level costs about as much as this many clauses.
      steps.left -= LEVEL;
      const next = assumed[this.levels.length];
      if (next !== undefined) {
        if (this.value[next] === -1) return { can: false, core: [...this.causes(next), next] };
        this.levels.push(this.trail.length);
        if (this.value[next] === 0) this.put(next, null);
        continue;
      }
      const chosen = this.hottest();
      if (chosen >= 0) {
        this.levels.push(this.trail.length);
        this.put(preferred.has(chosen) ? yes(chosen) : no(chosen), null);
        continue;
      }
      const breaks = further(isOn);
      if (breaks) this.add(breaks);
      else return { can: true, on: new Set(Array.from({ length: this.open }, (_, v) => v).filter(isOn)) };
    }
    return { can: false, core: [] };
  }

  private watch(clause: number[]): void {
    this.watched[clause[0] ?? 0]?.push(clause);
    this.watched[clause[1] ?? 0]?.push(clause);
  }

  private put(literal: number, because: readonly number[] | null): void {
    this.value[literal] = 1;
    this.value[literal ^ 1] = -1;
    this.levelOf[literal >> 1] = this.levels.length;
    this.reason[literal >> 1] = because;
    this.trail.push(literal);
  }

  private back(level: number): void {
    const to = this.levels[level];
    if (to === undefined) return;
    for (const literal of this.trail.splice(to)) this.value[literal] = this.value[literal ^ 1] = 0;
    this.levels.length = level;
    this.head = Math.min(this.head, to);
  }

  /** All that follows; a clause that cannot hold any more, or null. */
  private propagate(): readonly number[] | null {
    while (this.head < this.trail.length) {
      const gone = (this.trail[this.head++] ?? 0) ^ 1;
      const list = this.watched[gone] ?? [];
      let kept = 0;
      let conflict: number[] | null = null;
      for (const clause of list) {
        if (conflict) {
          list[kept++] = clause;
          continue;
        }
        if (clause[0] === gone) [clause[0], clause[1]] = [clause[1] ?? 0, gone];
        const [first = 0] = clause;
        let at = 2;
        if (this.value[first] !== 1) while (at < clause.length && this.value[clause[at] ?? 0] === -1) at++;
        this.steps.left -= at;
        if (this.value[first] !== 1 && at < clause.length) {
          clause[1] = clause[at] ?? 0;
          clause[at] = gone;
          this.watched[clause[1]]?.push(clause);
          continue;
        }
        list[kept++] = clause;
        if (this.value[first] === -1) conflict = clause;
        else if (this.value[first] === 0) this.put(first, clause);
      }
      list.length = kept;
      if (conflict) return conflict;
    }
    return null;
  }

  /** Learns why a conflict came about (the first point that all of its ways pass), and goes back to where that says something new. */
  private learn(conflict: readonly number[]): void {
    const now = this.levels.length;
    if (now === 0) {
      this.broken = true;
      return;
    }
    const seen = new Set<number>();
    const learned: number[] = [];
    let [ways, at, clause]: [number, number, readonly number[]] = [0, this.trail.length - 1, conflict];
    let point = -1;
    do {
      for (const literal of clause) {
        const variable = literal >> 1;
        if (literal === point || seen.has(variable) || this.levelOf[variable] === 0) continue;
        seen.add(variable);
        this.warm(variable);
        if (this.levelOf[variable] === now) ways++;
        else learned.push(literal);
      }
      this.steps.left -= clause.length;
      while (!seen.has((this.trail[at] ?? 0) >> 1)) at--;
      point = this.trail[at--] ?? 0;
      clause = this.reason[point >> 1] ?? [];
    } while (--ways > 0);
    this.warmth *= DECAY;
    const level = (literal: number) => this.levelOf[literal >> 1] ?? 0;
    learned.sort((a, b) => level(b) - level(a));
    this.back(learned[0] === undefined ? 0 : level(learned[0]));
    const clauseNow = [point ^ 1, ...learned];
    if (clauseNow.length > 1) this.watch(clauseNow);
    this.put(point ^ 1, clauseNow.length > 1 ? clauseNow : null);
  }

  private warm(variable: number): void {
    const heat = (this.heat[variable] ?? 0) + this.warmth;
    this.heat[variable] = heat;
    if (heat < TOO_HOT) return;
    for (let v = 0; v < this.heat.length; v++) this.heat[v] = (this.heat[v] ?? 0) / TOO_HOT;
    this.warmth /= TOO_HOT;
  }

  private hottest(): number {
    let best = -1;
    for (let v = 0; v < this.open; v++)
      if (this.value[yes(v)] === 0 && (best < 0 || (this.heat[v] ?? 0) > (this.heat[best] ?? 0))) best = v;
    return best;
  }

  /** The assumptions that together rule a literal out. */
  private causes(literal: number): number[] {
    const seen = new Set([literal >> 1]);
    const found: number[] = [];
    for (let at = this.trail.length - 1; at >= (this.levels[0] ?? this.trail.length); at--) {
      const put = this.trail[at] ?? 0;
      if (!seen.has(put >> 1)) continue;
      const reason = this.reason[put >> 1];
      if (!reason) found.push(put);
      for (const other of reason ?? []) if ((this.levelOf[other >> 1] ?? 0) > 0) seen.add(other >> 1);
    }
    return found;
  }
}
