"use server";
import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import type { FormState } from "@/app/_ui/formState";
export async function kitAct(prev: FormState, data: FormData): Promise<FormState> {
  const values: Record<string, string | string[]> = {};
  for (const [k, v] of data) if (typeof v === "string" && !k.startsWith("_") && !k.startsWith("$")) values[k] = k in values ? [values[k] as string, v].flat() : v;
  if (data.get("jet") === "999") throw new Error("bang");
  if (data.get("name") === "go") { (await cookies()).set("said", "Saved and went, å", { maxAge: 20, path: "/" }); redirect("/zz-kit?went=1"); }
  if (data.get("name") !== "ok")
    return { seq: prev.seq + 1, ok: false, message: "The quote was not saved.", remedy: "Look at the marked fields.", fields: { name: "Write ok as the name.", jet: "Main jet is 20, outside 60 to 220." }, values };
  return { seq: prev.seq + 1, ok: true, toast: "Quote 1042 saved, key " + String(data.get("_key")).slice(0, 6), undo: { fields: { id: "1" } } };
}
export async function kitUndo(prev: FormState): Promise<FormState> {
  return { seq: prev.seq + 1, ok: true, toast: "Taken back" };
}
