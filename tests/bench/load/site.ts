import type { DEMO_PEOPLE } from "../../../demo/signIns";
import { serverActions } from "../../support/routes";
import { sessionCookie } from "../../support/session";

/** A signed-in person's way to a running server, from another process. */
export interface Site {
  readonly base: string;
  readonly shop: string;
  readonly cookie: string;
}

export interface Answered {
  readonly status: number;
  readonly text: string;
}

const patience = () => AbortSignal.timeout(120_000);

export async function get(site: Site, path: string): Promise<Answered> {
  const response = await fetch(site.base + path, {
    headers: { Cookie: site.cookie },
    redirect: "manual",
    signal: patience(),
  });
  return { status: response.status, text: await response.text() };
}

const actions = serverActions();

/** Calls a server action as the browser does: React's reply format for (state, form data). */
export async function act(
  site: Site,
  file: string,
  name: string,
  fields: Iterable<readonly [string, string]>,
): Promise<Answered> {
  const action = actions.find((one) => one.name === name && one.file.endsWith(file));
  if (!action) throw new Error(`The build has no action ${name} in ${file}.`);
  const form = new FormData();
  // The fields come before "0", which refers to them.
  for (const [field, value] of fields) form.append(`_1_${field}`, value);
  form.append("0", '[{"seq":0},"$K1"]');
  const page = action.page.replace("[shop]", site.shop).replace(/\[[^\]]+\]/g, "1");
  const response = await fetch(site.base + page, {
    method: "POST",
    headers: {
      "Next-Action": action.id,
      Accept: "text/x-component",
      Origin: site.base,
      Cookie: site.cookie,
    },
    body: form,
    redirect: "manual",
    signal: patience(),
  });
  return { status: response.status, text: await response.text() };
}

export type Person = keyof typeof DEMO_PEOPLE;

export async function signIn(base: string, who: Person, password: string): Promise<Site> {
  const cookie = await sessionCookie(base, who, password);
  return { base, shop: who.startsWith("fjellrev") ? "fjellrev" : "saltpan", cookie };
}
