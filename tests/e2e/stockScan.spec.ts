import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, expect, type Page, test } from "@playwright/test";
import { chromiumPath } from "../support/chromium";
import { E2E } from "../support/e2eServer";
import { writeLabelVideo } from "../support/labelVideo";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const JET = "MH-125";
const SCAN = "/s/saltpan/stock/scan";
const work = mkdtempSync(join(tmpdir(), "throttlewright-camera-"));
const video = join(work, "label.y4m");
const FAKE_CAMERA = ["--use-fake-device-for-media-stream", `--use-file-for-fake-video-capture=${video}`];
const open: Browser[] = [];

test.beforeAll(() => writeLabelVideo(video, JET));
test.afterEach(async () => {
  for (const browser of open.splice(0)) await browser.close();
});
test.afterAll(() => rmSync(work, { recursive: true, force: true }));

/** A phone in a browser of its own: what a camera is there, and whether it is allowed, is settled when it starts. */
async function phone(flags: readonly string[], permissions: string[] = []): Promise<Page> {
  const executablePath = chromiumPath();
  const browser = await chromium.launch({
    ...(executablePath ? { executablePath } : {}),
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", ...flags],
  });
  open.push(browser);
  const context = await browser.newContext({
    baseURL: E2E.url,
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    permissions,
  });
  return context.newPage();
}

/** Addresses of our server and of any other that the page asks for from now on. */
function asked(page: Page): string[] {
  const addresses: string[] = [];
  page.on("request", (request) => addresses.push(request.url()));
  return addresses;
}

const reader = (address: string) => address.includes("/api/zxing");
/** True once no camera of the page is live any more. */
const cameraOff = (page: Page) =>
  page.evaluate(() => {
    const streams = (window as unknown as { streams?: MediaStream[] }).streams ?? [];
    return streams.length > 0 && streams.every((s) => s.getTracks().every((t) => t.readyState === "ended"));
  });
const watchStreams = (page: Page) =>
  page.addInitScript(() => {
    const kept: MediaStream[] = [];
    (window as unknown as { streams: MediaStream[] }).streams = kept;
    const devices = navigator.mediaDevices;
    const ask = devices.getUserMedia.bind(devices);
    devices.getUserMedia = async (want) => {
      const stream = await ask(want);
      kept.push(stream);
      return stream;
    };
  });

/** The field that a hand scanner types into, which ends with Enter, leads to the part. */
async function wedge(page: Page): Promise<void> {
  const field = page.getByRole("textbox", { name: "Code, size or words" });
  await expect(field).toBeFocused();
  await page.keyboard.type(JET);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Found" })).toBeVisible();
  await expect(page.getByRole("link", { name: JET, exact: true })).toBeVisible();
}

test("the camera reads a label with the reader from our own server, fetched only then, and is off again", async () => {
  const page = await phone([...FAKE_CAMERA, "--use-fake-ui-for-media-stream"]);
  const ears = listen(page);
  await watchStreams(page);
  // Whatever this browser has of its own, here it has none.
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, "BarcodeDetector"));
  await signIn(page, "saltpanTuner");
  const addresses = asked(page);
  await page.goto("/s/saltpan/stock");
  const answer = await page.goto(SCAN);
  expect(answer?.headers()["permissions-policy"]).toContain("camera=(self)");
  await demandUsable(page);
  expect(addresses.filter(reader)).toEqual([]);

  const wasm = page.waitForResponse((response) => reader(response.url()));
  await page.getByRole("button", { name: "Use the camera" }).tap();
  await expect(page.getByText("Hold the label's code before the camera.")).toBeVisible();
  await expect(page.getByRole("heading", { name: "Found" })).toBeVisible({ timeout: 40_000 });
  await expect(page.getByRole("link", { name: JET, exact: true })).toBeVisible();
  await expect(page).toHaveURL(new RegExp(`code=${JET}$`));
  expect((await wasm).headers()["content-type"]).toBe("application/wasm");
  expect(addresses.filter(reader).length).toBeGreaterThan(0);
  expect(
    addresses.filter((address) => !address.startsWith(E2E.url) && !/^(blob|data):/.test(address)),
  ).toEqual([]);
  expect(await cameraOff(page)).toBe(true);
  await demandUsable(page);
  ears.demandQuiet();
});

test("a browser's own reader is used where it has one, and ours is not fetched", async () => {
  const page = await phone([...FAKE_CAMERA, "--use-fake-ui-for-media-stream"]);
  await page.addInitScript((code) => {
    class BarcodeDetector {
      static getSupportedFormats = async () => ["code_128", "qr_code"];
      /** Stands in for the browser's: answers only for a picture that is playing. */
      detect = async (source: HTMLVideoElement) =>
        source.videoWidth > 0 && !source.paused ? [{ rawValue: code }] : [];
    }
    Object.assign(globalThis, { BarcodeDetector });
  }, JET);
  await signIn(page, "saltpanTuner");
  const addresses = asked(page);
  await page.goto(SCAN);
  await page.getByRole("button", { name: "Use the camera" }).tap();
  await expect(page.getByRole("link", { name: JET, exact: true })).toBeVisible();
  expect(addresses.filter(reader)).toEqual([]);
});

test("a camera that is refused says what to do, and a hand scanner goes on", async () => {
  const page = await phone([...FAKE_CAMERA, "--deny-permission-prompts"]);
  const ears = listen(page);
  await signIn(page, "saltpanTuner");
  const addresses = asked(page);
  await page.goto(SCAN);
  await page.getByRole("button", { name: "Use the camera" }).tap();
  await expect(page.getByRole("status").filter({ hasText: "Allow it for this page" })).toBeVisible();
  await expect(page.getByRole("button", { name: "Use the camera" })).toBeVisible();
  expect(addresses.filter(reader)).toEqual([]);
  await demandUsable(page);
  await wedge(page);
  ears.demandQuiet();
});

test("where there is no camera it says so, and a hand scanner goes on", async () => {
  const page = await phone(
    ["--use-fake-device-for-media-stream=device-count=0", "--use-fake-ui-for-media-stream"],
    ["camera"],
  );
  const ears = listen(page);
  await signIn(page, "saltpanTuner");
  await page.goto(SCAN);
  await page.getByRole("button", { name: "Use the camera" }).tap();
  await expect(page.getByRole("status").filter({ hasText: "There is no camera here." })).toBeVisible();
  await wedge(page);
  ears.demandQuiet();
});

test("an address that is not secure has no camera at all, and says where there is one", async () => {
  const page = await phone([]);
  await page.addInitScript(() => Object.defineProperty(navigator, "mediaDevices", { value: undefined }));
  await signIn(page, "saltpanTuner");
  await page.goto(SCAN);
  await page.getByRole("button", { name: "Use the camera" }).tap();
  await expect(page.getByRole("status").filter({ hasText: "https address" })).toBeVisible();
  await wedge(page);
});
