import { type APIRequestContext, expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { serverActions } from "../support/routes";
import { signIn } from "./people";

/** As a proxy that nobody told of would send it: counted apart from the other tests' sign-ins. */
const PROXIED = { "X-Forwarded-For": "203.0.113.7" };

async function tryPassword(request: APIRequestContext, email: string) {
  const { csrfToken } = (await (await request.get("/api/auth/csrf")).json()) as { csrfToken: string };
  return request.post("/api/auth/callback/credentials", {
    headers: { ...PROXIED, Origin: E2E.url },
    form: { csrfToken, email, password: "not the one at all", json: "true" },
    maxRedirects: 0,
  });
}

test.describe("the doors", () => {
  test("send people who come by 127.0.0.1 to the one address, with what they asked for", async ({
    request,
  }) => {
    const answer = await request.get(`http://127.0.0.1:${E2E.port}/signin?to=/account`, { maxRedirects: 0 });
    expect(answer.status()).toBe(307);
    expect(answer.headers().location).toBe(`${E2E.url}/signin?to=/account`);
    const health = await request.get(`http://127.0.0.1:${E2E.port}/api/health`, { maxRedirects: 0 });
    expect(health.status()).toBe(200);
    const form = await request.post("/signin", { headers: { Origin: "http://192.168.7.7:9" }, data: "x" });
    expect(form.status()).toBe(403);
    expect(await form.text()).toContain(`Open ${E2E.url}`);
  });

  test("take 16 KB and no more, whatever is sent", async ({ request }) => {
    const headers = { Origin: E2E.url, "Content-Type": "application/x-www-form-urlencoded" };
    for (const address of [
      "/signin",
      "/signup",
      "/reset",
      "/api/auth/callback/credentials",
      "/c/saltpan/x",
    ]) {
      const answer = await request.post(address, { headers, data: `email=${"a".repeat(50_000)}` });
      expect(answer.status(), address).toBe(413);
      expect(await answer.text()).toContain("larger than the 16 KB");
    }
    const form = await request.post("/s/saltpan/customers", { headers, data: "a".repeat(2_000_000) });
    expect(form.status()).toBe(413);
    // Whoever is signed out is sent to the door, which comes after the body was let through.
    const data = "a".repeat(2_000_000);
    const file = await request.post("/s/saltpan/import/parts", { headers, data, maxRedirects: 0 });
    expect(file.status(), await file.text()).toBe(307);
  });

  test("answer 429 with Retry-After to tries that fail too often, by words that say how long", async ({
    request,
  }) => {
    const statuses: number[] = [];
    for (let n = 0; n < 11; n++)
      statuses.push((await tryPassword(request, "nobody@saltpan.example")).status());
    expect(statuses.slice(0, 10)).toEqual(Array(10).fill(401));
    const last = await tryPassword(request, "nobody@saltpan.example");
    expect(last.status()).toBe(429);
    expect(Number(last.headers()["retry-after"])).toBeGreaterThan(0);
    expect(decodeURIComponent(((await last.json()) as { url: string }).url).replaceAll("+", " ")).toMatch(
      /Too many tries in a short time\. Wait \d+ seconds?/,
    );
  });

  test("remember a browser that signed in, out of reach of scripts", async ({ page }) => {
    await signIn(page, "saltpanDesk");
    const device = (await page.context().cookies()).find((one) => one.name === "throttlewright-device");
    expect(device).toMatchObject({ httpOnly: true, sameSite: "Lax" });
    expect(device?.value).toMatch(/^[\w-]{27}\.[\w-]{43}$/);
  });

  test("lead nowhere else after signing in", async ({ page }) => {
    await signIn(page, "saltpanDesk");
    for (const to of [
      "/.//evil.example",
      "/..//evil.example",
      "/%2e%2e//evil.example",
      "/s/../..//evil.example",
    ]) {
      const answer = await page.request.get(`/signin?to=${encodeURIComponent(to)}`, { maxRedirects: 0 });
      const location = new URL(answer.headers().location ?? "/", `${E2E.url}/signin`);
      expect(location.origin, to).toBe(E2E.url);
    }
  });

  test("slow the present password down like the sign-in, with 429 for a form too", async ({ page }) => {
    await signIn(page, "saltpanBooks");
    const action = serverActions().find((one) => one.name === "changeOwnPassword");
    if (!action) throw new Error("The action to change a password is gone.");
    const form = () => {
      const data = new FormData();
      data.append("_1_currentPassword", "not the one at all");
      data.append("_1_password", "another one, long enough");
      data.append("0", '[{"seq":0},"$K1"]');
      return data;
    };
    const ask = () =>
      page.request.post("/account", {
        headers: { "Next-Action": action.id, Accept: "text/x-component", Origin: E2E.url },
        multipart: form(),
        maxRedirects: 0,
      });
    for (let n = 0; n < 5; n++) expect((await ask()).status()).toBe(200);
    const answer = await ask();
    expect(answer.status()).toBe(429);
    expect(answer.headers()["retry-after"]).toBe("1");
    expect(await answer.text()).toContain("Too many tries in a short time.");
  });

  test("count a calendar's address that does not open, and answer 429 once there are too many", async ({
    request,
  }) => {
    const ask = () => request.get(`/api/c/saltpan/calendar/${"x".repeat(27)}.ics`, { headers: PROXIED });
    for (let n = 0; n < 20; n++)
      for (const one of await Promise.all(Array.from({ length: 30 }, ask))) expect(one.status()).toBe(404);
    const answer = await ask();
    expect(answer.status()).toBe(429);
    expect(Number(answer.headers()["retry-after"])).toBeGreaterThan(0);
    expect(await answer.text()).toContain("Too many tries");
  });
});
