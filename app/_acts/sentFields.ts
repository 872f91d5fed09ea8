import type { SentAct } from "@/lib/data/jobs/bothVersions";

/** What a device sent, without what the gate reads of it. */
export function sentFields(data: FormData): SentAct {
  const id = (name: string) => {
    const text = data.get(name);
    return typeof text === "string" && /^[1-9]\d{0,8}$/.test(text) ? Number(text) : null;
  };
  const fields = [...data].flatMap(([name, value]) =>
    typeof value === "string" && !name.startsWith("_") ? [[name, value] as const] : [],
  );
  return {
    jobId: id("jobId") ?? id("_job"),
    stepId: id("stepId"),
    reservationId: id("reservationId"),
    fields,
  };
}
