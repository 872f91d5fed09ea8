import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { startOwnServer, startServer } from "../../support/ownServer";
import { sessionCookie } from "../../support/session";
import { seedYears, TEN_YEARS } from "./seed";

/**
 * What list pages weigh in a shop of ten years: npm run bench:years -- --pages [address …]. Needs the production build. Figures, no test.
 */
const PORT = Number(process.env.PORT ?? 3493);
const PASSWORD = "bench-slide-float-3141";
const MOST = { raw: 150_000, packed: 25_000 };
const LIST = { rows: 50, raw: 70_000 };

const ASKED = [
  "",
  "/books/journal",
  "/books/journal?from=2025-12-01&to=2026-11-29",
  "/books/balances",
  "/books/documents",
  "/books/payments",
  "/books/stock",
  "/books/tax",
  "/books/tax?basis=paid",
  "/books/day",
  "/books/periods",
  "/counter",
  "/customers",
  "/customers/1",
  "/bikes",
  "/bikes/1",
  "/bikes/1/life",
  "/quotes",
  "/jobs",
  "/jobs/new",
  "/invoices",
  "/invoices/owing",
  "/invoices/reminders",
  "/invoices/bank",
  "/follow-ups",
  "/figures",
  "/figures/revenue",
  "/figures/packages",
  "/figures/owed",
  "/figures/stock",
  "/figures/hours",
  "/hours",
  "/stock",
  "/stock/1",
  "/stock/1/edit",
  "/stock/new",
  "/stock/drawer",
  "/stock/kits",
  "/stock/counts",
  "/stock/labels",
  "/stock/figures",
  "/stock/orders",
  "/stock/orders/suggested",
  "/stock/orders/1",
  "/stock/suppliers",
  "/stock/screws",
  "/bench/trip",
  "/bikes/cards",
  "/packages/library",
  "/shop/audit",
  "/search?q=main",
];

export async function weighPages(asked: readonly string[]): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-years-"));
  const data = join(folder, "data");
  try {
    const first = await startOwnServer(PORT, data, PASSWORD);
    await first.stop();
    for (const name of readdirSync(join(data, "shops")).filter((one) => /^saltpan.*\.sqlite$/.test(one)))
      seedYears(join(data, "shops", name), Date.now(), TEN_YEARS);
    const server = await startServer(PORT, data, PASSWORD, {});
    try {
      const base = `http://localhost:${PORT}`;
      const cookie = await sessionCookie(base, "saltpanOwner", PASSWORD);
      console.log("page | HTML kB | packed | rows");
      for (const path of asked.length > 0 ? asked : ASKED) {
        const response = await fetch(`${base}/s/saltpan${path}`, { headers: { Cookie: cookie } });
        const text = await response.text();
        const [raw, packed] = [Buffer.byteLength(text), gzipSync(text).length];
        const rows = [...text.matchAll(/<tbody[^>]*>([\s\S]*?)<\/tbody>/g)].reduce(
          (sum, [, body = ""]) => sum + body.split("<tr").length - 1,
          0,
        );
        const most = rows >= LIST.rows ? LIST.raw : MOST.raw;
        const mark = (bytes: number, limit: number) =>
          `${(bytes / 1000).toFixed(1)}${bytes > limit ? "!" : ""}`;
        console.log(
          `${path || "/"} | ${response.status} | ${mark(raw, most)} | ${mark(packed, MOST.packed)} | ${rows}`,
        );
      }
    } finally {
      await server.stop();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
