import { existsSync } from "node:fs";
import { join } from "node:path";
import { projectRoot } from "@/lib/db/folders";

/** Whether this server can make sample shops: what they are made of may have been left out of it. */
export const sampleOffered = (): boolean => existsSync(join(projectRoot, "demo/sample.ts"));
