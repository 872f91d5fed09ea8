import type { IncomingMessage, ServerResponse } from "node:http";
import { takeFault, tellFaultsBy } from "@/lib/db/shopFaults";
import { reportBy, reportOf } from "@/lib/gate/processes";
import { log } from "@/lib/log/log";
import type { Pacing } from "../bodyPace";
import { heedFault } from "./faults";
import { forward } from "./forward";
import { servingNow } from "./homes";
import { Line } from "./line";
import { shopOfPath } from "./shopOfPath";
import type { OfPrimary, OfWorker, Up } from "./talk";

/** A worker's place among those that serve together. */
export interface Place extends Up {
  /** Serves a request here, or hands it on to the worker that its shop is at home with. */
  take(request: IncomingMessage, response: ServerResponse, serve: () => void): void;
  /** Tells the primary, and by it the others, that requests can come. */
  serving(): Promise<void>;
  readonly pacing: Pacing;
}

/** So many homes are remembered here; all of them are forgotten beyond it, and asked for anew. */
const MOST = 10_000;

/** Takes this process's place among the workers of the primary that started it. */
export async function takePlace(): Promise<Place> {
  let name = "";
  let up: readonly Up[] = [];
  const line = new Line<OfWorker, OfPrimary>((note) => process.send?.(note), {
    up: (told) => {
      up = told;
      return null;
    },
    report: () => reportOf(name),
    shut: (fault) => {
      heedFault(fault);
      return null;
    },
  });
  process.on("message", (note) => line.receive(note));
  process.once("disconnect", () => line.close());
  const welcome = await line.ask("hello", null);
  const { worker, socket } = welcome;
  name = `worker ${worker}`;
  up = welcome.up;
  for (const fault of welcome.faults) takeFault(fault);
  tellFaultsBy((fault) => void line.ask("shut", fault).catch(unheard));
  reportBy(() => line.ask("reports", null));

  const homes = new Map<string, number>();
  const homeOf = async (shop: string): Promise<number> => {
    const home = await line.ask("home", shop);
    // Not there: whoever was asked says so, and next time it may be there.
    if (home === null) return worker;
    if (homes.size >= MOST) homes.clear();
    homes.set(shop, home);
    return home;
  };
  const handOn = (home: number, request: IncomingMessage, response: ServerResponse, serve: () => void) => {
    const at = servingNow(
      home,
      up.map((one) => one.worker),
    );
    const other = at === worker ? undefined : up.find((one) => one.worker === at);
    if (other) forward(request, response, other.socket, serve);
    else serve();
  };

  return {
    worker,
    socket,
    take: (request, response, serve) => {
      const shop = shopOfPath(request.url ?? "");
      if (shop === null) return serve();
      const home = homes.get(shop);
      if (home !== undefined) return handOn(home, request, response, serve);
      homeOf(shop)
        .catch((cause: unknown) => {
          unheard(cause);
          return worker;
        })
        .then((found) => handOn(found, request, response, serve));
    },
    serving: async () => void (await line.ask("serving", null)),
    pacing: { spend: (address, bytes) => line.ask("spend", { address, bytes }) },
  };
}

function unheard(cause: unknown): void {
  log().warn({ err: cause }, "The primary process did not answer.");
}
