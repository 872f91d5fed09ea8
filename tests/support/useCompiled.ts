import { inject } from "vitest";

/** What a test starts of ours in a process or thread of its own runs compiled, as under a production server. */
Object.assign(globalThis, { throttlewrightCompiled: inject("compiled") });
