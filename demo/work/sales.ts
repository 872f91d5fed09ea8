import type { Stage } from "../stage";
import type { Garage } from "./garage";
import { type Draft, draftQuote, type Out, orderShort, sayYes, send } from "./quoting";

export interface Wish {
  readonly bike: number;
  readonly package: string;
  readonly take?: readonly string[];
  readonly leave?: readonly string[];
}

interface Sold {
  readonly jobId: number;
  readonly out: Out;
}

/** How work comes into a shop, up to the customer's yes; days are working days from today. */
export class Sales {
  constructor(
    protected readonly stage: Stage,
    protected readonly garage: Garage,
  ) {}

  protected at(day: number, time: string): Date {
    return this.stage.calendar.at(day, time);
  }

  protected async *drafted(wish: Wish, day: number, time: string): AsyncGenerator<Date, Draft, void> {
    const at = this.at(day, time);
    yield at;
    const bikeId = await this.garage.bike(wish.bike, at);
    const { take = [], leave = [] } = wish;
    return draftQuote(this.stage, at, { bikeId, package: wish.package, take, leave });
  }

  protected async *sent(wish: Wish, day: number, time: string): AsyncGenerator<Date, Out, void> {
    const draft = yield* this.drafted(wish, day, time);
    const at = new Date(this.at(day, time).getTime() + 20 * 60_000);
    yield at;
    return send(this.stage, at, draft);
  }

  /** A quote written and sent on one day and said yes to on the next; what it is short of is ordered. */
  protected async *sold(wish: Wish, day: number, how = "link"): AsyncGenerator<Date, Sold, void> {
    const out = yield* this.sent(wish, day, "10:20");
    const at = this.at(day + 1, "09:15");
    yield at;
    const accepted = await sayYes(this.stage, at, out, how);
    if (accepted.short.length > 0) await orderShort(this.stage, at, accepted.short);
    return { jobId: accepted.jobId, out };
  }
}
