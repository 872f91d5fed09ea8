import { type APIResponse, expect, type Page, test } from "@playwright/test";
import { may, type Permission, type Role } from "../../lib/domain/access/permissions";
import { E2E } from "../support/e2eServer";
import {
  type ServerAction,
  serverActions,
  shopActRoutes,
  shopAddresses,
  shopUploads,
  type Upload,
} from "../support/routes";
import { signIn, type Who } from "./people";

const CANARIES = ["Saltpan Carburettor Works", "51 824 753 556", "51824753556", "saltpan.example"];
const addresses = shopAddresses("saltpan");

function demandNoCanary(text: string, address: string): void {
  for (const canary of CANARIES) expect(text.includes(canary), `${address} shows "${canary}"`).toBe(false);
}

/** Calls a server action the way the browser does: React's reply format for (state, form data). */
function call(
  page: Page,
  action: ServerAction,
  fields: Record<string, string>,
  headers: Record<string, string> = {},
): Promise<APIResponse> {
  // The fields must come before "0", which refers to them; an object would put the number first.
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(`_1_${name}`, value);
  form.append("0", '[{"seq":0},"$K1"]');
  const address = action.page.replace("[shop]", "saltpan").replace(/\[[^\]]+\]/g, "1");
  return page.request.post(address, {
    headers: { "Next-Action": action.id, Accept: "text/x-component", Origin: E2E.url, ...headers },
    multipart: form,
    maxRedirects: 0,
  });
}

/** A picture of one pixel, as a page of ours would send it. */
const PIXEL = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  "base64",
);

/** Sends the picture to an upload route; what it would be a photo of is there in the shop it is sent to. */
function upload(page: Page, { address }: Upload, headers: Record<string, string> = {}): Promise<APIResponse> {
  return page.request.post(`${address}?noun=part&id=1`, {
    headers: { Origin: E2E.url, "Content-Type": "application/octet-stream", ...headers },
    data: PIXEL,
  });
}

const ofShop = () => serverActions().filter((action) => action.file.startsWith("app/s/"));

test.describe("what belongs to one shop", () => {
  test("reaches an action with its fields: its own owner is answered about them", async ({ page }) => {
    await signIn(page, "saltpanOwner");
    const action = ofShop().find((one) => one.name === "makeBay");
    if (!action) throw new Error("The action to add a bay is gone.");
    const text = await (await call(page, action, { _shop: "saltpan", name: "" })).text();
    expect(text).toContain("Enter a name.");
  });

  test("is found in the route tree, pages and actions alike", () => {
    expect(addresses.length).toBeGreaterThan(20);
    expect(ofShop().length).toBeGreaterThan(20);
    expect(ofShop().filter((action) => action.permission === null)).toEqual([]);
  });

  // The pages open for their owner in pages.spec.ts.
  test("gives its files to its own owner, so that the refusals below mean something", async ({ page }) => {
    await signIn(page, "saltpanOwner");
    const failures: string[] = [];
    for (const address of addresses.filter((one) => one.startsWith("/api/"))) {
      const response = await page.request.get(address, { maxRedirects: 5 });
      if (response.status() >= 500) failures.push(`${response.status()} ${address}`);
    }
    expect(failures).toEqual([]);
  });

  test("is not found by another shop's owner: pages, their data requests and files", async ({ page }) => {
    await signIn(page, "fjellrevOwner");
    for (const address of addresses)
      for (const headers of [{}, { RSC: "1" }] as Record<string, string>[]) {
        const response = await page.request.get(address, { headers, maxRedirects: headers.RSC ? 2 : 0 });
        const text = await response.text();
        expect([404, 200].includes(response.status()), `${address} ${response.status()}`).toBe(true);
        // A data request may answer 200 with a "not found" tree; never with the shop's words.
        if (!headers.RSC) expect(response.status(), address).toBe(404);
        demandNoCanary(text, address);
      }
  });

  test("sends someone who is signed out to the sign-in page, or says nothing", async ({ page }) => {
    for (const address of addresses) {
      const response = await page.request.get(address, { maxRedirects: 0 });
      expect([307, 303, 404].includes(response.status()), `${address} ${response.status()}`).toBe(true);
      demandNoCanary(await response.text(), address);
    }
  });

  test("takes files from its own people, and from nobody else: no stranger, nobody signed out, no foreign page", async ({
    page,
    browser,
  }) => {
    const uploads = shopUploads("saltpan");
    expect(uploads.length).toBeGreaterThan(0);
    expect(uploads.filter((one) => one.permission === null)).toEqual([]);
    const out = await browser.newPage();
    const stranger = await browser.newPage();
    await signIn(stranger, "fjellrevOwner");
    await signIn(page, "saltpanOwner");
    for (const one of uploads) {
      expect((await upload(out, one)).status(), `${one.address}, signed out`).toBe(401);
      const theirs = await upload(stranger, one);
      expect(theirs.status(), `${one.address}, another shop's owner`).toBe(404);
      demandNoCanary(await theirs.text(), one.address);
      for (const headers of [
        { Origin: "https://elsewhere.example" },
        { Origin: "https://elsewhere.example", "X-Forwarded-Host": "elsewhere.example" },
        { "Sec-Fetch-Site": "cross-site" },
      ] as Record<string, string>[])
        expect((await upload(page, one, headers)).status(), JSON.stringify(headers)).toBe(403);
      const own = await upload(page, one);
      expect(own.status(), await own.text()).toBe(200);
    }
  });

  test("takes a device's acts from its own people alone", async ({ page, browser }) => {
    const [out, stranger] = [await browser.newPage(), await browser.newPage()];
    await signIn(stranger, "fjellrevOwner");
    await signIn(page, "saltpanOwner");
    const routes = shopActRoutes("saltpan");
    expect(routes.length).toBeGreaterThan(0);
    const time = String(Date.now());
    const multipart = {
      _act: "noteStep",
      _key: "isolation-key-1",
      _at: time,
      _sent: time,
      stepId: "1",
      text: "Note.",
    };
    const act = (from: Page, address: string, headers: Record<string, string> = {}) =>
      from.request.post(address, { headers: { Origin: E2E.url, ...headers }, multipart });
    for (const address of routes) {
      expect((await act(out, address)).status(), `${address}, signed out`).toBe(401);
      const theirs = await act(stranger, address);
      expect(theirs.status(), `${address}, another shop's owner`).toBe(404);
      demandNoCanary(await theirs.text(), address);
      for (const headers of [{ Origin: "https://elsewhere.example" }, { "Sec-Fetch-Site": "cross-site" }])
        expect((await act(page, address, headers as Record<string, string>)).status(), address).toBe(403);
      // Of its own people it is read, and judged as its form would be.
      expect((await act(page, address)).status(), address).toBe(200);
    }
  });

  test("refuses every action to another shop's owner", async ({ page }) => {
    await signIn(page, "fjellrevOwner");
    for (const action of ofShop()) {
      const text = await (await call(page, action, { _shop: "saltpan", id: "1", version: "1" })).text();
      expect(text, `${action.file} ${action.name}`).toContain("There is no such shop for you");
      demandNoCanary(text, action.name);
    }
  });

  test("refuses every action to someone signed out", async ({ page }) => {
    for (const action of ofShop()) {
      const text = await (await call(page, action, { _shop: "saltpan", id: "1", version: "1" })).text();
      expect(text, `${action.file} ${action.name}`).toContain("You are signed out");
    }
  });

  test("refuses every action without an Origin, or with a foreign one", async ({ page }) => {
    await signIn(page, "saltpanOwner");
    const [action] = ofShop();
    if (!action) throw new Error("no action");
    const foreign = await call(page, action, { _shop: "saltpan" }, { Origin: "https://elsewhere.example" });
    expect(await foreign.text()).not.toContain('"ok":true');
    expect(foreign.status() >= 400 || (await foreign.text()).includes("own pages")).toBe(true);
    const spoofed = await call(
      page,
      action,
      { _shop: "saltpan" },
      { Origin: "https://elsewhere.example", "X-Forwarded-Host": "elsewhere.example" },
    );
    expect(spoofed.status() >= 400 || (await spoofed.text()).includes("own pages")).toBe(true);
    const post = await page.request.post("/api/auth/signout", {
      headers: { Origin: "https://elsewhere.example" },
    });
    expect(post.status()).toBe(403);
  });
});

const ROLE_OF: Partial<Record<Who, Role>> = {
  saltpanDesk: "desk",
  saltpanTuner: "tuner",
  saltpanBooks: "books",
};

for (const [who, role] of Object.entries(ROLE_OF) as [Who, Role][])
  test(`the role ${role} may do in actions exactly what the permission table says`, async ({ page }) => {
    await signIn(page, who);
    for (const one of shopUploads("saltpan"))
      expect((await upload(page, one)).status() === 403, `${one.address} needs ${one.permission}`).toBe(
        !may(role, one.permission as Permission),
      );
    for (const action of ofShop()) {
      const text = await (await call(page, action, { _shop: "saltpan", version: "-1" })).text();
      const refused = text.includes(`Your role (${role}) may not do this`);
      expect(refused, `${action.name} needs ${action.permission}: ${text.slice(0, 300)}`).toBe(
        !may(role, action.permission as Permission),
      );
    }
  });
