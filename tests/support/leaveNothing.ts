import { afterAll, vi } from "vitest";
import { rememberProcess } from "./leftBehind";

/** Files share a process: the next one finds no database open, no setting changed and the right time. */
const restore = rememberProcess();
afterAll(async () => {
  vi.useRealTimers();
  await restore();
});
