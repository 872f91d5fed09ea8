// Brings a tuner into the first demo shop who can be taken out again without a loss to other tests, with a job of three plain
// steps whose bike is here, and on which their time has run since three days ago: tsx newTuner.ts. Tells both as one line of JSON.
import { addToJob } from "@/lib/data/acceptance/addToJob";
import { openJob } from "@/lib/data/acceptance/openJob";
import { arriveJob } from "@/lib/data/jobs/states";
import { startTime } from "@/lib/data/jobs/time/run";
import { addStaff } from "@/lib/data/people/members";
import { createPerson } from "@/lib/data/people/signUp";
import { closeDirectory, directory } from "@/lib/db/directory";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { AddToJobSchema, OpenJobSchema } from "@/lib/schemas/agreements";
import { E2E } from "./e2eServer";

export interface NewTuner {
  readonly email: string;
  readonly name: string;
  readonly jobId: number;
}

const now = new Date();
const THREE_DAYS_MS = 3 * 86_400_000;
const found = await directory().read.shop.findUniqueOrThrow({
  where: { slug: "saltpan" },
  select: { id: true, database: true },
});
const shop = handleFor({ slug: "saltpan", database: found.database, server: "" }, SYSTEM, now);
const stamp = Date.now() % 100_000;
const person = { name: `Lio Marr ${stamp}`, email: `lio${stamp}@saltpan.example` };
const personId = await createPerson({ ...person, password: E2E.password }, now);
await directory().write((tx) =>
  tx.membership.create({ data: { personId, shopId: found.id, role: "tuner", createdAt: now } }),
);
const staffId = await addStaff(shop, { id: personId, name: person.name, role: "tuner" });

const [bike, grade] = await Promise.all([
  shop.read.bike.findFirstOrThrow({ orderBy: { id: "asc" } }),
  shop.read.labourGrade.findFirstOrThrow({ orderBy: { id: "asc" } }),
]);
const said = { minutes: "20", grade: grade.code };
const word = { kind: "word", saidBy: "Its owner", upTo: "5000" };
const jobId = await openJob(
  shop,
  OpenJobSchema.parse({ bikeId: String(bike.id), ...word, ...said, title: "Look at the boots" }),
);
for (const title of ["Look at the hoses", "Look at the cables"])
  await addToJob(shop, AddToJobSchema.parse({ jobId: String(jobId), title, ...said }));
const { version } = await shop.read.job.findUniqueOrThrow({ where: { id: jobId } });
await arriveJob(shop, { jobId, version, odometerKm: null });
const by = { personId, name: person.name, role: "tuner" as const, staffId };
await startTime({ ...shop, by, now: new Date(now.getTime() - THREE_DAYS_MS) }, { jobId });
console.log(JSON.stringify({ ...person, jobId } satisfies NewTuner));
await closeShops();
await closeDirectory();
