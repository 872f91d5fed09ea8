// The rules of stock told a second time, on paper: no database, and nothing of the product is imported here.
// Quantities are thousandths, costs ten-thousandths, as in the ledger. Cost formulas: IAS 2 Inventories, 25 and 27.

export type Costing = "average" | "fifo";

export interface ToldMove {
  kind: string;
  quantityMilli: number;
  unitCostE4: number | null;
  line: ToldLine | null;
}

interface Layer {
  quantity: number;
  value: number;
}

export interface ToldLine {
  part: ToldPart;
  ordered: number;
  received: number;
  cancelled: number;
}

export interface ToldWish {
  part: ToldPart;
  job: number;
  wanted: number;
  held: number;
  used: number;
  state: "held" | "used" | "released";
}

export interface ToldPart {
  onHand: number;
  averageE4: number | null;
  costE4: number | null;
  moves: ToldMove[];
  layers: Layer[];
  newestE4: number;
}

const openOf = (line: ToldLine) => line.ordered - line.received - line.cancelled;
const shortOf = (wish: ToldWish) =>
  wish.state === "held" ? Math.max(0, wish.wanted - wish.held - wish.used) : 0;

/** a x b / c of numbers not below nothing, halves up; exact, since it is counted in whole numbers of any size. */
function share(a: number, b: number, c: number): number {
  const [over, under] = [BigInt(a) * BigInt(b), BigInt(c)];
  return Number((2n * over + under) / (2n * under));
}

/** One shop's shelves. Every act answers whether it is allowed, and changes nothing where it is not. */
export class ToldStock {
  readonly parts: ToldPart[];
  readonly wishes: ToldWish[] = [];
  readonly lines: ToldLine[] = [];

  constructor(
    count: number,
    private readonly costing: Costing,
  ) {
    this.parts = Array.from({ length: count }, () => ({
      onHand: 0,
      averageE4: null,
      costE4: null,
      moves: [],
      layers: [],
      newestE4: 0,
    }));
  }

  reserved(part: ToldPart): number {
    return this.wishes.reduce((sum, wish) => sum + (wish.part === part ? wish.held : 0), 0);
  }

  onOrder(part: ToldPart): number {
    return this.lines.reduce((sum, line) => sum + (line.part === part ? openOf(line) : 0), 0);
  }

  order(part: ToldPart, ordered: number): true {
    this.lines.push({ part, ordered, received: 0, cancelled: 0 });
    return true;
  }

  /** Comes in without saying on which order: it answers the oldest open lines, and each share is a move. */
  receive(part: ToldPart, quantity: number, costE4: number | null): true {
    let left = quantity;
    for (const line of this.lines.filter((each) => each.part === part && openOf(each) > 0)) {
      const taken = Math.min(left, openOf(line));
      if (taken > 0) this.receiveOn(line, taken, costE4);
      left -= taken;
    }
    if (left > 0) this.arrive(part, "receipt", left, costE4, null);
    return true;
  }

  receiveOn(line: ToldLine | undefined, quantity: number, costE4: number | null): boolean {
    if (!line || quantity > openOf(line)) return false;
    line.received += quantity;
    this.arrive(line.part, "receipt", quantity, costE4, line);
    return true;
  }

  cancel(line: ToldLine | undefined): boolean {
    if (!line || openOf(line) === 0) return false;
    line.cancelled += openOf(line);
    return true;
  }

  arrive(
    part: ToldPart,
    kind: string,
    quantity: number,
    costE4: number | null,
    line: ToldLine | null = null,
  ): true {
    const unitCostE4 = costE4 ?? part.averageE4 ?? part.costE4;
    part.moves.push({ kind, quantityMilli: quantity, unitCostE4, line });
    part.newestE4 = unitCostE4 ?? part.newestE4;
    part.layers.push({ quantity, value: share(quantity, part.newestE4, 1000) });
    if (unitCostE4 !== null) {
      const there = share(part.onHand, part.averageE4 ?? unitCostE4, 1000);
      part.averageE4 = share(there + share(quantity, unitCostE4, 1000), 1000, part.onHand + quantity);
    }
    if (kind === "receipt") part.costE4 = costE4 ?? part.costE4;
    part.onHand += quantity;
    this.fill(part);
    return true;
  }

  /** Goes out of what is reserved for nobody, or out of one reservation. */
  leave(part: ToldPart, kind: string, quantity: number, fromReserved = 0): boolean {
    if (part.onHand - quantity < this.reserved(part) - fromReserved) return false;
    const known = part.averageE4 ?? part.costE4;
    const worth = this.takeOldest(part, quantity);
    part.onHand -= quantity;
    const byLayers = this.costing === "fifo" && known !== null;
    const unitCostE4 = byLayers ? share(worth, 1000, quantity) : known;
    part.moves.push({ kind, quantityMilli: -quantity, unitCostE4, line: null });
    if (!byLayers) return true;
    const left = part.layers.reduce((sum, layer) => sum + layer.value, 0);
    part.averageE4 = part.onHand > 0 ? share(left, 1000, part.onHand) : known;
    return true;
  }

  private takeOldest(part: ToldPart, quantity: number): number {
    let worth = 0;
    for (let left = quantity; left > 0; ) {
      const oldest = part.layers[0] as Layer;
      const taken = Math.min(left, oldest.quantity);
      const value = taken === oldest.quantity ? oldest.value : share(oldest.value, taken, oldest.quantity);
      oldest.quantity -= taken;
      oldest.value -= value;
      if (oldest.quantity === 0) part.layers.shift();
      worth += value;
      left -= taken;
    }
    return worth;
  }

  /** What the bin holds is what there is; the newest job's newest reservation is the first to go short. */
  count(part: ToldPart, counted: number): true {
    const newest = this.wishes
      .filter((wish) => wish.part === part && wish.state === "held")
      .toReversed()
      .sort((a, b) => b.job - a.job);
    let missing = this.reserved(part) - counted;
    for (const wish of newest) {
      const back = Math.max(0, Math.min(missing, wish.held));
      wish.held -= back;
      missing -= back;
    }
    const variance = counted - part.onHand;
    if (variance > 0) this.arrive(part, "count", variance, null);
    if (variance < 0) this.leave(part, "count", -variance);
    return true;
  }

  /** One part goes out and others come in, its worth spread over their quantities. */
  split(from: ToldPart, quantity: number, into: readonly { part: ToldPart; quantity: number }[]): boolean {
    const unit = from.averageE4 ?? from.costE4;
    if (!this.leave(from, "split", quantity)) return false;
    const all = into.reduce((sum, piece) => sum + piece.quantity, 0);
    for (const piece of into)
      this.arrive(piece.part, "split", piece.quantity, unit === null ? null : share(quantity, unit, all));
    return true;
  }

  /** Puts a move right by the difference: a use by more use or a return, anything else by a count. */
  correct(part: ToldPart, move: ToldMove | undefined, right: number): boolean {
    if (!move) return false;
    const difference = Math.sign(move.quantityMilli) * right - move.quantityMilli;
    if (difference === 0) return false;
    const use = move.kind === "use";
    return difference > 0
      ? this.arrive(part, use ? "returnToStock" : "count", difference, move.unitCostE4)
      : this.leave(part, use ? "use" : "count", -difference);
  }

  reserve(part: ToldPart, job: number, wanted: number): true {
    const held = Math.min(wanted, part.onHand - this.reserved(part));
    this.wishes.push({ part, job, wanted, held, used: 0, state: "held" });
    return true;
  }

  takeReserved(wish: ToldWish | undefined, quantity: number): boolean {
    if (wish?.state !== "held" || quantity > wish.held) return false;
    this.leave(wish.part, "use", quantity, quantity);
    wish.held -= quantity;
    wish.used += quantity;
    if (wish.used >= wish.wanted) wish.state = "used";
    return true;
  }

  release(wish: ToldWish | undefined): boolean {
    if (wish?.state !== "held") return false;
    wish.held = 0;
    wish.state = wish.used > 0 ? "used" : "released";
    this.fill(wish.part);
    return true;
  }

  releaseJob(job: number): true {
    for (const wish of this.wishes) if (wish.job === job) this.release(wish);
    return true;
  }

  /** What is free goes to the jobs that are short, the oldest first. */
  private fill(part: ToldPart): void {
    let free = part.onHand - this.reserved(part);
    for (const wish of this.wishes.filter((each) => each.part === part).sort((a, b) => a.job - b.job)) {
      const more = Math.min(free, shortOf(wish));
      wish.held += more;
      free -= more;
    }
  }
}
