import { actReport } from "./actRows";
import { blockRows } from "./blockRows";
import { browserReport } from "./browserRows";
import { databaseRows } from "./databaseRows";
import { domainRows } from "./domainRows";
import { importRows } from "./importRows";
import { loopReport } from "./loopRows";
import { pageReport } from "./pageRows";
import { type Report, reportOf } from "./report";
import { searchRows } from "./searchRows";
import type { BenchSite } from "./site";
import { statementReport } from "./statementRows";
import { weightReport } from "./weightRows";
import { workerRows } from "./workerRows";

/** Parts that run in the bench's own process, in this order. */
export const PARTS: Readonly<Record<string, () => Promise<Report>>> = {
  blocks: async () => reportOf(await blockRows()),
  workers: async () => reportOf(await workerRows()),
  imports: async () => reportOf(await importRows()),
  rules: async () => reportOf(await domainRows()),
  database: async () => reportOf(await databaseRows()),
  search: async () => reportOf(await searchRows()),
};

/** Parts that ask a production server. */
export const SITE_PARTS: Readonly<Record<string, (site: BenchSite) => Promise<Report>>> = {
  pages: pageReport,
  loop: loopReport,
  statements: statementReport,
  weights: weightReport,
  browser: browserReport,
  acts: actReport,
};
