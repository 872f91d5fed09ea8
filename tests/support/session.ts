import { DEMO_PEOPLE } from "../../demo/signIns";

/** Signs a demo person in without a browser; answers the cookie that says so. */
export async function sessionCookie(
  base: string,
  who: keyof typeof DEMO_PEOPLE,
  password: string,
): Promise<string> {
  const jar = new Map<string, string>();
  const keep = (response: Response) => {
    for (const line of response.headers.getSetCookie()) {
      const [pair = ""] = line.split(";");
      const at = pair.indexOf("=");
      jar.set(pair.slice(0, at), pair.slice(at + 1));
    }
  };
  const cookies = () => [...jar].map(([name, value]) => `${name}=${value}`).join("; ");
  const csrf = await fetch(`${base}/api/auth/csrf`);
  keep(csrf);
  const { csrfToken } = (await csrf.json()) as { csrfToken: string };
  const answer = await fetch(`${base}/api/auth/callback/credentials`, {
    method: "POST",
    redirect: "manual",
    headers: { "Content-Type": "application/x-www-form-urlencoded", Origin: base, Cookie: cookies() },
    body: new URLSearchParams({ csrfToken, email: DEMO_PEOPLE[who].email, password, json: "true" }),
  });
  keep(answer);
  return cookies();
}
